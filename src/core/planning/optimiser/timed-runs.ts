/** From visits to runs by the clock: who cuts what from when to when on the first day, on the likely weather. */
import type { Farm, Outfit } from '#core/farm/farm.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { termsFor } from '#core/planning/first-plan.ts'
import { buyerShutsAt, haulEnd, leftOnWheelsL } from '#core/planning/haul-end.ts'
import { moveHours } from '#core/planning/moving.ts'
import type { Ranked, Run } from '#core/planning/plan.ts'
import { makeRun } from '#core/planning/run.ts'
import { crewSpan } from './blocks.ts'
import { type FarmPlanInput, type FarmProblem, SLIVER_HA } from './build-problem.ts'
import { likelyWindows } from './fit.ts'
import type { PlanProblem } from './problem.ts'
import type { Solution } from './solution.ts'

/** A run shorter than this is not worth the move (common practice, no source) [h]. */
export const SHORTEST_RUN_H = 0.75

interface Visit {
  readonly outlook: Outlook
  readonly windows: readonly FitWindow[]
  readonly rate: OutfitRate
  /** What the plan means to take on this visit [ha]; goes down as runs are set. */
  goalHa: number
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
  solution: Solution,
  ranking: readonly Ranked[],
): Run[] {
  const { farm, date, nowEpochH, at } = input
  const dayEnd = problem.blocks.findLast(({ day }) => day === 0)?.endEpochH ?? nowEpochH
  const stock: Stock = {
    leftHa: new Map(problem.jobs.map(({ key, areaHa }) => [key, areaHa])),
    buyerT: new Map(problem.buyers.map(({ id, dailyT }) => [id, dailyT])),
  }
  const riskOf = new Map(ranking.map(({ part, atRiskPerHaDay }) => [part.key, atRiskPerHaDay]))
  const clocks = outfits.flatMap((outfit, c): Clock[] => {
    const span = crewSpan(outfit, date, farm.timeZone)
    if (!span) return []
    const visits = solution.visits[c]!.flatMap((j): Visit[] => {
      const rate = rates[c * problem.jobs.length + j]
      const outlook = outlooks[j]!
      const windows = likelyWindows(outlook).filter(({ startEpochH }) => startEpochH < dayEnd)
      return rate && windows.length > 0 ? [{ outlook, windows, rate, goalHa: goalHa(problem, solution, c, j) }] : []
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
      rate: visit.rate,
      start,
      end,
      areaLeft: stock.leftHa.get(part.key)!,
    })
    runs.push(run)
    stock.leftHa.set(part.key, stock.leftHa.get(part.key)! - run.areaHa)
    stock.buyerT.set(part.field.buyerId, stock.buyerT.get(part.field.buyerId)! - run.massT)
    visit.goalHa -= run.areaHa
    clock.freeEpochH = end
    clock.at = part
    clock.loadedL += leftOnWheelsL(run, buyerShutsAt(part, farm, date))
  }
  return runs.sort((a, b) => a.startEpochH - b.startEpochH || a.outfitId.localeCompare(b.outfitId, 'en'))
}

const byFree = (a: Clock, b: Clock): number =>
  a.freeEpochH - b.freeEpochH || a.outfit.id.localeCompare(b.outfit.id, 'en')

/** Mean over the members in which the crew cuts the job on day 0 at all [ha]. */
function goalHa(problem: PlanProblem, { cuts }: Solution, crew: number, job: number): number {
  let sum = 0
  let members = 0
  for (const list of cuts) {
    let ha = 0
    for (const cut of list) {
      if (cut.job === job && problem.blocks[cut.block]!.day === 0 && cut.pool.crews[0] === crew) ha += cut.ha
    }
    sum += ha
    if (ha > SLIVER_HA) members++
  }
  return members > 0 ? sum / members : 0
}

/**
 * The next of the visits in their order, unless it opens so late that another can be had before it. What is meant for the
 * day is taken first; when all visits have had theirs, what time is left goes on in the order of the list.
 */
function nextOption(clock: Clock, stock: Stock, farm: Farm, date: Temporal.PlainDate): Option | undefined {
  const options = (goal: boolean) =>
    clock.visits.flatMap((visit) =>
      visit.windows.flatMap((window) => optionIn(clock, visit, window, stock, farm, date, goal)),
    )
  const meant = options(true)
  const open = meant.length > 0 ? meant : options(false)
  const earliest = Math.min(...open.map(({ start }) => start))
  return open.find(({ start }) => start <= earliest + SHORTEST_RUN_H)
}

function optionIn(
  clock: Clock,
  visit: Visit,
  window: FitWindow,
  stock: Stock,
  farm: Farm,
  date: Temporal.PlainDate,
  goal: boolean,
): Option[] {
  const { part } = visit.outlook
  const last = clock.visits.every((other) => other === visit || other.goalHa <= SLIVER_HA)
  const leftHa = Math.min(stock.leftHa.get(part.key)!, stock.buyerT.get(part.field.buyerId)! / part.field.usualYieldTHa)
  const wantedHa = goal && !last ? Math.min(leftHa, visit.goalHa) : goal && visit.goalHa <= SLIVER_HA ? 0 : leftHa
  if (wantedHa <= SLIVER_HA) return []
  const needed = wantedHa / visit.rate.haPerH
  const start = Math.max(clock.freeEpochH + moveHours(clock.at, part), window.startEpochH)
  const end = Math.min(
    start + needed,
    window.endEpochH,
    clock.endEpochH,
    haulEnd(clock.outfit, visit.rate, buyerShutsAt(part, farm, date), start, clock.loadedL),
  )
  return end - start >= Math.min(SHORTEST_RUN_H, needed) - 1e-9 ? [{ visit, window, start, end }] : []
}
