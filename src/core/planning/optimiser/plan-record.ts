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
  | { readonly kind: 'planner'; readonly changes: readonly PlanChange[]; readonly personId: string }

export interface PlanRecord {
  readonly publishedAtEpochH: number
  readonly reason: ChangeReason
  readonly plan: WeekPlan
  /** Against the plan before; absent for the first. */
  readonly difference: PlanDifference | undefined
}

export function recordPlan(
  plan: WeekPlan,
  publishedAtEpochH: number,
  reason: ChangeReason,
  before: PlanRecord | undefined,
): PlanRecord {
  return { publishedAtEpochH, reason, plan, difference: before && differenceOf(before.plan, plan) }
}

/** What the last published plan said for a date: what a new plan leaves only for a gain. */
export function promisedFor(date: Temporal.PlainDate, last: PlanRecord | undefined): WeekPlan['visits'] {
  return last?.plan.day.date.equals(date) ? last.plan.visits : []
}
