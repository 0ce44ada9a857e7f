/** Shapes of the plan in the API: the week, what two plans differ by, and the plans published. */
import { z } from '@hono/zod-openapi'
import type { DeskWeek, ShownWeek } from '#app/plan-desk.ts'
import { weekJson } from '#app/week-text.ts'
import type { PlanDifference, PlannedCut } from '#core/planning/optimiser/changes.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { timeOf } from './parts.ts'
import {
  Change,
  changeJson,
  date,
  deadlineJson,
  keepOffJson,
  OutfitShape,
  outfitJson,
  pinJson,
} from './plan-changes.ts'

const money = z.number().openapi({ description: 'In the money of the farm’s prices.' })
const Visit = z.object({ outfitId: z.string(), partKey: z.string() })
const PartDay = z.object({ date, fitChance: z.number(), cutChance: z.number(), meanHa: z.number() })
const likely = { from: date.nullable(), middle: date.nullable(), to: date.nullable() }
const Tail = z.object({ ...likely, chance: z.number(), ripe: z.object(likely) })
const Season = z.object({ years: z.number().int(), few: z.boolean(), from: date, to: date })
const PartWeek = z.object({
  partKey: z.string(),
  areaHa: z.number(),
  days: z.array(PartDay),
  likelyBy: date.nullable(),
  almostSurelyBy: date.nullable(),
  leftChance: z.number(),
  leftHa: z.number(),
  tail: Tail.nullable(),
})
const Choice = z.object({
  partKey: z.string(),
  outfitId: z.string(),
  reason: z.string(),
  perDayWaiting: z.number().nullable(),
  instead: z
    .object({
      partKey: z.string(),
      costs: z.number(),
      perDayWaiting: z.number().nullable(),
      turnsAtPerHa: z.number().nullable(),
    })
    .nullable(),
})

export const Plan = z
  .object({
    date,
    from: date,
    to: date,
    status: z.enum(['proven', 'good', 'fallback']),
    value: money,
    loss: money,
    leastLoss: money.openapi({
      description: 'The bound: no plan could lose less, not even one that knew today’s weather beforehand.',
    }),
    gap: z
      .number()
      .openapi({ description: '(loss - leastLoss) / loss; the worth of knowing today’s weather beforehand is in it.' }),
    badLoss: money.openapi({ description: 'Mean loss of the worst fifth of the weather.' }),
    wishes: money.openapi({
      description: 'What in `loss` is no money: the weight of pins unheard, promises left and deadlines missed.',
    }),
    visits: z.array(Visit).openapi({ description: 'Who goes where today, in order.' }),
    backups: z.array(Visit).openapi({ description: 'Where next, when that is done or not fit after all.' }),
    season: Season.nullable(),
    parts: z.array(PartWeek),
    choices: z.array(Choice),
    conflict: z.array(z.object({ partKey: z.string(), date, outfitId: z.string().nullable(), because: z.string() })),
    pins: z.array(z.object({ part: z.string(), date, outfit: z.string().optional(), areaHa: z.number().optional() })),
    keepOffs: z.array(z.object({ part: z.string(), from: date, to: date })),
    deadlines: z.array(z.object({ part: z.string(), date })),
    outfits: z.array(OutfitShape),
  })
  .openapi('Plan', { description: 'The fields against the days; see docs/week-json.md.' })

export const StandingPlan = Plan.extend({
  costOfPins: money.openapi({ description: 'What the pins cost against the plan that is free of them.' }),
  decisions: z.array(z.object({ key: z.string(), at: z.string(), by: z.string(), change: Change })),
}).openapi('StandingPlan')

const Planned = z.object({ date, outfitId: z.string().nullable(), meanHa: z.number() }).nullable()
const Difference = z
  .object({
    moved: z.array(z.object({ partKey: z.string(), was: Planned, now: Planned })),
    money: money.openapi({ description: 'Worth of the new plan less that of the one before, in money alone.' }),
    badMoney: money.openapi({ description: 'The same for the worst fifth of the weather.' }),
  })
  .openapi('PlanDifference')

export const Tried = z.object({ plan: Plan, difference: Difference }).openapi('TriedPlan')
export const Decision = z
  .object({ key: z.string(), plan: StandingPlan, difference: Difference })
  .openapi('PlanDecision')

export const PublishedPlan = z
  .object({
    publishedAt: z.string(),
    reason: z.object({
      kind: z.enum(['first', 'new-morning', 'new-weather', 'reading', 'progress', 'planner']),
      part: z.string().optional(),
      by: z.string().optional(),
      changes: z.array(Change).optional(),
      takenBack: z.array(Change).optional(),
    }),
    date,
    status: z.enum(['proven', 'good', 'fallback']),
    value: money,
    loss: money,
    leastLoss: money,
    gap: z.number(),
    visits: z.array(Visit),
    difference: Difference.nullable().openapi({ description: 'Against the plan before; null for the first.' }),
  })
  .openapi('PublishedPlan')

export const More = z
  .object({
    items: z.array(z.object({ outfit: z.string(), what: z.enum(['hour', 'cart', 'truck']), money })),
  })
  .openapi('More', { description: 'What one more hour a day, cart or truck would bring, each alone, most first.' })

export function planJson({ farm, rules, week, view, season }: ShownWeek): z.infer<typeof Plan> {
  const { visits, backups, badLoss, day } = week
  return {
    ...(weekJson(view, week, season) as Omit<z.infer<typeof Plan>, 'date' | 'pins'>),
    date: day.date.toString(),
    badLoss,
    wishes: week.wishes?.mean ?? 0,
    visits: [...visits],
    backups: [...backups],
    pins: rules.pins.map(pinJson),
    keepOffs: rules.keepOffs.map(keepOffJson),
    deadlines: rules.deadlines.map(deadlineJson),
    outfits: farm.outfits.map(outfitJson),
  }
}

export const standingJson = (desk: DeskWeek, costOfPins: number): z.infer<typeof StandingPlan> => ({
  ...planJson(desk),
  costOfPins,
  decisions: desk.decisions.map(({ key, atEpochH, by, body }) => ({
    key,
    at: timeOf(atEpochH),
    by,
    change: changeJson(body),
  })),
})

export function differenceJson({ moved, money: gained, badMoney }: PlanDifference): z.infer<typeof Difference> {
  const cut = (one: PlannedCut | undefined) =>
    one ? { date: one.date.toString(), outfitId: one.outfitId ?? null, meanHa: one.meanHa } : null
  return {
    money: gained,
    badMoney,
    moved: moved.map(({ partKey, was, now }) => ({ partKey, was: cut(was), now: cut(now) })),
  }
}

export function publishedJson({ publishedAtEpochH, reason, plan, difference }: PlanRecord) {
  const { day, status, value, loss, leastLoss, gap, visits } = plan
  const why = {
    kind: reason.kind,
    ...('partKey' in reason && { part: reason.partKey }),
    ...(reason.kind === 'planner' && { by: reason.personId, changes: reason.changes.map(changeJson) }),
    ...(reason.kind === 'planner' && reason.takenBack && { takenBack: reason.takenBack.map(changeJson) }),
  }
  return {
    publishedAt: timeOf(publishedAtEpochH),
    reason: why,
    date: day.date.toString(),
    status,
    value,
    loss,
    leastLoss,
    gap,
    visits: [...visits],
    difference: difference ? differenceJson(difference) : null,
  }
}
