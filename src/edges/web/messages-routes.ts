/** The page of messages, and putting one back into the queue. */
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import type { AddressBook } from '#work/addresses.ts'
import type { OutboxStore } from '#work/outbox-port.ts'
import type { Service } from '#work/service.ts'
import { failure } from './errors.ts'
import type { Viewer } from './layout.ts'
import { messagesPage } from './messages-page.ts'
import type { WebEnv } from './sign-in/guard.ts'

export interface MessagesParts {
  readonly service: Service
  readonly outbox: Pick<OutboxStore, 'recent' | 'resend'>
  readonly addresses: AddressBook
  readonly viewerOf: (context: Context<WebEnv>) => Viewer
}

const MOST_SHOWN = 200
/** What is sent again has so long to get through [h]. */
const RESENT_SERVES_H = 4
const resendForm = z.object({ key: z.string().max(1000) })

export function messagesRoutes({ service, outbox, addresses, viewerOf }: MessagesParts): Hono<WebEnv> {
  const { farm, clock } = service
  const routes = new Hono<WebEnv>()
  routes.get('/', async (context) => {
    const parcels = await outbox.recent(farm.id, MOST_SHOWN)
    const people = await Promise.all(
      farm.people.map(async (person) => ({
        person,
        addresses: await addresses.addressesOf(farm, person, 'alert'),
      })),
    )
    const resent = context.req.query('resent') === '1'
    return context.html(messagesPage(farm, viewerOf(context), { parcels, people, resent }), 200, {
      'cache-control': 'no-store',
    })
  })
  routes.post('/resend', async (context) => {
    const form = resendForm.safeParse(await context.req.parseBody()).data
    if (!form) return failure(context, farm, 'bad-request')
    const isOurs = (await outbox.recent(farm.id, MOST_SHOWN)).some(({ key }) => key === form.key)
    const resent = isOurs && (await outbox.resend(form.key, clock(), clock() + RESENT_SERVES_H))
    return resent ? context.redirect('/messages?resent=1', 303) : failure(context, farm, 'conflict')
  })
  return routes
}
