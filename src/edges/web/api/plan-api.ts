/** The API: the week's plan, what would come of a change, decisions and taking them back, and every plan published. */
import type { Context } from 'hono'
import type { Decided, PlanDesk } from '#app/plan-desk.ts'
import type { Service } from '#app/service.ts'
import { publishedPage } from '#edges/web/published.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import {
  type Api,
  createRoute,
  json,
  jsonBody,
  keyQuery,
  listOf,
  noSuchPage,
  pageRefusals,
  refusal,
  refusals,
  refuse,
  refused,
  tellingRefusals,
} from './parts.ts'
import { Change, Changes, changeFrom } from './plan-changes.ts'
import {
  Decision,
  differenceJson,
  More,
  PublishedPlan,
  planJson,
  publishedJson,
  StandingPlan,
  standingJson,
  Tried,
} from './plan-schemas.ts'
import { IdempotencyKey, PageQuery } from './schemas.ts'

const tags = ['Plan']
const noPlan = { 503: refusal('There is no usable weather, so there is no plan.') }
const PublishedPlans = listOf(PublishedPlan, 'PublishedPlanList')

const planRoute = createRoute({
  method: 'get',
  path: '/plan',
  tags,
  summary: 'The plan of the week: where today, when the rest, why, and what is decided',
  responses: { 200: json(StandingPlan, 'The plan that stands.'), ...refusals, ...noPlan },
})
const triesRoute = createRoute({
  method: 'post',
  path: '/plan/tries',
  tags,
  summary: 'The plan that would come of changes, and what they would cost; nothing is kept',
  request: { body: jsonBody(Changes) },
  responses: { 200: json(Tried, 'The plan that would stand.'), ...tellingRefusals, ...noPlan },
})
const decideRoute = createRoute({
  method: 'post',
  path: '/plan/decisions',
  tags,
  summary: 'Decide a change: it is kept and the week planned anew',
  request: { headers: IdempotencyKey, body: jsonBody(Change) },
  responses: {
    201: json(Decision, 'It is decided.'),
    200: json(Decision, 'It was decided before, under the same key.'),
    ...tellingRefusals,
    ...noPlan,
  },
})
const undoRoute = createRoute({
  method: 'delete',
  path: '/plan/decisions',
  tags,
  summary: 'Take a decision back and plan the week anew; it stays in the book as taken back',
  request: { query: keyQuery('Key of the decision.') },
  responses: { 200: json(Decision, 'It no longer holds.'), ...tellingRefusals, ...noPlan },
})
const moreRoute = createRoute({
  method: 'get',
  path: '/plan/more',
  tags,
  summary: 'What one more hour a day, cart or truck would be worth',
  responses: { 200: json(More, 'Most first; empty where there is no plan to reckon from.'), ...refusals },
})
const plansRoute = createRoute({
  method: 'get',
  path: '/plans',
  tags,
  summary: 'Every plan published, newest first, with the reason why it took the place of the one before',
  request: { query: PageQuery },
  responses: { 200: json(PublishedPlans, 'A page of them.'), ...pageRefusals },
})

export function planApi(api: Api, { farm }: Pick<Service, 'farm'>, desk: PlanDesk): void {
  api.openapi(planRoute, async (context) => {
    const standing = await desk.standing()
    if (!standing) return refuse(context, 'no-weather')
    return context.json(standingJson(standing, await desk.costOfPins()), 200)
  })

  api.openapi(triesRoute, async (context) => {
    const { changes } = context.req.valid('json')
    const known = (await desk.standing())?.farm ?? farm
    const { signal } = context.req.raw
    try {
      const tried = await desk.tryOut(
        changes.map((change) => changeFrom(change, known)),
        signal,
      )
      if (tried.kind === 'no-plan') return refuse(context, 'no-weather')
      if (tried.kind === 'refused') return refused(context, tried.fault, farm)
      return context.json({ plan: planJson(tried), difference: differenceJson(tried.difference) }, 200)
    } catch (failure) {
      // Who asked has gone, and nobody hears this.
      if (signal.aborted) return refuse(context, 'bad-request')
      throw failure
    }
  })

  api.openapi(decideRoute, async (context) => {
    const known = (await desk.standing())?.farm ?? farm
    const key = context.req.valid('header')['idempotency-key']
    const change = changeFrom(context.req.valid('json'), known)
    return await decided(context, await desk.decide(change, nameIn(context), key), 201)
  })

  api.openapi(undoRoute, async (context) =>
    decided(context, await desk.undo(nameIn(context), context.req.valid('query').key), 200),
  )

  api.openapi(moreRoute, async (context) => {
    const worths = await desk.worthOfMore()
    return context.json({ items: worths.map(({ outfitId, ...rest }) => ({ outfit: outfitId, ...rest })) }, 200)
  })

  api.openapi(plansRoute, async (context) => {
    const { limit, after } = context.req.valid('query')
    const before = after === undefined ? undefined : Number(after)
    if (Number.isNaN(before)) return noSuchPage(context)
    const { records, olderThan } = await publishedPage(desk, limit, before)
    return context.json({ items: records.map(publishedJson), next: olderThan?.toString() ?? null }, 200)
  })

  async function decided(context: Context<WebEnv>, answer: Decided, isNew: 200 | 201): Promise<never> {
    if (answer.kind === 'no-plan') return refuse(context, 'no-weather')
    if (answer.kind === 'refused') return refused(context, answer.fault, farm)
    const plan = standingJson(answer.desk, await desk.costOfPins())
    const body = { key: answer.key, plan, difference: differenceJson(answer.difference) }
    return context.json(body, answer.isNew ? isNew : 200) as never
  }
}
