/** The API: notes on devices, programs that are told, who gets the morning mail, and test messages. */
import { z } from '@hono/zod-openapi'
import { addHook, removeHook, renewSecret } from '#app/hooks.ts'
import { CHANNELS } from '#app/outbox-port.ts'
import type { Service } from '#app/service.ts'
import { postHookTest, postTest } from '#app/test-message.ts'
import { instantOf } from '#core/units/time.ts'
import { personOf, type Reach, wayState } from '#edges/web/reach/reach.ts'
import { type Api, createRoute, json, jsonBody, NEVER_KEPT, notHolding, notThere, refusals, refuse } from './parts.ts'

const tags = ['Messages']
const IdQuery = z.object({
  id: z
    .string()
    .min(1)
    .max(100)
    .openapi({ param: { name: 'id', in: 'query' } }),
})

const PushKey = z.object({ key: z.string() }).openapi('PushKey', {
  description: 'The public key that a browser asks for when it signs up for notes (RFC 8292), base64url.',
})
/** A point of P-256, uncompressed, and a secret of 16 bytes (RFC 8291, 3.1 and 3.2), as base64url. */
const P256DH = /^B[\w-]{86}=?$/
const AUTH = /^[\w-]{22}(==)?$/
const LONGEST_ENDPOINT = 2000
const NewDevice = z
  .strictObject({
    endpoint: z.url({ protocol: /^https$/ }).max(LONGEST_ENDPOINT),
    keys: z.strictObject({ p256dh: z.string().regex(P256DH), auth: z.string().regex(AUTH) }),
  })
  .openapi('NewDevice', { description: 'A push subscription as the browser gives it (W3C Push API).' })
const Id = z.object({ id: z.string() }).openapi('Id')
const Hook = z.object({ id: z.string(), url: z.string() }).openapi('Hook')
const HookList = z.object({ items: z.array(Hook) }).openapi('HookList')
const NewHook = z.strictObject({ url: z.string().max(LONGEST_ENDPOINT) }).openapi('NewHook')
const HookSecret = z.object({ id: z.string(), url: z.string(), secret: z.string() }).openapi('HookSecret', {
  description: 'The secret that signs (Standard Webhooks); shown this once.',
})
const MorningMail = z.strictObject({ person: z.string(), wanted: z.boolean() }).openapi('MorningMail')
const NewTest = z
  .strictObject({
    person: z.string().optional().openapi({ description: 'Id of a person; every hook when left out.' }),
    channel: z.enum(CHANNELS).optional(),
  })
  .openapi('NewTest')
const TestPosted = z
  .object({ posted: z.array(z.object({ channel: z.enum(CHANNELS), recipient: z.string() })) })
  .openapi('TestPosted')

const Ways = z
  .object({
    mail: z.object({
      server: z.string().nullable().openapi({ description: 'Host and port; null where mail is printed.' }),
      from: z.string(),
      signedFor: z.string().nullable().openapi({ description: 'Domain whose key signs it (DKIM).' }),
    }),
    channels: z.array(
      z.object({
        channel: z.enum(CHANNELS),
        state: z.enum(['works', 'trying', 'paused']),
        failures: z.number().int().openapi({ description: 'Of the whole channel, in a row.' }),
        until: z.string().nullable(),
      }),
    ),
  })
  .openapi('Ways', { description: 'By what messages go out, and whether each way works. Set by the environment.' })

const routes = {
  ways: createRoute({
    method: 'get',
    path: '/messages/ways',
    tags,
    summary: 'The ways out, and how they are doing',
    responses: { 200: json(Ways, 'All of them.'), ...refusals },
  }),
  pushKey: createRoute({
    method: 'get',
    path: '/push',
    tags,
    summary: 'The key for signing up for notes',
    responses: { 200: json(PushKey, 'The key.'), ...refusals },
  }),
  addDevice: createRoute({
    method: 'post',
    path: '/push',
    tags,
    summary: 'Sign a device of yours up for notes; the same one again takes the place of the former',
    request: { body: jsonBody(NewDevice) },
    responses: { 201: json(Id, 'It is signed up.'), ...refusals, ...notHolding },
  }),
  removeDevice: createRoute({
    method: 'delete',
    path: '/push',
    tags,
    summary: 'Sign a device of yours off',
    request: { query: IdQuery },
    responses: { 204: { description: 'It gets no notes any more.' }, ...refusals, ...notThere, ...notHolding },
  }),
  hooks: createRoute({
    method: 'get',
    path: '/hooks',
    tags,
    summary: 'Programs that get every message',
    responses: { 200: json(HookList, 'All of them.'), ...refusals },
  }),
  addHook: createRoute({
    method: 'post',
    path: '/hooks',
    tags,
    summary: 'Have a program told of every message',
    request: { body: jsonBody(NewHook) },
    responses: { 201: json(HookSecret, 'It is told from now on.'), ...refusals, ...notHolding },
  }),
  renewHook: createRoute({
    method: 'post',
    path: '/hooks/secret',
    tags,
    summary: 'Give a hook a new secret; the former one signs beside it until the next change',
    request: { query: IdQuery },
    responses: { 200: json(HookSecret, 'The new one.'), ...refusals, ...notThere, ...notHolding },
  }),
  removeHook: createRoute({
    method: 'delete',
    path: '/hooks',
    tags,
    summary: 'Have a program told no more',
    request: { query: IdQuery },
    responses: { 204: { description: 'It is told no more.' }, ...refusals, ...notThere, ...notHolding },
  }),
  morningMail: createRoute({
    method: 'put',
    path: '/morning-mail',
    tags,
    summary: 'Begin or end the morning mail to a person; alerts go on',
    request: { body: jsonBody(MorningMail) },
    responses: { 204: { description: 'It is as wanted.' }, ...refusals, ...notThere, ...notHolding },
  }),
  test: createRoute({
    method: 'post',
    path: '/messages/test',
    tags,
    summary: 'Send a test message to a person, or to every hook',
    request: { body: jsonBody(NewTest) },
    responses: { 202: json(TestPosted, 'What is on its way.'), ...refusals, ...notThere, ...notHolding },
  }),
}

