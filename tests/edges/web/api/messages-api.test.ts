import { describe, expect, it } from 'vitest'
import { type AlertStore, type KeptAlerts, NOTHING_KEPT } from '#app/alert-store.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, type Site, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const now = service.clock()

async function withParcels(): Promise<Site> {
  const site = await siteOf(service)
  const base = {
    farmId: service.farm.id,
    kind: 'morning',
    subject: '',
    date: '2010-09-30',
    channel: 'mail',
    body: '{"text":"Run Twin Elms"}',
    urgent: false,
    createdEpochH: now - 3,
  } as const
  await site.outbox.post([
    { ...base, recipient: 'orla-fenn', target: 'orla@example.org', closesEpochH: now - 1 },
    { ...base, recipient: 'wim-tallow', target: 'wim@example.org', closesEpochH: now + 5 },
  ])
  await site.outbox.lapse(now)
  return site
}

interface Messages {
  items: { key: string; recipient: string; state: string }[]
  next: string | null
}
const messages = async (site: Site, query = '') =>
  (await (await asked(site, 'planner', `GET /api/messages${query}`)).json()) as Messages

describe('messages', () => {
  it('are listed with their state, page by page, without address and text', async () => {
    const site = await withParcels()
    const first = await messages(site, '?limit=1')
    const second = await messages(site, `?limit=1&after=${encodeURIComponent(first.next!)}`)
    expect(second.next).toBeNull()
    const items = [...first.items, ...second.items]
    expect(items.map(({ recipient, state }) => `${recipient} ${state}`).toSorted()).toEqual([
      'orla-fenn lapsed',
      'wim-tallow waiting',
    ])
    expect(JSON.stringify(items)).not.toMatch(/example\.org|Twin Elms/)
  })

  it('that did not get through go back into the queue, once, and no other does', async () => {
    const site = await withParcels()
    const { items } = await messages(site)
    const keyOf = (state: string) => items.find((item) => item.state === state)!.key
    const resend = async (key: string) => (await asked(site, 'planner', 'POST /api/messages/resend', { key })).status
    expect(await resend(keyOf('lapsed'))).toBe(204)
    expect(await resend(keyOf('lapsed'))).toBe(409)
    expect(await resend(keyOf('waiting'))).toBe(409)
    expect(await resend('nothing')).toBe(409)
  })
})

describe('a problem', () => {
  it('goes to owner and planner at once, and once under its key', async () => {
    const site = await siteOf(service)
    const told = { kind: 'stuck', text: 'to the axles', field: 'Mill Forty' }
    const first = await asked(site, 'crew', 'POST /api/problems', told, 'problem-1')
    expect(first.status).toBe(201)
    expect(((await first.json()) as { posted: number }).posted).toBeGreaterThan(0)
    expect(await (await asked(site, 'crew', 'POST /api/problems', told, 'problem-1')).json()).toEqual({ posted: 0 })
    const [parcel] = await site.outbox.recent(service.farm.id, 10)
    expect(parcel).toMatchObject({ kind: 'problem', urgent: true })
    expect(parcel!.body).toContain('to the axles')
    expect((await asked(site, 'crew', 'POST /api/problems', { ...told, field: 'nowhere' })).status).toBe(404)
    expect((await asked(site, 'crew', 'POST /api/problems', { kind: 'bored' })).status).toBe(422)
  })
})

describe('alerts', () => {
  it('that are on are listed, and acknowledged by whoever heard them', async () => {
    const said = { kind: 'fire-stop' } as never
    const standing = { phase: 'on', id: 'fire-stop/all/7', sinceEpochH: now - 1, said } as const
    const kept = { ...NOTHING_KEPT, board: { told: undefined, standings: { 'fire-stop/all': standing } } }
    const heard: string[] = []
    const alerts: Pick<AlertStore, 'load' | 'acknowledge' | 'isAcknowledged'> = {
      load: () => Promise.resolve({ version: 1, kept: kept as unknown as KeptAlerts }),
      acknowledge: (_, alert, person) => Promise.resolve(heard.push(`${alert} ${person}`) > 0),
      isAcknowledged: (_, alert) => Promise.resolve(heard.some((line) => line.startsWith(alert))),
    }
    const site = await siteOf(service, {}, undefined, { alerts: alerts as AlertStore })
    const list = async () => await (await asked(site, 'crew', 'GET /api/alerts')).json()
    const alert = { id: 'fire-stop/all/7', kind: 'fire-stop', subject: 'all', since: expect.any(String) }
    expect(await list()).toEqual({ items: [{ ...alert, acknowledged: false }] })
    const acknowledge = async (id: string) =>
      (await asked(site, 'crew', 'POST /api/alerts/acknowledge', { alert: id })).status
    expect(await acknowledge('fire-stop/all/8')).toBe(404)
    expect(await acknowledge('fire-stop/all/7')).toBe(204)
    expect(heard).toEqual(['fire-stop/all/7 cal-crew'])
    expect(await list()).toEqual({ items: [{ ...alert, acknowledged: true }] })
  })
})
