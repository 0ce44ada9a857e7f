/** What is not run today, and why. */
import type { Farm, Field } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { commonestHoldback, LIKELY } from '#core/outlook/windows.ts'
import type { PlanInput } from './first-plan.ts'
import { type Run, SLIVER_HA, type Waiting } from './plan.ts'

interface Day {
  readonly farm: Farm
  readonly nowEpochH: number
  readonly dayEnd: number
  /** A shorter run is not worth the move [h]. */
  readonly shortestH: number
  readonly rateOf: PlanInput['rateOf']
  /** Whether the planner keeps a part off today; nobody does unless told. */
  readonly isKeptOff?: (partKey: string) => boolean
}

export function waitingParts(
  ranking: readonly { readonly outlook: Outlook }[],
  runs: readonly Run[],
  left: ReadonlyMap<string, number>,
  day: Day,
): Waiting[] {
  const ran = new Set(runs.map((run) => run.part.key))
  return ranking
    .filter(({ outlook }) => !ran.has(outlook.part.key) && left.get(outlook.part.key)! > SLIVER_HA)
    .map(({ outlook }) => describe(outlook, day))
    .sort((a, b) => (a.next?.startEpochH ?? Infinity) - (b.next?.startEpochH ?? Infinity))
}

function describe(outlook: Outlook, day: Day): Waiting {
  const best = bestHour(outlook, day.dayEnd)
  const today = outlook.windows.filter((window) => window.startEpochH < day.dayEnd)
  const later = outlook.windows.find((window) => window.startEpochH >= day.dayEnd)
  const next = later && { startEpochH: later.startEpochH, chance: later.chance }
  const moistureWb = outlook.medianWb[best]!
  return { part: outlook.part, reason: reasonFor(outlook, best, today, day), moistureWb, next }
}

function reasonFor(outlook: Outlook, best: number, today: readonly FitWindow[], day: Day): Waiting['reason'] {
  if (today.length > 0) {
    const longestH = Math.max(...today.map((w) => w.endEpochH - Math.max(w.startEpochH, day.nowEpochH)))
    if (longestH < day.shortestH) return 'short-window'
    const headed = day.farm.outfits.some((outfit) => day.rateOf(outfit, outlook.part, outlook.medianWb[best]!))
    if (headed) return day.isKeptOff?.(outlook.part.key) ? 'kept-off' : 'later-turn'
    const { field } = outlook.part
    return hasHead(field, day.farm) && !isBought(field, day.farm) ? 'no-buyer' : 'no-outfit'
  }
  if (outlook.fitChance[best]! >= LIKELY) return 'short-window'
  const holdback = commonestHoldback(outlook, best)
  if (outlook.part.patch?.kind === 'green' && (holdback === 'wet-grain' || holdback === 'unripe')) return 'patch-green'
  return holdback ?? 'short-window'
}

/** Whether any combine of the farm cuts the crop of a field. */
const hasHead = ({ crop }: Field, { outfits }: Farm): boolean =>
  outfits.some(({ combines }) => combines.some(({ heads }) => heads.some(({ crops }) => crops.includes(crop))))

/** Whether the buyer of a field pays for its crop at all. */
const isBought = ({ buyerId, crop }: Field, farm: Farm): boolean =>
  farm.buyers.some(({ id, terms }) => id === buyerId && terms.some((term) => term.crop === crop))

/** Index of today's hour with the best chance to be fit; the driest among equals. */
function bestHour(outlook: Outlook, dayEnd: number): number {
  const last = Math.min(outlook.hours, dayEnd - outlook.startEpochH)
  let best = 0
  for (let h = 1; h < last; h++) {
    const gain = outlook.fitChance[h]! - outlook.fitChance[best]!
    if (gain > 0 || (gain === 0 && outlook.medianWb[h]! < outlook.medianWb[best]!)) best = h
  }
  return best
}
