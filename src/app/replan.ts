/** The planner's loop: change something, get the new plan and the difference; ask what a pin or one more of something is worth. */
import { buildProblem, type FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import {
  applyChanges,
  differenceOf,
  moneyOf,
  type PlanChange,
  type PlanDifference,
} from '#core/planning/optimiser/changes.ts'
import { relaxed } from '#core/planning/optimiser/linear/linear-model.ts'
import { extensiveForm } from '#core/planning/optimiser/linear/two-stage.ts'
import { planModel } from '#core/planning/optimiser/model.ts'
import { bestValue } from '#core/planning/optimiser/problem.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { MINUTES_PER_DAY, MINUTES_PER_HOUR } from '#core/units/time.ts'
import { type PlanOptions, planWeek } from './plan-week.ts'
import type { Solver } from './solver-port.ts'

export interface Replanned {
  readonly plan: WeekPlan
  readonly difference: PlanDifference
  readonly input: FarmPlanInput
}

/** Where somebody waits for the answer the solver stops early: today's lists are searched for after it anyway. */
const WAITED_FOR = { relGap: 0.02, nodes: 1 } as const

export async function replan(
  input: FarmPlanInput,
  before: WeekPlan,
  changes: readonly PlanChange[],
  solver: Solver | undefined,
  options: PlanOptions = {},
): Promise<Replanned> {
  const next = changedInput(input, changes)
  const plan = await planWeek(next, solver, { ...WAITED_FOR, ...options })
  return { plan, difference: differenceOf(before, plan), input: next }
}

/** The changed farm has other outfits, so other rates. */
function changedInput(input: FarmPlanInput, changes: readonly PlanChange[]): FarmPlanInput {
  const changed = applyChanges(input, changes)
  return { ...input, ...changed, rateOf: rateIn(changed.farm) }
}

/** What the pins cost against the plan that is free of them [money]; 0 without pins. */
export async function costOfPins(
  input: FarmPlanInput,
  plan: WeekPlan,
  solver: Solver | undefined,
  options: PlanOptions = {},
): Promise<number> {
  if (input.rules.pins.length === 0) return 0
  const free = await planWeek({ ...input, rules: { ...input.rules, pins: [] } }, solver, options)
  return Math.max(0, moneyOf(free) - moneyOf(plan))
}

export interface MoreWorth {
  readonly outfitId: string
  readonly what: 'hour' | 'cart' | 'truck'
  /** What the outlook's days would bring more [money]. */
  readonly money: number
}

/** What one more hour a day, cart or truck of an outfit would bring, each alone: difference of two linear optima. */
export async function worthOfMore(input: FarmPlanInput, solver: Solver, signal?: AbortSignal): Promise<MoreWorth[]> {
  const base = await linearValue(input, solver, signal)
  const out: MoreWorth[] = []
  for (const { id: outfitId, carts, trucks, crewHours } of input.farm.outfits) {
    const { startMinute } = crewHours
    const endMinute = Math.min(MINUTES_PER_DAY, crewHours.endMinute + MINUTES_PER_HOUR)
    const cart = carts.at(-1)
    const truck = trucks.at(-1)
    const options: [MoreWorth['what'], PlanChange][] = [['hour', { kind: 'hours', outfitId, startMinute, endMinute }]]
    if (cart) options.push(['cart', { kind: 'add-cart', outfitId, cart }])
    if (truck) options.push(['truck', { kind: 'add-truck', outfitId, truck }])
    for (const [what, change] of options) {
      const value = await linearValue(changedInput(input, [change]), solver, signal)
      out.push({ outfitId, what, money: Math.max(0, value - base) })
    }
  }
  return out.sort((a, b) => b.money - a.money)
}

async function linearValue(input: FarmPlanInput, solver: Solver, signal: AbortSignal | undefined): Promise<number> {
  const { problem } = buildProblem(input)
  const { model } = extensiveForm(planModel(problem).stages)
  const { objective } = await solver.solve(relaxed(model), signal ? { signal } : {})
  return bestValue(problem) - objective
}
