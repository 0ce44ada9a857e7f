/** The page of messages, and putting one back into the queue. */
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import type { AddressBook } from '#app/addresses.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import { resendMessage } from '#app/resend.ts'
import type { Service } from '#app/service.ts'
import { postTest } from '#app/test-message.ts'
import type { Person } from '#core/operation/farm.ts'
import { failure } from './errors.ts'
import type { Viewer } from './layout.ts'
import { type MessagesShown, messagesPage, type WaysShown } from './messages-page.ts'
import { morningMailOf, type Reach } from './reach/reach.ts'
import type { WebEnv } from './sign-in/guard.ts'

export interface MessagesParts {
  readonly service: Service
  readonly outbox: Pick<OutboxStore, 'recent' | 'resend'>
  readonly addresses: AddressBook
  readonly reach?: Reach | undefined
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
}

const MOST_SHOWN = 200
const testForm = z.object({ person: z.string().max(100) })
const mailForm = z.object({ person: z.string().max(100), wanted: z.enum(['yes', 'no']) })
const resendForm = z.object({ key: z.string().max(1000) })

export function messagesRoutes({ service, outbox, addresses, reach, viewerOf }: MessagesParts): Hono<WebEnv> {
  const { farm, clock } = service
  const routes = new Hono<WebEnv>()
  const everyone = async (): Promise<readonly Person[]> => (await reach?.everyone()) ?? farm.people
  async function personIn<T extends { readonly person: string }>(context: Context<WebEnv>, schema: z.ZodType<T>) {
    const form = schema.safeParse(await context.req.parseBody()).data
    const person = form && (await everyone()).find(({ id }) => id === form.person)
    return person && { person, form }
  }
  async function waysOf({ mail, circuitOf, subscriptions }: Reach): Promise<WaysShown> {
    return { mail, circuitOf, hooks: (await subscriptions.hooksOf(farm)).length }
  }

  routes.get('/', async (context) => {
    const parcels = await outbox.recent(farm.id, MOST_SHOWN)
    const people = await Promise.all(
      (await everyone()).map(async (person) => ({
        person,
        addresses: await addresses.addressesOf(farm, person, 'alert'),
        morningMail: reach && (await morningMailOf(reach, farm, person)),
      })),
    )
    const told = toldOf(context)
    const ways = reach && (await waysOf(reach))
    return context.html(
      messagesPage(farm, viewerOf(context), { parcels, people, told, ways, nowEpochH: clock() }),
      200,
      {
        'cache-control': 'no-store',
      },
    )
  })
  routes.post('/resend', async (context) => {
    const form = resendForm.safeParse(await context.req.parseBody()).data
    if (!form) return failure(context, farm, 'bad-request')
    const resent = await resendMessage(farm.id, form.key, outbox, clock())
    return resent ? context.redirect('/messages?resent=1', 303) : failure(context, farm, 'conflict')
  })
  if (!reach) return routes

  routes.post('/test', async (context) => {
    const person = await personIn(context, testForm)
    if (!person) return failure(context, farm, 'bad-request')
    const tools = { outbox: reach.outbox, addresses }
    const posted = await postTest(farm, person.person, tools, clock(), reach.newId())
    return context.redirect(`/messages?tested=${posted.length}`, 303)
  })
  routes.post('/mail', async (context) => {
    const asked = await personIn(context, mailForm)
    if (!asked) return failure(context, farm, 'bad-request')
    await reach.subscriptions.setMorningMail(farm.id, asked.person.id, asked.form.wanted === 'yes')
    return context.redirect('/messages', 303)
  })
  return routes
}

/** What the page says was just done. */
function toldOf(context: Context): MessagesShown['told'] {
  if (context.req.query('resent') === '1') return 'resent'
  const tested = Number(context.req.query('tested') ?? Number.NaN)
  return Number.isInteger(tested) && tested >= 0 ? { tested } : undefined
}
