/** The one table of who may do what: every route with the least that it asks for. A route not in it answers nobody. */
import type { Role } from '#work/people-port.ts'

/** `anyone` needs no sign-in; `reader` is anybody of the farm, a program with a token too. */
export type Need = 'anyone' | 'reader' | 'crew' | 'planner' | 'owner'

export const ROUTES: { readonly [route: string]: Need } = {
  'GET /': 'reader',
  'GET /week': 'reader',
  'GET /fields': 'reader',
  'GET /fields/:id': 'reader',
  'GET /sources': 'reader',
  'GET /skill': 'reader',
  'GET /today.json': 'reader',
  'GET /assets/:name': 'anyone',
  'GET /health': 'anyone',
  'GET /health/live': 'anyone',
  'GET /health/ready': 'anyone',
  'GET /metrics': 'reader',
  'GET /cab': 'reader',
  'GET /cab/reading': 'crew',
  'POST /cab/reading': 'crew',
  'GET /cab/cut': 'crew',
  'POST /cab/cut': 'crew',
  'GET /cab/problem': 'crew',
  'POST /cab/problem': 'crew',
  'GET /messages': 'planner',
  'POST /messages/resend': 'planner',
  'GET /settings': 'planner',
  'GET /api': 'reader',
  'GET /api/openapi.json': 'reader',
  'GET /api/live': 'reader',
  'GET /api/day': 'reader',
  'GET /api/skill': 'reader',
  'GET /api/sources': 'reader',
  'GET /api/settings': 'planner',
  'GET /api/fields': 'reader',
  'GET /api/fields.geojson': 'reader',
  'PUT /api/fields.geojson': 'planner',
  'POST /api/patches': 'planner',
  'DELETE /api/patches': 'planner',
  'GET /api/readings': 'reader',
  'POST /api/readings': 'crew',
  'DELETE /api/readings': 'crew',
  'GET /api/readings.csv': 'reader',
  'GET /api/tickets.csv': 'reader',
  'GET /api/cuts': 'reader',
  'POST /api/cuts': 'crew',
  'DELETE /api/cuts': 'crew',
  'GET /api/cuts.csv': 'reader',
  'GET /api/events': 'reader',
  'POST /api/events': 'crew',
  'DELETE /api/events': 'crew',
  'GET /api/events.csv': 'reader',
  'GET /api/messages': 'planner',
  'POST /api/messages/resend': 'planner',
  'POST /api/problems': 'crew',
  'GET /api/alerts': 'reader',
  'POST /api/alerts/acknowledge': 'crew',
  'GET /api/people': 'owner',
  'DELETE /api/people': 'owner',
  'POST /api/invitations': 'owner',
  'GET /api/tokens': 'owner',
  'POST /api/tokens': 'owner',
  'DELETE /api/tokens': 'owner',
  'GET /api/audit': 'owner',
  'GET /sw.js': 'anyone',
  'GET /manifest.webmanifest': 'anyone',
  'GET /sign-in': 'anyone',
  'POST /sign-in': 'anyone',
  'GET /join/:token': 'anyone',
  'POST /join/:token': 'anyone',
  'GET /you': 'crew',
  'POST /sign-out': 'crew',
  'GET /people': 'owner',
  'POST /people/invite': 'owner',
  'POST /people/remove': 'owner',
  'POST /people/tokens': 'owner',
  'POST /people/tokens/end': 'owner',
}

const RANK: { readonly [R in Role]: number } = { crew: 1, planner: 2, owner: 3 }
const NEEDED: { readonly [N in Exclude<Need, 'anyone'>]: number } = { reader: 1, crew: 1, planner: 2, owner: 3 }

/** Who asks, as far as rights go. `onlooker`: nobody known, where the farm lets everybody look. */
export type Rights = Role | 'onlooker' | 'stranger'

export function mayDo(rights: Rights, need: Need, method: string): boolean {
  if (need === 'anyone') return true
  if (rights === 'stranger') return false
  if (rights === 'onlooker') return method === 'GET' && need !== 'owner' && need !== 'crew'
  return RANK[rights] >= NEEDED[need]
}
