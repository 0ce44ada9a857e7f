/** What the message says of fields and machines: what is run, what waits, what stands by, how it is hauled. */
import type { Farm } from '#core/operation/farm.ts'
import { HOLDBACKS, type Holdback } from '#core/outlook/holdback.ts'
import type { DayPlan, Run, Waiting } from '#core/planning/plan.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { ComposeInput } from './compose-input.ts'
import type { Headline, SaidBuyer, SaidHauling, SaidLeave, SaidRun } from './morning.ts'
import { partName } from './names.ts'

/** More lines than this and nobody reads them on a phone. */
const MOST_THEN = 2
const MOST_TURNS = 3

/**
 * The runs told in full, in order of start: the first, the first of every other outfit, and of the rest as many as a phone
 * shows.
 */
export function toldRuns(runs: readonly Run[]): Run[] {
  const heads = runs.filter((run, n) => runs.findIndex(({ outfitId }) => outfitId === run.outfitId) === n)
  const most = Math.max(1 + MOST_THEN, heads.length)
  const told = new Set([...new Set([...heads, ...runs])].slice(0, most))
  return runs.filter((run) => told.has(run))
}

/** Names of what comes after the runs told in full: later runs of today, then fit parts that no machine is free for. */
export function turnsOf({ runs, waiting }: DayPlan): string[] {
  const told = new Set(toldRuns(runs).map(({ part }) => partName(part)))
  const parts = [...runs, ...waiting.filter(({ reason }) => reason === 'later-turn')]
  const names = new Set(parts.map(({ part }) => partName(part)))
  return [...names.difference(told)].slice(0, MOST_TURNS)
}

/** A function that tells who runs, where more than one outfit does. */
function namesIn({ outfits }: Farm, runs: readonly Run[]): (outfitId: string) => string | undefined {
  const isOne = new Set(runs.map(({ outfitId }) => outfitId)).size < 2
  return (outfitId) => (isOne ? undefined : outfits.find(({ id }) => id === outfitId)?.name)
}

export function sayRuns(farm: Farm, { runs }: DayPlan): SaidRun[] {
  const nameOf = namesIn(farm, runs)
  return toldRuns(runs).map((run) => sayRun(run, nameOf(run.outfitId)))
}

const sayRun = (run: Run, outfitName: string | undefined): SaidRun => ({
  partName: partName(run.part),
  outfitName,
  crop: run.part.field.crop,
  startEpochH: run.startEpochH,
  endEpochH: run.endEpochH,
  startMoistureWb: run.startMoistureWb,
  endMoistureWb: run.endMoistureWb,
  brittle: Math.min(run.startMoistureWb, run.endMoistureWb) < run.part.field.band.lowWb,
  areaHa: run.areaHa,
  ofAreaHa: run.ofAreaHa,
  massT: run.massT,
  lbPerBu: CROP_TRADE[run.part.field.crop].lbPerBu,
  truckLoads: run.truckLoads,
  combines: run.combines,
  chance: run.chance,
  ...(run.part.through && { through: run.part.through.map(({ name }) => name) }),
})

export const sayLeave = (waiting: Waiting): SaidLeave => ({
  partName: partName(waiting.part),
  crop: waiting.part.field.crop,
  reason: waiting.reason,
  moistureWb: waiting.moistureWb,
  nextEpochH: waiting.next?.startEpochH,
  chance: waiting.next?.chance ?? Number.NaN,
})

/** Is a reason to leave a part worth a line: not what holds all fields alike, nor what the first line says already. */
export function tellsOfField(reason: Waiting['reason'], headline: Headline): boolean {
  if (reason === 'later-turn' || reason === 'worth-waiting' || reason === 'crew-off' || reason === 'dark') return false
  const tellsMoisture = reason === 'wet-grain' || reason === 'unripe'
  return tellsMoisture || headline.kind !== 'wait' || headline.reason !== reason
}

export function standBy({ plan, outlooks, farm, date }: ComposeInput): Headline {
  if (plan.waiting.length === 0 && plan.ranking.length === 0) return { kind: 'done' }
  const next = plan.waiting.find((waiting) => waiting.next)
  const common = commonReason(plan.waiting)
  // A crew that goes home in the evening is not off today.
  const dayOff = farm.outfits.every(({ daysOff }) => daysOff.includes(date.dayOfWeek))
  const reason = (common === 'crew-off' && !dayOff) || common === 'dark' ? undefined : common
  if (!next?.next || outlooks.length === 0) {
    return { kind: 'wait', nextFieldName: undefined, nextEpochH: Number.NaN, chance: Number.NaN, reason }
  }
  return {
    kind: 'wait',
    nextFieldName: partName(next.part),
    nextEpochH: next.next.startEpochH,
    chance: next.next.chance,
    reason,
  }
}

/** The reason that holds back most parts today, if it is one of the weather's or the field's. */
function commonReason(waiting: readonly Waiting[]): Holdback | undefined {
  const counts = new Map<string, number>()
  for (const { reason } of waiting) counts.set(reason, (counts.get(reason) ?? 0) + 1)
  const [top] = [...counts].sort((a, b) => b[1] - a[1])
  return HOLDBACKS.find((name) => name === top?.[0])
}

/** Nobody harvests on such a day: nothing stands, or nothing that does is ripe. */
export const isIdle = ({ runs, waiting }: DayPlan): boolean =>
  runs.length === 0 && waiting.every(({ reason }) => reason === 'unripe' || reason === 'patch-green')

/** For each outfit that runs, in order of start, what its first run asks of carts and trucks. */
export function sayHauling(farm: Farm, { runs }: DayPlan): SaidHauling[] {
  const nameOf = namesIn(farm, runs)
  const ids = new Set(runs.map(({ outfitId }) => outfitId))
  return [...ids].flatMap((id) => {
    const outfit = farm.outfits.find((found) => found.id === id)
    const run = runs.find(({ outfitId }) => outfitId === id)
    if (!outfit || !run) return []
    return [
      {
        outfitName: nameOf(id),
        // Combines of an outfit without carts drive to the trucks: none is needed.
        cartsNeeded: outfit.carts.length > 0 ? run.cartsNeeded : 0,
        cartsThere: outfit.carts.length,
        trucksNeeded: run.trucksNeeded,
        trucksThere: outfit.trucks.length,
        limitedBy: run.limitedBy,
      },
    ]
  })
}

/** Until when the buyers of the runs told take grain. */
export function sayBuyers({ buyers, timeZone }: Farm, { runs, date }: DayPlan): SaidBuyer[] {
  const ids = new Set(toldRuns(runs).map(({ part }) => part.field.buyerId))
  return [...ids].flatMap((id) => {
    const buyer = buyers.find((found) => found.id === id)
    if (!buyer) return []
    return [{ name: buyer.name, closesEpochH: epochHoursAtMinute(date, buyer.hours.closeMinute, timeZone) }]
  })
}