export function reachApi(api: Api, { farm, clock }: Pick<Service, 'farm' | 'clock'>, reach: Reach): void {
  const { subscriptions, faultOf } = reach

  api.openapi(routes.ways, (context) => {
    const { server, from, signedFor } = reach.mail
    const channels = CHANNELS.map((channel) => {
      const circuit = reach.circuitOf(channel)
      const state = wayState(circuit, clock())
      return {
        channel,
        state,
        failures: circuit.failures,
        until: state === 'paused' ? instantOf(circuit.openUntilEpochH).toString({ smallestUnit: 'second' }) : null,
      }
    })
    return context.json({ mail: { server: server ?? null, from, signedFor: signedFor ?? null }, channels }, 200)
  })
  api.openapi(routes.pushKey, (context) => context.json({ key: reach.pushKey }, 200))
  api.openapi(routes.addDevice, async (context) => {
    const { account } = context.get('who')
    const person = account && (await personOf(reach, account))
    // A program has no screen to show a note on.
    if (!person) return refuse(context, 'not-allowed')
    const { endpoint, keys } = context.req.valid('json')
    const fault = faultOf(endpoint)
    if (fault) return refuse(context, 'not-valid', { errors: [{ pointer: '/endpoint', detail: fault }] })
    return context.json({ id: await subscriptions.addPush(farm.id, person.id, { endpoint, ...keys }) }, 201)
  })
  api.openapi(routes.removeDevice, async (context) => {
    const { account } = context.get('who')
    if (!account) return refuse(context, 'not-allowed')
    const removed = await subscriptions.removePush(farm.id, account.id, context.req.valid('query').id)
    return removed ? context.body(null, 204) : refuse(context, 'not-found')
  })

  api.openapi(routes.hooks, async (context) => context.json({ items: [...(await subscriptions.hooksOf(farm))] }, 200))
  api.openapi(routes.addHook, async (context) => {
    const added = await addHook(farm, context.req.valid('json').url, reach)
    if (added.kind === 'added') return context.json({ ...added.hook, secret: added.secret }, 201, NEVER_KEPT)
    return refuse(context, 'not-valid', { errors: [{ pointer: '/url', detail: added.reason }] })
  })
  api.openapi(routes.renewHook, async (context) => {
    const { id } = context.req.valid('query')
    const secret = await renewSecret(farm, id, reach)
    const hook = (await subscriptions.hooksOf(farm)).find((found) => found.id === id)
    return secret && hook ? context.json({ ...hook, secret }, 200, NEVER_KEPT) : refuse(context, 'not-found')
  })
  api.openapi(routes.removeHook, async (context) => {
    const removed = await removeHook(farm, context.req.valid('query').id, reach)
    return removed ? context.body(null, 204) : refuse(context, 'not-found')
  })

  api.openapi(routes.morningMail, async (context) => {
    const { person, wanted } = context.req.valid('json')
    const known = (await reach.everyone()).some(({ id }) => id === person)
    if (!known) return refuse(context, 'not-found')
    await subscriptions.setMorningMail(farm.id, person, wanted)
    return context.body(null, 204)
  })
  api.openapi(routes.test, async (context) => {
    const { person: id, channel } = context.req.valid('json')
    const tools = { outbox: reach.outbox, addresses: subscriptions }
    const person = (await reach.everyone()).find((found) => found.id === id)
    if (id !== undefined && !person) return refuse(context, 'not-found')
    const parcels = person
      ? await postTest(farm, person, tools, clock(), reach.newId(), channel)
      : await postHookTest(farm, tools, clock(), reach.newId())
    return context.json({ posted: parcels.map(({ channel: by, recipient }) => ({ channel: by, recipient })) }, 202)
  })
}
