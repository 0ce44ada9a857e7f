/**
 * The first plan: rank the parts by dollars at risk if they wait, then fill the day with what each outfit can really do.
 *
 * Each outfit goes to the fit part that loses most money per machine hour by waiting, stays until it is done or its
 * window closes, moves, and goes on. Greedy, explainable, and never promising more than machines, carts, trucks and the
 * buyer carry.
 */
import type { Farm, Outfit } from '#core/farm/farm.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { OutfitRate } from './capacity/outfit.ts'
import { moveHours } from './moving.ts'
import type { DayPlan, Ranked, Run } from './plan.ts'
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
}

interface OutfitClock {
  readonly outfit: Outfit
  freeEpochH: number
  readonly endEpochH: number
  at: FieldPart | undefined
}

export function firstPlan(input: PlanInput): DayPlan {
  const { farm, date } = input
  const dayEnd = hoursOfLocalDay(date, farm.timeZone).endEpochH
  const left = new Map(input.outlooks.map(({ part }) => [part.key, input.standingHa.get(part.key) ?? part.areaHa]))

  const ranking: (Ranked & { readonly outlook: Outlook })[] = input.outlooks
    .filter(({ part }) => left.get(part.key)! > 0)
    .map((outlook) => ({ part: outlook.part, outlook, ...riskOf(outlook, farm) }))
    .map((ranked) => ({ ...ranked, fitToday: ranked.outlook.windows.some((w) => w.startEpochH < dayEnd) }))
    .sort((a, b) => b.atRiskPerHaDay - a.atRiskPerHaDay || a.part.key.localeCompare(b.part.key, 'en'))

  const candidates: Candidate[] = ranking.flatMap(({ outlook, atRiskPerHaDay: riskPerHaDay }) =>
    outlook.windows
      .filter((window) => window.startEpochH < dayEnd)
      .map((window) => ({ outlook, window, riskPerHaDay })),
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
    left.set(run.part.key, Math.max(0, left.get(run.part.key)! - run.areaHa))
    clock.freeEpochH = run.endEpochH
    clock.at = run.part
  }
  runs.sort((a, b) => a.startEpochH - b.startEpochH)
  return {
    date,
    runs,
    waiting: waitingParts(ranking, runs, left, { farm, dayEnd, rateOf: input.rateOf }),
    ranking: ranking.map(({ part, atRiskPerHaDay: risk, fitToday }) => ({ part, atRiskPerHaDay: risk, fitToday })),
  }
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
  const at = (minute: number) =>
    date.toZonedDateTime({ timeZone, plainTime: Temporal.PlainTime.from({ hour: 0 }) }).add({ minutes: minute })
      .epochMilliseconds / 3_600_000
  const { startMinute, endMinute } = outfit.crewHours
  return { outfit, freeEpochH: Math.max(nowEpochH, at(startMinute)), endEpochH: at(endMinute), at: undefined }
}

/**
 * The best thing for an outfit to do next: among the windows it can still use, the one it can open first wins its
 * start; a part that loses more money per machine hour takes over as soon as its own window opens.
 */
function nextRun(
  clock: OutfitClock,
  candidates: readonly Candidate[],
  left: ReadonlyMap<string, number>,
  input: PlanInput,
): Run | undefined {
  const options = candidates.flatMap((candidate) => {
    const { outlook, window } = candidate
    const areaLeft = left.get(outlook.part.key) ?? 0
    const rate = input.rateOf(clock.outfit, outlook.part, window.startMoistureWb)
    if (areaLeft <= 0.05 || !rate || !(rate.haPerH > 0)) return []
    const start = Math.max(clock.freeEpochH + moveHours(clock.at, outlook.part), window.startEpochH)
    const end = Math.min(window.endEpochH, clock.endEpochH, start + areaLeft / rate.haPerH)
    if (end - start < Math.min(SHORTEST_RUN_H, areaLeft / rate.haPerH)) return []
    return [{ candidate, rate, start, end, areaLeft, riskPerH: candidate.riskPerHaDay * rate.haPerH }]
  })
  const best = options.sort((a, b) => b.riskPerH - a.riskPerH || a.start - b.start)[0]
  if (!best) return undefined
  // Until the best one opens, the best of those that open earlier may use the time.
  const filler = options
    .filter((option) => option.start + SHORTEST_RUN_H <= best.start)
    .sort((a, b) => b.riskPerH - a.riskPerH || a.start - b.start)[0]
  const chosen = filler ?? best
  const end = filler
    ? Math.min(filler.end, best.start - moveHours(filler.candidate.outlook.part, best.candidate.outlook.part))
    : best.end
  if (filler && end - filler.start < SHORTEST_RUN_H) return makeRun({ ...best, outfit: clock.outfit, end: best.end })
  return makeRun({ ...chosen, outfit: clock.outfit, end })
}
