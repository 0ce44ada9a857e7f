/** How messages reach whoever is signed in, and changing it. */
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { postTest } from '#app/test-message.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { failure } from '#edges/web/errors.ts'
import type { Viewer } from '#edges/web/layout.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { morningMailOf, personalLink, personOf, type Reach } from './reach.ts'
import { youMessagesPage } from './you-page.ts'

export interface YouParts {
  readonly farm: Farm
  readonly clock: () => number
  readonly reach: Reach
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
}

const deviceForm = z.object({ id: z.string().max(100) })
const mailForm = z.object({ wanted: z.enum(['yes', 'no']) })
const HERE = '/you/messages'

export function youRoutes({ farm, clock, reach, viewerOf }: YouParts): Hono<WebEnv> {
  const { subscriptions } = reach
  const routes = new Hono<WebEnv>()

  /** Whoever asks, as a person of the farm; a program with a token is none. */
  const meIn = async (context: Context<WebEnv>): Promise<Person | undefined> => {
    const { account } = context.get('who')
    return account && (await personOf(reach, account))
  }

  routes.get('/', async (context) => {
    const person = await meIn(context)
    if (!person) return failure(context, farm, 'not-allowed')
    const { origin } = new URL(context.req.url)
    const link = (deed: 'calendar' | 'text') => personalLink(reach, farm, person.id, deed, origin)
    const tested = z.coerce.number().int().min(0).optional().catch(undefined).parse(context.req.query('tested'))
    const page = youMessagesPage(farm, viewerOf(context), {
      person,
      devices: await subscriptions.pushesOf(farm.id, person.id),
      morningMail: await morningMailOf(reach, farm, person),
      calendar: await link('calendar'),
      text: await link('text'),
      pushKey: reach.pushKey,
      tested,
    })
    return context.html(page, 200, { 'cache-control': 'no-store' })
  })
  routes.post('/test', async (context) => {
    const person = await meIn(context)
    if (!person) return failure(context, farm, 'not-allowed')
    const tools = { outbox: reach.outbox, addresses: subscriptions }
    const posted = await postTest(farm, person, tools, clock(), reach.newId())
    return context.redirect(`${HERE}?tested=${posted.length}`, 303)
  })
  routes.post('/devices/remove', async (context) => {
    const person = await meIn(context)
    if (!person) return failure(context, farm, 'not-allowed')
    const form = deviceForm.safeParse(await context.req.parseBody()).data
    if (!form) return failure(context, farm, 'bad-request')
    const removed = await subscriptions.removePush(farm.id, person.id, form.id)
    return removed ? context.redirect(HERE, 303) : failure(context, farm, 'conflict')
  })
  routes.post('/mail', async (context) => {
    const person = await meIn(context)
    if (!person) return failure(context, farm, 'not-allowed')
    const form = mailForm.safeParse(await context.req.parseBody()).data
    if (!form) return failure(context, farm, 'bad-request')
    await subscriptions.setMorningMail(farm.id, person.id, form.wanted === 'yes')
    return context.redirect(HERE, 303)
  })
  routes.post('/links', async (context) => {
    const person = await meIn(context)
    if (!person) return failure(context, farm, 'not-allowed')
    await subscriptions.renewLinks(farm.id, person.id)
    return context.redirect(HERE, 303)
  })
  return routes
}
