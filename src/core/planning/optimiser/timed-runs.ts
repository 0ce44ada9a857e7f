/** From visits to runs by the clock: who cuts what from when to when on the first day, on the likely weather. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { rateAt, termsFor } from '#core/planning/first-plan.ts'
import { buyerShutsAt, haulEnd, leftOnWheelsL } from '#core/planning/haul-end.ts'
import { moveHours } from '#core/planning/moving.ts'
import { type Ranked, type Run, SLIVER_HA } from '#core/planning/plan.ts'
import { makeRun } from '#core/planning/run.ts'
import { crewSpan } from './blocks.ts'
import type { FarmPlanInput, FarmProblem } from './build-problem.ts'
import { likelyWindows } from './fit.ts'
import type { Visits } from './recourse.ts'

/** A run shorter than this is not worth the move (common practice, no source) [h]. */
export const SHORTEST_RUN_H = 0.75
/** A crew waits so long for a part higher on its list (common practice, no source) [h]. */
const WAIT_H = 0.5

interface Visit {
  readonly outlook: Outlook
  readonly windows: readonly FitWindow[]
  readonly rate: OutfitRate
  /** Room that a hectare takes of the buyer's day [t/ha]. */
  readonly roomPerHa: number
  /** Pinned for today: whatever was begun before is left in time for it. */
  readonly pinned: boolean
}

interface Clock {
  readonly outfit: Outfit
  readonly endEpochH: number
  readonly visits: Visit[]
  freeEpochH: number
  at: FieldPart | undefined
  loadedL: number
}

interface Stock {
  readonly leftHa: Map<string, number>
  readonly buyerT: Map<string, number>
}

interface Option {
  readonly visit: Visit
  readonly window: FitWindow
  readonly start: number
  readonly end: number
}

export function timedRuns(
  input: FarmPlanInput,
  { problem, outlooks, outfits, rates }: FarmProblem,
  lists: Visits,
  ranking: readonly Ranked[],
): Run[] {
  const { farm, date, nowEpochH, at } = input
  const dayEnd = problem.blocks.findLast(({ day }) => day === 0)?.endEpochH ?? nowEpochH
  const stock: Stock = {
    leftHa: new Map(problem.jobs.map(({ key, areaHa }) => [key, areaHa])),
    buyerT: new Map(problem.buyers.map(({ id, dailyT }) => [id, dailyT])),
  }
  const pinnedToday = (c: number, j: number) =>
    problem.rules.pins.some(({ day, job, crew }) => day === 0 && job === j && (crew < 0 || crew === c))
  const riskOf = new Map(ranking.map(({ part, atRiskPerHaDay }) => [part.key, atRiskPerHaDay]))
  const clocks = outfits.flatMap((outfit, c): Clock[] => {
    const span = crewSpan(outfit, date, farm.timeZone)
    if (!span) return []
    const visits = lists[c]!.flatMap((j): Visit[] => {
      const rate = rates[c * problem.jobs.length + j]
      const outlook = outlooks[j]!
      const windows = likelyWindows(outlook).filter(({ startEpochH }) => startEpochH < dayEnd)
      const roomPerHa = problem.jobs[j]!.tPerHa
      return rate && windows.length > 0 ? [{ outlook, windows, rate, roomPerHa, pinned: pinnedToday(c, j) }] : []
    })
    const freeEpochH = Math.max(nowEpochH, span.from)
    return [{ outfit, endEpochH: span.to, visits, freeEpochH, at: at.get(outfit.id), loadedL: 0 }]
  })

  const runs: Run[] = []
  for (;;) {
    const clock = clocks.filter(({ visits }) => visits.length > 0).sort(byFree)[0]
    if (!clock) break
    const option = nextOption(clock, stock, farm, date)
    if (!option) {
      clock.visits.length = 0
      continue
    }
    const { visit, window, start, end } = option
    const { part } = visit.outlook
    const run = makeRun({
      outfit: clock.outfit,
      candidate: {
        outlook: visit.outlook,
        window,
        riskPerHaDay: riskOf.get(part.key) ?? Number.NaN,
        standardWb: termsFor(part, farm)!.standardMoistureWb,
      },
      rate: rateAt(visit.rate, visit.outlook, window),
      start,
      end,
      areaLeft: stock.leftHa.get(part.key)!,
    })
    runs.push(run)
    stock.leftHa.set(part.key, stock.leftHa.get(part.key)! - run.areaHa)
    const room = (run.massT * visit.roomPerHa) / part.field.usualYieldTHa
    stock.buyerT.set(part.field.buyerId, stock.buyerT.get(part.field.buyerId)! - room)
    clock.freeEpochH = end
    clock.at = part
    clock.loadedL += leftOnWheelsL(run, buyerShutsAt(part, farm, date))
  }
  return runs.sort((a, b) => a.startEpochH - b.startEpochH || a.outfitId.localeCompare(b.outfitId, 'en'))
}

const byFree = (a: Clock, b: Clock): number =>
  a.freeEpochH - b.freeEpochH || a.outfit.id.localeCompare(b.outfit.id, 'en')

/** The first visit of the list that can be had about now; each is stayed in until it is done or its window closes. */
function nextOption(clock: Clock, stock: Stock, farm: Farm, date: Temporal.PlainDate): Option | undefined {
  const open = clock.visits.flatMap((visit) =>
    visit.windows.flatMap((window) => optionIn(clock, visit, window, stock, farm, date)),
  )
  const earliest = Math.min(...open.map(({ start }) => start))
  const chosen = open.find(({ start }) => start <= earliest + WAIT_H)
  const [pin] = open.filter(({ visit }) => visit.pinned).sort((a, b) => a.start - b.start)
  if (!chosen || !pin || chosen.visit.pinned) return chosen
  const end = Math.min(
    chosen.end,
    pin.window.startEpochH - moveHours(chosen.visit.outlook.part, pin.visit.outlook.part),
  )
  return end - chosen.start >= SHORTEST_RUN_H ? { ...chosen, end } : pin
}

function optionIn(
  clock: Clock,
  visit: Visit,
  window: FitWindow,
  stock: Stock,
  farm: Farm,
  date: Temporal.PlainDate,
): Option[] {
  const { part } = visit.outlook
  const wantedHa = Math.min(stock.leftHa.get(part.key)!, stock.buyerT.get(part.field.buyerId)! / visit.roomPerHa)
  if (wantedHa <= SLIVER_HA) return []
  const rate = rateAt(visit.rate, visit.outlook, window)
  const needed = wantedHa / rate.haPerH
  const start = Math.max(clock.freeEpochH + moveHours(clock.at, part), window.startEpochH)
  const end = Math.min(
    start + needed,
    window.endEpochH,
    clock.endEpochH,
    haulEnd(clock.outfit, rate, buyerShutsAt(part, farm, date), start, clock.loadedL),
  )
  return end - start >= Math.min(SHORTEST_RUN_H, needed) - 1e-9 ? [{ visit, window, start, end }] : []
}
