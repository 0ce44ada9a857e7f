/**
 * The first plan: rank the parts by dollars at risk if they wait, then fill the day with what each outfit can really do.
 *
 * Each outfit goes to the fit part that loses most money per machine hour by waiting, stays until it is done or its
 * window closes, moves, and goes on. Greedy, explainable, and never promising more than machines, carts, trucks and the
 * buyer carry.
 */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { paceBetween } from '#core/outlook/pace.ts'
import { epochHoursAtMinute, hoursOfLocalDay } from '#core/units/time.ts'
import { dayRoomT, roomPerHa } from './capacity/buyer.ts'
import type { OutfitRate } from './capacity/outfit.ts'
import { buyerShutsAt, haulEnd, leftOnWheelsL } from './haul-end.ts'
import { moveHours } from './moving.ts'
import { type DayPlan, type Ranked, type Run, SLIVER_HA } from './plan.ts'
import { makeRun } from './run.ts'
import { atRiskPerHaDay, trackValue } from './value-track.ts'
import { waitingParts } from './waiting.ts'

export interface PlanInput {
  readonly farm: Farm
  readonly outlooks: readonly Outlook[]
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  /** Area still standing by part key [ha]; a part not named has all of it. */
  readonly standingHa: ReadonlyMap<string, number>
  /** What an outfit does in a part; undefined = it has no head for the crop. */
  readonly rateOf: (outfit: Outfit, part: FieldPart, moistureWb: number) => OutfitRate | undefined
}

/** A run shorter than this is not worth the move (common practice, no source) [h]. */
const SHORTEST_RUN_H = 0.75
const TRACK_DAYS = 8

interface Candidate {
  readonly outlook: Outlook
  readonly window: FitWindow
  readonly riskPerHaDay: number
  /** Moisture that the buyer pays on [% wet basis]. */
  readonly standardWb: number
  readonly shutsEpochH: number
}

interface OutfitClock {
  readonly outfit: Outfit
  freeEpochH: number
  readonly endEpochH: number
  at: FieldPart | undefined
  /** What stands on its wheels for tomorrow [L]. */
  loadedL: number
  /** What lured it away from its last run: that comes next, whatever else is open. */
  bound: Candidate | undefined
}

/** What is still to be had, run down as runs are set. */
interface Left {
  /** By part key [ha]. */
  readonly areaHa: Map<string, number>
  /** Room that a buyer still has today, by id [t]. */
  readonly buyerT: Map<string, number>
}

