/** The long reckonings that a planner's question needs; done here, or in a thread of their own. */
import type { FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { costOfPins, type MoreWorth, type Replanned, replan, worthOfMore } from './replan.ts'
import type { Solver } from './solver-port.ts'

export interface WeekWork {
  /** @throws the reason of a signal that was aborted. */
  replan(
    input: FarmPlanInput,
    before: WeekPlan,
    changes: readonly PlanChange[],
    signal?: AbortSignal,
  ): Promise<Replanned>
  costOfPins(input: FarmPlanInput, week: WeekPlan): Promise<number>
  /** Nothing without a solver. */
  worthOfMore(input: FarmPlanInput): Promise<readonly MoreWorth[]>
}

export const weekWork = (solver: Solver | undefined): WeekWork => ({
  replan: (input, before, changes, signal) =>
    replan(input, before, changes, solver, { explain: false, ...(signal && { signal }) }),
  costOfPins: (input, week) => costOfPins(input, week, solver, { explain: false }),
  worthOfMore: async (input) => (solver ? await worthOfMore(input, solver) : []),
})
