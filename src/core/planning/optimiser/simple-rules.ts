/**
 * What a manager might go by without a planner, and what today would bring by each: the same farm, the same members and
 * machines, the day lived by the rule's own lists, all that comes after left to the same measure as the plan's.
 */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import { moveHours } from '#core/planning/moving.ts'
import { medianAt } from '#core/planning/run.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { FarmPlanInput, FarmProblem } from './build-problem.ts'
import { canVisit } from './moves.ts'
import { livedLoss, type Today } from './order.ts'
import { bestValue } from './problem.ts'
import type { Visits } from './recourse.ts'

export const SIMPLE_RULES = [
  'ripest-first',
  'driest-first',
  'nearest-first',
  'fixed-order',
  'greedy-by-dollars',
] as const
export type SimpleRule = (typeof SIMPLE_RULES)[number]

export interface RulePrice {
  readonly rule: SimpleRule
  /** Expected money for all that stands when today goes by the rule [money]. */
  readonly value: number
  /** What that loses against machines without end [money]; the plan's own loss less this is what the plan saves. */
  readonly loss: number
}

/** Middle of the afternoon, local minutes: the hour at which parts are compared by moisture. */
const AFTERNOON_MINUTE = 900

/** What each rule's day is expected to bring. Costs a day lived in every member for each rule, nothing more. */
export function priceRules(input: FarmPlanInput, farmProblem: FarmProblem, today: Today): RulePrice[] {
  const best = bestValue(farmProblem.problem)
  return SIMPLE_RULES.map((rule) => {
    const loss = livedLoss(today.recourse, today.days, ruleLists(rule, input, farmProblem), today.lossAfter)
    return { rule, loss, value: best - loss }
  })
}

/** Where a rule sends each crew, first to last; it stops nowhere as long as something is fit. */
export function ruleLists(rule: SimpleRule, input: FarmPlanInput, farmProblem: FarmProblem): Visits {
  const { problem: p, outfits } = farmProblem
  const rank = rankBy(rule, input, farmProblem)
  return outfits.map((_, c) => {
    const ranks = p.jobs.map((_, j) => rank(j, c))
    return [...p.jobs.keys()].filter((j) => canVisit(p, c, j)).sort((a, b) => ranks[a]! - ranks[b]! || a - b)
  })
}

/** Low goes first. */
type Rank = (job: number, crew: number) => number

function rankBy(rule: SimpleRule, input: FarmPlanInput, { problem: p, outlooks, outfits }: FarmProblem): Rank {
  const { farm, date, at } = input
  const afternoon = epochHoursAtMinute(date, AFTERNOON_MINUTE, farm.timeZone)
  switch (rule) {
    case 'ripest-first':
      return (j) => -ripeness(outlooks[j]!)
    case 'driest-first':
      return (j) => medianAt(outlooks[j]!, afternoon)
    case 'nearest-first':
      return (j, c) => moveHours(at.get(outfits[c]!.id) ?? yardOf(farm), outlooks[j]!.part)
    case 'fixed-order':
      return (j) => p.jobs[j]!.field
    case 'greedy-by-dollars': {
      const { runs, ranking } = firstPlan(input)
      const place = new Map(ranking.map(({ part }, k) => [part.key, k]))
      return (j, c) => {
        const { key } = p.jobs[j]!
        const run = runs.findIndex((one) => one.part.key === key && one.outfitId === outfits[c]!.id)
        return run >= 0 ? run : runs.length + (place.get(key) ?? ranking.length)
      }
    }
  }
}

/** Share of the courses in which it is ripe by now; among those ripe in all, the one that has lost most by standing. */
function ripeness({ courses, hours, holdbackBits, standingLoss }: Outlook): number {
  let sum = 0
  for (let c = 0; c < courses; c++) {
    const ripe = (holdbackBits[c * hours]! & HOLDBACK_BIT.unripe) === 0
    sum += (ripe ? 1 : 0) + standingLoss[c * hours]!
  }
  return sum / courses
}

/** Before its first field an outfit stands at the yard: a part of no field, where the farm is. */
export function yardOf(farm: Farm): FieldPart {
  const { latDeg, lonDeg } = farm.home
  return { key: '', field: { ...farm.fields[0]!, id: '', centre: { latDeg, lonDeg } }, areaHa: 0 }
}
