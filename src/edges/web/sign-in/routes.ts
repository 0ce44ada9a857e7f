/** Signing in and out, joining by an invitation, and the owner's page of people. */
import { getConnInfo } from '@hono/node-server/conninfo'
import { type Context, Hono } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { z } from 'zod'
import {
  endToken,
  invite,
  join,
  makeToken,
  openInvitation,
  type People,
  removeAccount,
  signIn,
  signOut,
} from '#app/people.ts'
import { failure } from '#edges/web/errors.ts'
import { languageOf } from '#edges/web/language.ts'
import type { Markup, Viewer } from '#edges/web/layout.ts'
import { actorIn } from './actor.ts'
import { COOKIE, type WebEnv } from './guard.ts'
import { joinPage, peoplePage, signInPage, youPage } from './pages.ts'
import { Tries } from './rate-limit.ts'

/** Enough for a forgetful evening, too few for guessing. */
const TRIES_BY_NAME = { most: 10, perH: 0.25 }
const TRIES_BY_ADDRESS = { most: 60, perH: 0.25 }
const SESSION_S = 60 * 24 * 3600

const signInForm = z.object({ name: z.string().max(200), password: z.string().max(1000), next: z.string().optional() })
const joinForm = z.object({ name: z.string().max(200), password: z.string().max(1000) })
const role = z.enum(['owner', 'planner', 'crew'])
const inviteForm = z.object({ role, language: z.enum(['en', 'es']) })
const removeForm = z.object({ id: z.string() })
const tokenForm = z.object({ name: z.string().trim().min(1).max(60), role })
const endForm = z.object({ digest: z.string() })

export function signInRoutes(people: People, viewerOf: (context: Context<WebEnv>) => Viewer): Hono<WebEnv> {
  const { farm } = people
  const routes = new Hono<WebEnv>()
  const byName = new Tries(TRIES_BY_NAME, people.clock)
  const byAddress = new Tries(TRIES_BY_ADDRESS, people.clock)
  const page = (context: Context<WebEnv>, body: Markup, status: 200 | 422 | 429 = 200) =>
    context.html(body, status, { 'cache-control': 'no-store' })
  const read = async <T>(context: Context, form: z.ZodType<T>): Promise<T | undefined> =>
    form.safeParse(await context.req.parseBody()).data

  const signInOf = (context: Context<WebEnv>, said: Parameters<typeof signInPage>[2]) =>
    signInPage(farm, languageOf(context, farm), said)

  routes.get('/sign-in', (context) =>
    page(context, signInOf(context, { next: local(context.req.query('next')), fault: undefined })),
  )
  routes.post('/sign-in', async (context) => {
    const form = await read(context, signInForm)
    if (!form) return failure(context, farm, 'bad-request')
    const next = local(form.next)
    if (!byAddress.take(addressOf(context)) || !byName.take(form.name.trim().toLowerCase())) {
      return page(context, signInOf(context, { next, fault: 'too-many' }), 429)
    }
    const session = await signIn(people, form.name, form.password)
    if (session === undefined) return page(context, signInOf(context, { next, fault: 'wrong' }), 422)
    keepSession(context, session)
    return context.redirect(next, 303)
  })
  routes.post('/sign-out', async (context) => {
    const session = getCookie(context, COOKIE)
    if (session) await signOut(people, session)
    deleteCookie(context, COOKIE, { path: '/' })
    return context.redirect('/', 303)
  })

  routes.get('/join/:token', async (context) => {
    const invitation = await openInvitation(people, context.req.param('token'))
    if (!invitation) return failure(context, farm, 'not-found')
    return page(context, joinPage(farm, { invitation, name: '', fault: undefined }))
  })
  routes.post('/join/:token', async (context) => {
    const form = await read(context, joinForm)
    if (!form) return failure(context, farm, 'bad-request')
    if (!byAddress.take(addressOf(context))) return failure(context, farm, 'too-many')
    const token = context.req.param('token')
    const joined = await join(people, token, form.name, form.password)
    if (joined.kind === 'joined') {
      keepSession(context, joined.session)
      return context.redirect('/', 303)
    }
    const invitation = await openInvitation(people, token)
    if (!invitation) return failure(context, farm, 'not-found')
    return page(context, joinPage(farm, { invitation, name: form.name, fault: joined.fault }), 422)
  })

  routes.get('/you', (context) => page(context, youPage(farm, viewerOf(context), actorIn(context))))

  const showPeople = async (context: Context<WebEnv>, made?: { link?: string; token?: string }) =>
    page(
      context,
      peoplePage(farm, viewerOf(context), {
        me: actorIn(context),
        accounts: await people.store.accounts(farm.id),
        tokens: await people.store.tokens(farm.id),
        audit: await people.store.audited(farm.id, 30),
        made: made ?? {},
      }),
    )
  routes.get('/people', (context) => showPeople(context))
  routes.post('/people/invite', async (context) => {
    const form = await read(context, inviteForm)
    if (!form) return failure(context, farm, 'bad-request')
    const token = await invite(people, form.role, form.language, actorIn(context))
    return showPeople(context, { link: `${new URL(context.req.url).origin}/join/${token}` })
  })
  routes.post('/people/remove', async (context) => {
    const form = await read(context, removeForm)
    if (!form) return failure(context, farm, 'bad-request')
    const removed = await removeAccount(people, form.id, actorIn(context))
    return removed ? context.redirect('/people', 303) : failure(context, farm, 'conflict')
  })
  routes.post('/people/tokens', async (context) => {
    const form = await read(context, tokenForm)
    if (!form) return failure(context, farm, 'bad-request')
    return showPeople(context, { token: await makeToken(people, form.name, form.role, actorIn(context)) })
  })
  routes.post('/people/tokens/end', async (context) => {
    const form = await read(context, endForm)
    if (!form) return failure(context, farm, 'bad-request')
    await endToken(people, form.digest, actorIn(context))
    return context.redirect('/people', 303)
  })
  return routes
}

function keepSession(context: Context, session: string): void {
  setCookie(context, COOKIE, session, {
    path: '/',
    httpOnly: true,
    sameSite: 'Lax',
    secure: isSecure(context),
    maxAge: SESSION_S,
  })
}

const isSecure = (context: Context): boolean =>
  new URL(context.req.url).protocol === 'https:' || context.req.header('x-forwarded-proto') === 'https'

/** Only a path of this site: nobody is sent elsewhere after signing in. */
function local(next: string | undefined): string {
  if (next === undefined || !/^\/(?![/\\])/.test(next) || /\p{Cc}/u.test(next)) return '/'
  return next
}

function addressOf(context: Context): string {
  // Without a socket, in a test, there is no address.
  if (!context.env || typeof context.env !== 'object' || !('incoming' in context.env)) return 'no address'
  return getConnInfo(context).remote.address ?? 'no address'
}
