/** Who asks, and whether he may: by session cookie or bearer token, against the table of routes. */
import type { Context, MiddlewareHandler } from 'hono'
import { getCookie } from 'hono/cookie'
import { matchedRoutes } from 'hono/route'
import { accountOf, type People, tokenOf } from '#app/people.ts'
import type { Account } from '#app/people-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { failure, problem, wantsPage } from '#edges/web/errors.ts'
import { mayDo, type Need, type Rights, ROUTES } from './roles.ts'

export const COOKIE = 'threshday_session'

export interface Who {
  readonly rights: Rights
  /** Id of the person, name of the program's token, or empty. */
  readonly name: string
  /** Present for a person who signed in. */
  readonly account?: Account
}

export interface WebEnv {
  Variables: { who: Who; requestId: string }
}

export interface GuardOptions {
  readonly farm: Farm
  /** Absent: nobody can sign in. */
  readonly people: People | undefined
  /** Everybody may look, nobody unknown may change anything: the demo on loopback. */
  readonly openReading: boolean
}

export function guard(options: GuardOptions): MiddlewareHandler<WebEnv> {
  return async (context, next) => {
    const who = await whoAsks(context, options)
    context.set('who', who)
    const need = needOf(context)
    // No such route: the answer is the same for all.
    if (need === undefined) return await next()
    if (mayDo(who.rights, need, methodOf(context))) return await next()
    if (who.rights !== 'stranger' && who.rights !== 'onlooker') return failure(context, options.farm, 'not-allowed')
    if (wantsPage(context) && methodOf(context) === 'GET') {
      return context.redirect(`/sign-in?next=${encodeURIComponent(context.req.path)}`, 303)
    }
    const refused = wantsPage(context)
      ? await failure(context, options.farm, 'not-signed-in')
      : problem(context, 'not-signed-in')
    refused.headers.set('www-authenticate', 'Bearer')
    return refused
  }
}

/** A HEAD is answered by the GET of its route. */
const methodOf = (context: Context): string => (context.req.method === 'HEAD' ? 'GET' : context.req.method)

/** @throws for a route that the table does not list, so that it can't be served by oversight. */
function needOf(context: Context): Need | undefined {
  const route = matchedRoutes(context).findLast(({ method }) => method !== 'ALL')
  if (!route) return undefined
  const need = ROUTES[`${methodOf(context)} ${route.path}`]
  if (need === undefined) throw new Error(`No role is stated for ${methodOf(context)} ${route.path}`)
  return need
}

async function whoAsks(context: Context, { people, openReading }: GuardOptions): Promise<Who> {
  const unknown: Who = { rights: openReading ? 'onlooker' : 'stranger', name: '' }
  if (!people) return unknown
  const [scheme, bearer] = (context.req.header('authorization') ?? '').split(' ')
  if (scheme?.toLowerCase() === 'bearer' && bearer) {
    const token = await tokenOf(people, bearer)
    // A wrong token is refused even where everybody may look: whoever sends one means to be known.
    return { rights: token?.role ?? 'stranger', name: token?.name ?? '' }
  }
  const cookie = getCookie(context, COOKIE)
  const account = cookie && (await accountOf(people, cookie))
  return account ? { rights: account.role, name: account.id, account } : unknown
}
