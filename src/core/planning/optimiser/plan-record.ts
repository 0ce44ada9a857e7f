/** What is kept of every published plan, and why it took the place of the one before. */
import type { PlanChange } from './changes.ts'
import { differenceOf, type PlanDifference } from './changes.ts'
import type { WeekPlan } from './week-plan.ts'

export type ChangeReason =
  | { readonly kind: 'first' }
  | { readonly kind: 'new-morning' }
  | { readonly kind: 'new-weather' }
  | { readonly kind: 'reading'; readonly partKey: string }
  | { readonly kind: 'progress'; readonly partKey: string }
  | {
      readonly kind: 'planner'
      readonly changes: readonly PlanChange[]
      /** Decisions that hold no more. */
      readonly takenBack?: readonly PlanChange[]
      readonly personId: string
    }

/** A run as it is kept: by the names of part and outfit. */
export interface PublishedRun {
  readonly partKey: string
  readonly outfitId: string
  readonly startEpochH: number
  readonly endEpochH: number
  readonly areaHa: number
  /** As bought [t]. */
  readonly massT: number
  /** [% wet basis] */
  readonly startMoistureWb: number
  readonly endMoistureWb: number
}

/** A plan as it is kept: without the fields and outlooks behind it, which are kept elsewhere. */
export type PublishedPlan = Omit<WeekPlan, 'day'> & {
  readonly day: { readonly date: Temporal.PlainDate; readonly runs: readonly PublishedRun[] }
}

export interface PlanRecord {
  readonly publishedAtEpochH: number
  readonly reason: ChangeReason
  readonly plan: PublishedPlan
  /** Against the plan before; absent for the first. */
  readonly difference: PlanDifference | undefined
}

export function recordPlan(
  plan: WeekPlan,
  publishedAtEpochH: number,
  reason: ChangeReason,
  before: PlanRecord | undefined,
): PlanRecord {
  return { publishedAtEpochH, reason, plan: asPublished(plan), difference: before && differenceOf(before.plan, plan) }
}

function asPublished({ day, ...plan }: WeekPlan): PublishedPlan {
  const runs = day.runs.map(
    ({ part, outfitId, startEpochH, endEpochH, areaHa, massT, startMoistureWb, endMoistureWb }) => ({
      partKey: part.key,
      outfitId,
      startEpochH,
      endEpochH,
      areaHa,
      massT,
      startMoistureWb,
      endMoistureWb,
    }),
  )
  return { ...plan, day: { date: day.date, runs } }
}

/** What the last published plan said for a date: what a new plan leaves only for a gain. */
export function promisedFor(date: Temporal.PlainDate, last: PlanRecord | undefined): WeekPlan['visits'] {
  return last?.plan.day.date.equals(date) ? last.plan.visits : []
}

/** Whether a new plan is news: for another day, another part of today, or a part on another day. */
export function isNews(plan: WeekPlan, last: PlanRecord | undefined): boolean {
  if (!last?.plan.day.date.equals(plan.day.date)) return true
  return differenceOf(last.plan, plan).moved.length > 0
}
