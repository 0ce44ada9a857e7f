/** The API: messages on their way, problems told from the field, alerts and who has heard them. */
import { z } from '@hono/zod-openapi'
import type { KeptParcel } from '#app/outbox-port.ts'
import { LONGEST_TEXT, PROBLEM_KINDS, tellProblem } from '#app/problems.ts'
import { findPart, findPerson } from '#app/record-lookup.ts'
import { resendMessage } from '#app/resend.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import {
  type Api,
  type ApiParts,
  bookNow,
  createRoute,
  json,
  jsonBody,
  listOf,
  pageOf,
  pageRefusals,
  refusal,
  refusals,
  refuse,
  refused,
  tellingRefusals,
  timeOf,
} from './parts.ts'
import { IdempotencyKey, PageQuery } from './schemas.ts'

const MOST_MESSAGES = 1000

const Message = z
  .object({
    key: z.string(),
    kind: z.string(),
    date: z.string(),
    channel: z.string(),
    recipient: z.string().openapi({ description: 'Id of a person, a hook or a subscription; never an address.' }),
    state: z.enum(['waiting', 'sending', 'sent', 'dead', 'lapsed']),
    urgent: z.boolean(),
    attempts: z.number().int(),
    touched: z.string(),
    reason: z.string().nullable().openapi({ description: 'Why it did not get through, at the last try.' }),
  })
  .openapi('Message')
const MessageList = listOf(Message, 'MessageList')

const KeyBody = z.strictObject({ key: z.string().min(1).max(1000) }).openapi('MessageKey')

const NewProblem = z
  .strictObject({
    kind: z.enum(PROBLEM_KINDS),
    text: z.string().trim().max(LONGEST_TEXT).default(''),
    field: z.string().optional(),
  })
  .openapi('NewProblem')
const ProblemTold = z
  .object({
    posted: z.number().int().openapi({ description: 'Messages that go out; 0 when the key was sent before.' }),
  })
  .openapi('ProblemTold')

const Alert = z
  .object({
    id: z.string(),
    kind: z.string(),
    subject: z.string(),
    since: z.string(),
    acknowledged: z.boolean(),
  })
  .openapi('Alert')
const AlertList = z.object({ items: z.array(Alert) }).openapi('AlertList', { description: 'Alerts that are on.' })
const AlertId = z.strictObject({ alert: z.string().min(1).max(500) }).openapi('AlertId')

const messagesRoute = createRoute({
  method: 'get',
  path: '/messages',
  tags: ['Messages'],
  summary: 'Messages of late, newest first: sent, waiting, failed',
  request: { query: PageQuery },
  responses: { 200: json(MessageList, 'A page of them.'), ...pageRefusals },
})
const resendRoute = createRoute({
  method: 'post',
  path: '/messages/resend',
  tags: ['Messages'],
  summary: 'Put a message that did not get through back into the queue',
  request: { body: jsonBody(KeyBody) },
  responses: {
    204: { description: 'It is on its way.' },
    ...refusals,
    409: refusal('There is no such message, or it is not one that failed.'),
    422: refusal('The body is not valid.'),
  },
})
const problemRoute = createRoute({
  method: 'post',
  path: '/problems',
  tags: ['Messages'],
  summary: 'Tell owner and planner of a problem, at once',
  request: { headers: IdempotencyKey, body: jsonBody(NewProblem) },
  responses: { 201: json(ProblemTold, 'It goes out.'), ...tellingRefusals },
})
const alertsRoute = createRoute({
  method: 'get',
  path: '/alerts',
  tags: ['Messages'],
  summary: 'Alerts that are on',
  responses: { 200: json(AlertList, 'All of them.'), ...refusals },
})
const acknowledgeRoute = createRoute({
  method: 'post',
  path: '/alerts/acknowledge',
  tags: ['Messages'],
  summary: 'Say that an alert was heard; twice is as good as once',
  request: { body: jsonBody(AlertId) },
  responses: {
    204: { description: 'It is noted.' },
    ...refusals,
    404: refusal('No such alert is on.'),
    422: refusal('The body is not valid.'),
  },
})

export function messagesApi(api: Api, parts: ApiParts): void {
  const { service, outbox, addresses, alerts, everyone } = parts
  const { farm, clock } = service

  api.openapi(messagesRoute, async (context) => {
    const recent = await outbox.recent(farm.id, MOST_MESSAGES)
    return pageOf(context, context.req.valid('query'), recent, ({ key }) => key, messageJson)
  })

  api.openapi(resendRoute, async (context) => {
    const { key } = context.req.valid('json')
    const resent = await resendMessage(farm.id, key, outbox, clock())
    return resent ? context.body(null, 204) : refuse(context, 'conflict')
  })

  api.openapi(problemRoute, async (context) => {
    const told = context.req.valid('json')
    const book = await bookNow(parts)
    const part = told.field === undefined ? undefined : findPart(book.farm, { field: told.field })
    if (part && 'code' in part) return refused(context, part, farm)
    const by = nameIn(context)
    const sent = context.req.valid('header')['idempotency-key']
    const atEpochH = book.nowEpochH
    const key = sent ?? `${by}@${atEpochH.toFixed(3)}`
    const posted = await tellProblem(
      book.farm,
      { kind: told.kind, text: told.text, field: part?.field, by, atEpochH, key },
      { outbox, addresses, everyone },
      atEpochH,
    )
    if (posted === 0 && sent === undefined) {
      return refuse(context, 'not-valid', { detail: wordsOf('en').cab.nobodyReached })
    }
    return context.json({ posted }, 201)
  })

  api.openapi(alertsRoute, async (context) => {
    const on = await alertsOn()
    const items = await Promise.all(
      on.map(async ({ id, key, sinceEpochH }) => {
        const [kind = '', ...subject] = key.split('/')
        const acknowledged = await alerts.isAcknowledged(farm.id, id)
        return { id, kind, subject: subject.join('/'), since: timeOf(sinceEpochH), acknowledged }
      }),
    )
    return context.json({ items }, 200)
  })

  api.openapi(acknowledgeRoute, async (context) => {
    const { alert } = context.req.valid('json')
    if (!(await alertsOn()).some(({ id }) => id === alert)) return refuse(context, 'not-found')
    await alerts.acknowledge(farm.id, alert, findPerson(farm, nameIn(context)), clock())
    return context.body(null, 204)
  })

  async function alertsOn() {
    const { kept } = await alerts.load(farm.id)
    return Object.entries(kept.board.standings).flatMap(([key, standing]) =>
      standing.phase === 'on' || standing.phase === 'clearing'
        ? [{ key, id: standing.id, sinceEpochH: standing.sinceEpochH }]
        : [],
    )
  }
}

const messageJson = (parcel: KeptParcel): z.infer<typeof Message> => ({
  key: parcel.key,
  kind: parcel.kind,
  date: parcel.date,
  channel: parcel.channel,
  recipient: parcel.recipient,
  state: parcel.state,
  urgent: parcel.urgent,
  attempts: parcel.attempts,
  touched: timeOf(parcel.touchedEpochH),
  reason: parcel.lastReason || null,
})