export function firstPlan(input: PlanInput): DayPlan {
  const { farm, date } = input
  const dayEnd = hoursOfLocalDay(date, farm.timeZone).endEpochH
  const left: Left = {
    areaHa: new Map(input.outlooks.map(({ part }) => [part.key, input.standingHa.get(part.key) ?? part.areaHa])),
    buyerT: new Map(farm.buyers.map((buyer) => [buyer.id, dayRoomT(buyer)])),
  }

  const ranking: (Ranked & { readonly outlook: Outlook })[] = input.outlooks
    .filter(({ part }) => left.areaHa.get(part.key)! > 0)
    .map((outlook) => ({ part: outlook.part, outlook, ...riskOf(outlook, farm) }))
    .map((ranked) => ({ ...ranked, fitToday: ranked.outlook.windows.some((w) => w.startEpochH < dayEnd) }))
    .sort(byRisk)

  const candidates: Candidate[] = ranking.flatMap(({ outlook, atRiskPerHaDay: riskPerHaDay }) =>
    outlook.windows
      .filter((window) => window.startEpochH < dayEnd)
      .map((window) => ({
        outlook,
        window,
        riskPerHaDay,
        standardWb: termsFor(outlook.part, farm)?.standardMoistureWb ?? Number.NaN,
        shutsEpochH: buyerShutsAt(outlook.part, farm, date),
      })),
  )
  const clocks = farm.outfits
    .filter((outfit) => !outfit.daysOff.includes(date.dayOfWeek))
    .map((outfit) => outfitClock(outfit, date, farm.timeZone, input.nowEpochH))

  const runs: Run[] = []
  for (;;) {
    const clock = clocks.filter((c) => c.endEpochH - c.freeEpochH >= SHORTEST_RUN_H).sort(byFree)[0]
    if (!clock) break
    const run = nextRun(clock, candidates, left, input)
    if (!run) {
      clock.freeEpochH = clock.endEpochH
      continue
    }
    runs.push(run)
    const { key, field } = run.part
    left.areaHa.set(key, Math.max(0, left.areaHa.get(key)! - run.areaHa))
    const room = (run.massT * roomPerHa(field, farm, run.startMoistureWb)) / field.usualYieldTHa
    left.buyerT.set(field.buyerId, left.buyerT.get(field.buyerId)! - room)
    clock.freeEpochH = run.endEpochH
    clock.at = run.part
    clock.loadedL += leftOnWheelsL(run, buyerShutsAt(run.part, farm, date))
  }
  runs.sort((a, b) => a.startEpochH - b.startEpochH)
  return {
    date,
    runs,
    waiting: waitingParts(ranking, runs, left.areaHa, {
      farm,
      dayEnd,
      nowEpochH: input.nowEpochH,
      shortestH: SHORTEST_RUN_H,
      rateOf: input.rateOf,
    }),
    ranking: ranking.map(({ part, atRiskPerHaDay: risk, fitToday }) => ({ part, atRiskPerHaDay: risk, fitToday })),
  }
}

/** Highest risk first; what is not known comes last. */
function byRisk(a: Ranked, b: Ranked): number {
  const known = ({ atRiskPerHaDay }: Ranked) =>
    Number.isNaN(atRiskPerHaDay) ? Number.NEGATIVE_INFINITY : atRiskPerHaDay
  return known(b) - known(a) || a.part.key.localeCompare(b.part.key, 'en')
}

const byFree = (a: OutfitClock, b: OutfitClock): number =>
  a.freeEpochH - b.freeEpochH || a.outfit.id.localeCompare(b.outfit.id, 'en')

function riskOf(outlook: Outlook, farm: Farm): { atRiskPerHaDay: number } {
  const terms = termsFor(outlook.part, farm)
  if (!terms) return { atRiskPerHaDay: 0 }
  return { atRiskPerHaDay: atRiskPerHaDay(trackValue(outlook, terms, farm.timeZone, TRACK_DAYS)) }
}

export const termsFor = (part: FieldPart, farm: Farm) =>
  farm.buyers.find(({ id }) => id === part.field.buyerId)?.terms.find(({ crop }) => crop === part.field.crop)

function outfitClock(outfit: Outfit, date: Temporal.PlainDate, timeZone: string, nowEpochH: number): OutfitClock {
  const { startMinute, endMinute } = outfit.crewHours
  return {
    outfit,
    freeEpochH: Math.max(nowEpochH, epochHoursAtMinute(date, startMinute, timeZone)),
    endEpochH: epochHoursAtMinute(date, endMinute, timeZone),
    at: undefined,
    loadedL: 0,
    bound: undefined,
  }
}

/** What gets done in a window, with the care that its hours ask for. */
export function rateAt<Rate extends OutfitRate | undefined>(rate: Rate, outlook: Outlook, window: FitWindow): Rate {
  if (!rate) return rate
  const pace = paceBetween(outlook, window.startEpochH, window.endEpochH)
  return { ...rate, haPerH: rate.haPerH * pace, loadsPerHour: rate.loadsPerHour * pace }
}

interface Option {
  readonly candidate: Candidate
  readonly rate: OutfitRate
  readonly start: number
  readonly end: number
  readonly areaLeft: number
  /** Money saved by each machine hour spent here rather than later [money/h per day of waiting]. */
  readonly score: number
}

/** A machine hour on the road costs at least this much, whatever the fields (common practice, no source) [money/h]. */
const LEAST_HOUR_WORTH = 100

