/** The outlook on tomorrow for the planner, as data: likely fields, what could change it, and what to measure. */
import type { Farm } from '#core/operation/farm.ts'
import { type FireOutlook, fireThrough } from '#core/outlook/day-fire.ts'
import { rainChanceBetween } from '#core/outlook/day-weather.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { commonestHoldback } from '#core/outlook/windows.ts'
import { worthMeasuring } from '#core/outlook/worth-measuring.ts'
import type { LaterCut } from '#core/planning/optimiser/week-plan.ts'
import { type DayPlan, SLIVER_HA } from '#core/planning/plan.ts'
import { measurables } from '#core/planning/worth-tomorrow.ts'
import type { CropName } from '#core/science/crop.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { SaidAgreement } from './morning.ts'
import { partName } from './names.ts'
import { type Opening, openingOf } from './opening.ts'

/** Of tomorrow. */
export interface EveningMessage extends Opening {
  /** The likeliest first; none where no window is in sight. */
  readonly likely: readonly SaidTomorrow[]
  /** What holds back most parts, where none is likely. */
  readonly heldBy: Holdback | undefined
  readonly changes: readonly CouldChange[]
  readonly measure: readonly SaidMeasure[]
}

export interface SaidTomorrow {
  readonly partName: string
  readonly crop: CropName
  readonly startEpochH: number
  readonly endEpochH: number
  readonly startMoistureWb: number
  readonly lowWb: number
  readonly highWb: number
  /** Chance that the window holds, 0-1. */
  readonly chance: number
}

export type CouldChange =
  | { readonly kind: 'rain'; readonly chance: number }
  /** Grain that may be outside its band when the window opens. */
  | {
      readonly kind: 'moisture'
      readonly partName: string
      readonly side: 'wetter' | 'drier'
      readonly limitWb: number
      readonly chance: number
    }
  | { readonly kind: 'window'; readonly partName: string; readonly heldBy: Holdback; readonly untilEpochH: number }
  | { readonly kind: 'fire'; readonly level: 'care' | 'stop'; readonly fromEpochH: number }
  | { readonly kind: 'sources'; readonly differs: SaidAgreement['differs'] }

export interface SaidMeasure {
  readonly partName: string
  /** Chance that the reading turns the choice, 0-1. */
  readonly turns: number
}

export interface EveningInput {
  readonly farm: Farm
  /** Today. */
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  readonly outlooks: readonly Outlook[]
  readonly plan: DayPlan
  /** What the week's plan cuts on which day; absent where there is none. */
  readonly later?: readonly LaterCut[] | undefined
  /** Area still standing by part key [ha]; one not named has all of it. */
  readonly standingHa: ReadonlyMap<string, number>
  readonly weather: Weather
  readonly fire: FireOutlook
  readonly agreement?: SaidAgreement | undefined
}

const MOST_LIKELY = 3
const MOST_CHANGES = 3
const MOST_MEASURED = 2
/** A chance of rain from here on is worth a word. */
const RAIN_SAID = 0.2
/** Grain off its band is worth a word from this chance on. */
const OFF_BAND_SAID = 0.1
/** A reading that turns the choice less often than this is not worth the walk. */
const TURNS_SAID = 0.1

export function composeEvening(input: EveningInput): EveningMessage {
  const { farm } = input
  const date = input.date.add({ days: 1 })
  const span = hoursOfLocalDay(date, farm.timeZone)
  const leftHa = leftAfterToday(input)
  const standing = input.outlooks.filter(({ part }) => leftHa.get(part.key)! > SLIVER_HA)
  const found = standing.flatMap((outlook) => {
    const window = windowWithin(outlook, span)
    return window ? [{ outlook, window }] : []
  })
  const best = found.sort(byRank(input, date)).slice(0, MOST_LIKELY)
  const named = new Set(best.map(({ outlook }) => outlook.part.key))
  return {
    ...openingOf(farm, date, input.nowEpochH),
    likely: best.map(({ outlook, window }) => sayTomorrow(outlook, window)),
    heldBy: best.length > 0 ? undefined : commonHoldback(standing, span),
    changes: couldChange(input, best, span).slice(0, MOST_CHANGES),
    measure: worthReading(farm, standing, date, leftHa, named),
  }
}

interface Span {
  readonly startEpochH: number
  readonly endEpochH: number
}

interface Likely {
  readonly outlook: Outlook
  readonly window: FitWindow
}

/** What stands when today's runs are done, as far as they get. */
function leftAfterToday({ outlooks, plan, standingHa }: EveningInput): Map<string, number> {
  const left = new Map(outlooks.map(({ part }) => [part.key, standingHa.get(part.key) ?? part.areaHa]))
  for (const { part, areaHa } of plan.runs) left.set(part.key, Math.max(0, (left.get(part.key) ?? 0) - areaHa))
  return left
}

/** The longest window of the day, kept to it. */
function windowWithin({ windows }: Outlook, { startEpochH, endEpochH }: Span): FitWindow | undefined {
  return windows
    .filter((window) => window.startEpochH < endEpochH && window.endEpochH > startEpochH)
    .map((window) => ({
      ...window,
      startEpochH: Math.max(window.startEpochH, startEpochH),
      endEpochH: Math.min(window.endEpochH, endEpochH),
    }))
    .sort((a, b) => b.endEpochH - b.startEpochH - (a.endEpochH - a.startEpochH))[0]
}

