/** Plans the day with the week before it: by the solver, else by hand, and by the first plan where all else fails. */
import type { Cut } from '#core/field/cut.ts'
import { outfitPlaces } from '#core/field/outfit-places.ts'
import { BrokenPlan } from '#core/planning/optimiser/assemble.ts'
import type { PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import { type DayInput, type Foreseen, firstPlanOf, foresee, type ToTell } from './make-day.ts'
import { type PlanOptions, planInputOf, planWeek } from './plan-week.ts'
import type { Solver } from './solver-port.ts'

export interface DayPlanner {
  /** @param cuts those that hold: where the outfits stand. @throws the reason of a signal that was aborted. */
  plan(foreseen: Foreseen, cuts: readonly Cut[], rules: PlanRules, signal?: AbortSignal): Promise<ToTell>
  /** Foresees the day, then plans it: all of the long work, so that another thread can do it. */
  prepare(input: DayInput, cuts: readonly Cut[], rules: PlanRules, signal?: AbortSignal): Promise<Prepared>
}

export interface Prepared {
  readonly foreseen: Foreseen
  readonly planned: ToTell
}

/** @param log told when a plan broke a rule and could not be used. */
export function dayPlanner(
  solver: Solver | undefined,
  log: (line: string) => void,
  options: PlanOptions = {},
): DayPlanner {
  const planner: DayPlanner = {
    async prepare(input, cuts, rules, signal) {
      const foreseen = foresee(input)
      return { foreseen, planned: await planner.plan(foreseen, cuts, rules, signal) }
    },

    async plan(foreseen, cuts, rules, signal) {
      const { standingHa } = foreseen.input
      const places = outfitPlaces(foreseen.farm, cuts)
      const input = planInputOf(foreseen, standingHa, rules, places)
      try {
        const week = await planWeek(input, solver, { ...options, ...(signal && { signal }) })
        return { day: week.day, planned: { week, input } }
      } catch (failure) {
        if (!(failure instanceof BrokenPlan)) throw failure
        log(`${failure.message}. The simple plan serves today.`)
        return { day: firstPlanOf(foreseen) }
      }
    },
  }
  return planner
}