/**
 * What an outfit does next: of what can be opened about now the part that loses most by waiting; it stays until done, until
 * the window closes, or until a part opens that is worth the move. A part that opens too soon for a run before it is
 * waited for. A field is finished before the next: its main stand, then those of its patches that are fit.
 */
function nextRun(clock: OutfitClock, candidates: readonly Candidate[], left: Left, input: PlanInput): Run | undefined {
  const options = candidates.flatMap((candidate) => optionFor(clock, candidate, left, input))
  const earliest = Math.min(...options.map(({ start }) => start))
  const bound = options.find(({ candidate }) => candidate === clock.bound)
  const soon = options.filter(({ start }) => start <= earliest + SHORTEST_RUN_H).sort(byScore)
  const here = soon.find(({ candidate }) => sameField(candidate.outlook.part, clock.at))
  let chosen = bound ?? here ?? soon[0]
  while (chosen) {
    const lure = lureFrom(chosen, options)
    if (!lure) break
    const end = lure.start - moveHours(chosen.candidate.outlook.part, lure.candidate.outlook.part)
    if (end - chosen.start >= SHORTEST_RUN_H) {
      clock.bound = lure.candidate
      return makeRun({ ...chosen, outfit: clock.outfit, end })
    }
    chosen = lure
  }
  clock.bound = undefined
  return chosen && makeRun({ ...chosen, outfit: clock.outfit })
}

const sameField = (a: FieldPart, b: FieldPart | undefined): boolean => a.field.id === b?.field.id

/** What opens first of what is worth leaving a field for. */
function lureFrom(chosen: Option, options: readonly Option[]): Option | undefined {
  return options
    .filter((option) => option.start > chosen.start + SHORTEST_RUN_H && option.start < chosen.end)
    .filter(({ candidate }) => !sameField(candidate.outlook.part, chosen.candidate.outlook.part))
    .filter((option) => worthTheMove(chosen, option))
    .sort((a, b) => a.start - b.start || byScore(a, b))[0]
}

const byScore = (a: Option, b: Option): number =>
  b.score - a.score ||
  a.start - b.start ||
  a.candidate.outlook.part.key.localeCompare(b.candidate.outlook.part.key, 'en')

function worthTheMove(from: Option, to: Option): boolean {
  const move = moveHours(from.candidate.outlook.part, to.candidate.outlook.part)
  return (to.score - from.score) * (to.end - to.start) > move * Math.max(LEAST_HOUR_WORTH, from.score)
}

function optionFor(clock: OutfitClock, candidate: Candidate, left: Left, input: PlanInput): Option[] {
  const { outlook, window } = candidate
  const { key, field, patch } = outlook.part
  const areaLeft = left.areaHa.get(key) ?? 0
  // Nobody moves an outfit for a patch while the field around it stands.
  if (patch && (left.areaHa.get(field.id) ?? 0) > SLIVER_HA) return []
  const rate = rateAt(input.rateOf(clock.outfit, outlook.part, window.startMoistureWb), outlook, window)
  if (areaLeft <= SLIVER_HA || !rate || !(rate.haPerH > 0)) return []
  const takenHa = left.buyerT.get(field.buyerId)! / roomPerHa(field, input.farm, window.startMoistureWb)
  const needed = areaLeft / rate.haPerH
  const start = Math.max(clock.freeEpochH + moveHours(clock.at, outlook.part), window.startEpochH)
  const lastEpochH = Math.min(
    window.endEpochH,
    clock.endEpochH,
    haulEnd(clock.outfit, rate, candidate.shutsEpochH, start, clock.loadedL),
  )
  const lastsH = Math.min(lastEpochH - start, needed, takenHa / rate.haPerH)
  if (lastsH < Math.min(SHORTEST_RUN_H, needed)) return []
  return [{ candidate, rate, start, end: start + lastsH, areaLeft, score: candidate.riskPerHaDay * rate.haPerH }]
}
