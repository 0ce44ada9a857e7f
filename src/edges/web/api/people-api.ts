/** The API: people, invitations, tokens and who did what. */
import { z } from '@hono/zod-openapi'
import { endToken, invite, makeToken, type People, removeAccount } from '#app/people.ts'
import type { Account, ApiToken } from '#app/people-port.ts'
import { actorIn } from '#edges/web/sign-in/actor.ts'
import {
  type Api,
  createRoute,
  json,
  jsonBody,
  listOf,
  NEVER_KEPT,
  notThere,
  pageOf,
  pageRefusals,
  refusal,
  refusals,
  refuse,
  timeOf,
} from './parts.ts'
import { PageQuery } from './schemas.ts'

const MOST_AUDITED = 1000
const role = z.enum(['owner', 'planner', 'crew'])
const language = z.enum(['en', 'es'])

const Person = z.object({ id: z.string(), name: z.string(), role, language, since: z.string() }).openapi('Person')
const PersonList = listOf(Person, 'PersonList')
const NewInvitation = z.strictObject({ role, language: language.default('en') }).openapi('NewInvitation')
const Invitation = z
  .object({ link: z.string().openapi({ description: 'Works once, for a week; shown this once.' }) })
  .openapi('Invitation')
const Token = z
  .object({ id: z.string(), name: z.string(), role, by: z.string(), since: z.string() })
  .openapi('Token', { description: 'A token itself is shown once, when it is made.' })
const TokenList = listOf(Token, 'TokenList')
const NewToken = z.strictObject({ name: z.string().trim().min(1).max(60), role }).openapi('NewToken')
const TokenMade = z.object({ token: z.string() }).openapi('TokenMade')
const Deed = z.object({ at: z.string(), by: z.string(), deed: z.string(), about: z.string() }).openapi('Deed')
const DeedList = z.object({ items: z.array(Deed) }).openapi('DeedList')

const IdQuery = z.object({
  id: z
    .string()
    .min(1)
    .openapi({ param: { name: 'id', in: 'query' } }),
})
const tags = ['People']
const notValid = { 422: refusal('The request is not valid.') }

const peopleRoute = createRoute({
  method: 'get',
  path: '/people',
  tags,
  summary: 'Who can sign in',
  request: { query: PageQuery },
  responses: { 200: json(PersonList, 'A page of people, longest there first.'), ...pageRefusals },
})
const removeRoute = createRoute({
  method: 'delete',
  path: '/people',
  tags,
  summary: 'Remove a person; his sessions end at once, the last owner stays',
  request: { query: IdQuery },
  responses: {
    204: { description: 'He can sign in no more.' },
    ...refusals,
    409: refusal('There is no such person, or he is the last owner.'),
    ...notValid,
  },
})
const inviteRoute = createRoute({
  method: 'post',
  path: '/invitations',
  tags,
  summary: 'Invite somebody: a link, new with each asking',
  request: { body: jsonBody(NewInvitation) },
  responses: { 201: json(Invitation, 'The link.'), ...refusals, ...notValid },
})
const tokensRoute = createRoute({
  method: 'get',
  path: '/tokens',
  tags,
  summary: 'Tokens of programs',
  request: { query: PageQuery },
  responses: { 200: json(TokenList, 'A page of them, oldest first.'), ...pageRefusals },
})
const newTokenRoute = createRoute({
  method: 'post',
  path: '/tokens',
  tags,
  summary: 'Make a token for a program, new with each asking',
  request: { body: jsonBody(NewToken) },
  responses: { 201: json(TokenMade, 'The token, shown this once.'), ...refusals, ...notValid },
})
const endTokenRoute = createRoute({
  method: 'delete',
  path: '/tokens',
  tags,
  summary: 'End a token',
  request: { query: IdQuery },
  responses: { 204: { description: 'It opens nothing any more.' }, ...refusals, ...notThere, ...notValid },
})
const auditRoute = createRoute({
  method: 'get',
  path: '/audit',
  tags,
  summary: 'Who did what, newest first',
  responses: { 200: json(DeedList, `The last ${MOST_AUDITED}.`), ...refusals },
})

export function peopleApi(api: Api, people: People): void {
  const { farm, store } = people

  api.openapi(peopleRoute, async (context) => {
    return pageOf(context, context.req.valid('query'), await store.accounts(farm.id), ({ id }) => id, personJson)
  })
  api.openapi(removeRoute, async (context) => {
    const removed = await removeAccount(people, context.req.valid('query').id, actorIn(context))
    return removed ? context.body(null, 204) : refuse(context, 'conflict')
  })
  api.openapi(inviteRoute, async (context) => {
    const asked = context.req.valid('json')
    const token = await invite(people, asked.role, asked.language, actorIn(context))
    return context.json({ link: `${new URL(context.req.url).origin}/join/${token}` }, 201, NEVER_KEPT)
  })
  api.openapi(tokensRoute, async (context) => {
    return pageOf(context, context.req.valid('query'), await store.tokens(farm.id), ({ digest }) => digest, tokenJson)
  })
  api.openapi(newTokenRoute, async (context) => {
    const asked = context.req.valid('json')
    const token = await makeToken(people, asked.name, asked.role, actorIn(context))
    return context.json({ token }, 201, NEVER_KEPT)
  })
  api.openapi(endTokenRoute, async (context) => {
    const ended = await endToken(people, context.req.valid('query').id, actorIn(context))
    return ended ? context.body(null, 204) : refuse(context, 'not-found')
  })
  api.openapi(auditRoute, async (context) => {
    const deeds = await store.audited(farm.id, MOST_AUDITED)
    const items = deeds.map(({ atEpochH, by, deed, about }) => ({ at: timeOf(atEpochH), by, deed, about }))
    return context.json({ items }, 200)
  })
}

const personJson = ({ id, name, role: may, language: speaks, madeAtEpochH }: Account): z.infer<typeof Person> => ({
  id,
  name,
  role: may,
  language: speaks,
  since: timeOf(madeAtEpochH),
})

const tokenJson = ({ digest, name, role: may, by, madeAtEpochH }: ApiToken): z.infer<typeof Token> => ({
  id: digest,
  name,
  role: may,
  by,
  since: timeOf(madeAtEpochH),
})