/** By what the week's plan is likely to cut then; where there is none, by what loses most by waiting. */
function byRank({ later, plan }: EveningInput, date: Temporal.PlainDate): (a: Likely, b: Likely) => number {
  const planned = new Map(
    (later ?? [])
      .filter((cut) => cut.date.equals(date))
      .map(({ partKey, chance, meanHa }) => [partKey, chance * meanHa]),
  )
  const rank = new Map(plan.ranking.map(({ part }, n) => [part.key, n]))
  const keyOf = ({ outlook }: Likely) => outlook.part.key
  return (a, b) =>
    (planned.get(keyOf(b)) ?? 0) - (planned.get(keyOf(a)) ?? 0) ||
    (rank.get(keyOf(a)) ?? Infinity) - (rank.get(keyOf(b)) ?? Infinity)
}

const sayTomorrow = ({ part }: Outlook, window: FitWindow): SaidTomorrow => ({
  partName: partName(part),
  crop: part.field.crop,
  startEpochH: window.startEpochH,
  endEpochH: window.endEpochH,
  startMoistureWb: window.startMoistureWb,
  lowWb: window.lowWb,
  highWb: window.highWb,
  chance: window.chance,
})

/** What holds most parts back at noon or so: the middle of the day. */
function commonHoldback(outlooks: readonly Outlook[], { startEpochH, endEpochH }: Span): Holdback | undefined {
  const counts = new Map<Holdback, number>()
  for (const outlook of outlooks) {
    const hour = Math.floor((startEpochH + endEpochH) / 2 - outlook.startEpochH)
    const holdback = hour < outlook.hours ? commonestHoldback(outlook, hour) : undefined
    if (holdback) counts.set(holdback, (counts.get(holdback) ?? 0) + 1)
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0]
}

function couldChange(input: EveningInput, best: readonly Likely[], span: Span): CouldChange[] {
  const { weather, fire, agreement, nowEpochH } = input
  const changes: CouldChange[] = []
  const chance = rainChanceBetween(weather, Math.max(weather.startEpochH, Math.floor(nowEpochH)), span.endEpochH)
  if (chance >= RAIN_SAID) changes.push({ kind: 'rain', chance })
  const [first] = best
  if (first) {
    const { fire: level, fromEpochH } = fireOf(weather, fire, first.window)
    if (level !== undefined) changes.push({ kind: 'fire', level, fromEpochH })
    changes.push(...ofFirst(first))
  }
  if (agreement && agreement.differs.length > 0) changes.push({ kind: 'sources', differs: agreement.differs })
  return changes
}

function fireOf(weather: Weather, fire: FireOutlook, { startEpochH, endEpochH }: Span) {
  const { level, fromEpochH } = fireThrough(weather, fire, startEpochH, endEpochH)
  return { fire: level === 'care' || level === 'stop' ? level : undefined, fromEpochH }
}

function ofFirst({ outlook, window }: Likely): CouldChange[] {
  const name = partName(outlook.part)
  const { band } = outlook.part.field
  const hour = Math.floor(window.startEpochH - outlook.startEpochH)
  const shareOf = (isOff: (wb: number) => boolean) => {
    let off = 0
    for (let c = 0; c < outlook.courses; c++) if (isOff(outlook.moistureWb[c * outlook.hours + hour]!)) off++
    return off / outlook.courses
  }
  const wetter = shareOf((wb) => wb > band.highWb)
  const drier = shareOf((wb) => wb < band.lowWb)
  const moisture = { kind: 'moisture', partName: name } as const
  if (Math.max(wetter, drier) >= OFF_BAND_SAID) {
    return wetter >= drier
      ? [{ ...moisture, side: 'wetter', limitWb: band.highWb, chance: wetter }]
      : [{ ...moisture, side: 'drier', limitWb: band.lowWb, chance: drier }]
  }
  if (window.opensAfter === undefined) return []
  return [{ kind: 'window', partName: name, heldBy: window.opensAfter, untilEpochH: window.startEpochH }]
}

/** The readings that are likeliest to turn the choice, worth most first; those named first among equals. */
function worthReading(
  farm: Farm,
  outlooks: readonly Outlook[],
  date: Temporal.PlainDate,
  leftHa: ReadonlyMap<string, number>,
  named: ReadonlySet<string>,
): SaidMeasure[] {
  const nameOf = new Map(outlooks.map(({ part }) => [part.key, partName(part)]))
  return worthMeasuring(measurables(farm, outlooks, date, leftHa), farm.outfits.length)
    .filter(({ worth, turns }) => worth > 0 && turns >= TURNS_SAID)
    .sort((a, b) => b.worth - a.worth || Number(named.has(b.partKey)) - Number(named.has(a.partKey)))
    .slice(0, MOST_MEASURED)
    .map(({ partKey, turns }) => ({ partName: nameOf.get(partKey)!, turns }))
}
