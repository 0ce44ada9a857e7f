/** A planner's questions answered in another thread. */

import type { MoreWorth, Replanned } from '#app/replan.ts'
import type { WeekWork } from '#app/week-work.ts'
import type { FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { applyChanges, type PlanChange } from '#core/planning/optimiser/changes.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { Thread } from './thread.ts'

export const REPLAN = 'replan'
export const COST_OF_PINS = 'cost-of-pins'
export const WORTH_OF_MORE = 'worth-of-more'

/** What a week is planned from, without the function in it: it follows from the farm. */
export type PlanData = Omit<FarmPlanInput, 'rateOf'>

export interface ReplanOrder {
  readonly input: PlanData
  readonly before: WeekPlan
  readonly changes: readonly PlanChange[]
}
export interface WeekOrder {
  readonly input: PlanData
  readonly week: WeekPlan
}

export function planDataOf(input: FarmPlanInput): PlanData {
  const { rateOf: _, ...data } = input
  return data
}

export const wholeInput = (data: PlanData): FarmPlanInput => ({ ...data, rateOf: rateIn(data.farm) })

export const weekWorkBy = (thread: Thread): WeekWork => ({
  async replan(input, before, changes, signal) {
    const order: ReplanOrder = { input: planDataOf(input), before, changes }
    const answer = await thread.ask<Omit<Replanned, 'input'>>(REPLAN, order, signal)
    // What it was planned from is known here: the outlooks need not travel back.
    return { ...answer, input: wholeInput({ ...input, ...applyChanges(input, changes) }) }
  },
  costOfPins: async (input, week) => {
    if (input.rules.pins.length === 0) return 0
    return await thread.ask<number>(COST_OF_PINS, { input: planDataOf(input), week } satisfies WeekOrder)
  },
  worthOfMore: async (input) =>
    await thread.ask<readonly MoreWorth[]>(WORTH_OF_MORE, { input: planDataOf(input) } satisfies Omit<
      WeekOrder,
      'week'
    >),
})
