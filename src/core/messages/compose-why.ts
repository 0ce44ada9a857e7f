/** What the message says of the choice behind the plan: why this field first, and why not cut on. */
import { partOfKey } from '#core/field/parts.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import type { ComposeInput } from './compose-input.ts'
import type { SaidRest, SaidWhy } from './morning.ts'
import { partName } from './names.ts'

/** Less is not worth a line [money]. */
const WORTH_TELLING = 20
const MOST_NAMED = 3

export function sayWhy({ farm, plan, choices = [] }: ComposeInput): SaidWhy | undefined {
  const [first] = plan.runs
  const choice =
    first && choices.find(({ partKey, outfitId }) => partKey === first.part.key && outfitId === first.outfitId)
  if (!choice) return undefined
  const { reason, perDayWaiting, instead } = choice
  const other = partOfKey(farm, instead?.partKey)
  const said =
    other && instead && instead.costs >= WORTH_TELLING ? { partName: partName(other), costs: instead.costs } : undefined
  if (reason !== 'pinned' && !said && !(perDayWaiting >= WORTH_TELLING)) return undefined
  return { partName: partName(first.part), reason, perDayWaiting, instead: said }
}

export function sayRest({ runs, waiting }: DayPlan): SaidRest | undefined {
  const resting = waiting
    .filter(({ reason }) => reason === 'worth-waiting')
    .sort((a, b) => (b.waitingSaves ?? 0) - (a.waitingSaves ?? 0))
  const [most] = resting
  if (!most) return undefined
  return {
    fromEpochH: runs.length > 0 ? Math.max(...runs.map(({ endEpochH }) => endEpochH)) : Number.NaN,
    partNames: resting.slice(0, MOST_NAMED).map(({ part }) => partName(part)),
    costs: most.waitingSaves ?? Number.NaN,
  }
}
