/**
 * The past of a place by calendar years in UTC: asked for once a year and cell, kept for good, never asked for twice.
 * First what the season since planting lacks, then earlier years one at a time, for the season beyond the forecast.
 */
import { HOURS_PER_DAY, hoursOfYear, instantOf } from '#core/units/time.ts'
import { type Place, unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { laidBetween } from '#core/units/weather-hours.ts'
import type { Ask } from './ask-source.ts'
import { askTimes, type Pace } from './ask-times.ts'
import type { HistorySource } from './ports.ts'
import { cellOf } from './weather-cell.ts'
import type { KeptYear, SettledYear, WeatherStore } from './weather-store.ts'

/** How many earlier years are asked for: enough that one in ten is told from two in ten. */
export const YEARS_BACK = 20
/** Minutes between two years, so that a new farm takes some hours for all of them; long waits after failures. */
const PACE: Pace = {
  soonestH: 0.05,
  usualH: 0.1,
  longestExpiryH: 0.1,
  firstRetryH: 0.5,
  longestRetryH: 12,
  jitterH: 0.1,
}
/** Gaps up to this are bridged where they are used [h]. */
const SMALL_GAP_H = 6
/** Less than this is not asked for [h]. */
const SHORTEST_H = HOURS_PER_DAY
/** The season is looked through for gaps so often [h]. */
const LOOK_EVERY_H = HOURS_PER_DAY
/** So long after its end a year is settled, whatever is missing of it [h]. */
const SETTLED_AFTER_H = 60 * HOURS_PER_DAY
const NEEDED = ['airTempC', 'relHumidity', 'rainMm', 'windMs'] as const

export interface HistoryKeeperParts {
  /** In the order asked. */
  readonly sources: readonly HistorySource[]
  readonly store: WeatherStore
  readonly ask: Ask
  /** 0-1; spreads the asking. */
  readonly random: () => number
  /** What was seen live of a stretch. */
  readonly seen: (place: Place, fromEpochH: number, toEpochH: number) => Promise<Weather | undefined>
}

export interface HistoryKeeper {
  /** Asks for what nobody saw of the stretch up to now; looks once a day, and after failures again. */
  fillSeason(place: Place, fromEpochH: number, nowEpochH: number): Promise<void>
  /** Asks for one earlier year, the newest that is missing, when it is due. */
  oneEarlierYear(place: Place, nowEpochH: number): Promise<void>
  /** What is kept of a stretch: a layer for each source, in their order. */
  between(place: Place, fromEpochH: number, toEpochH: number): Promise<readonly Weather[]>
}

export function keepHistory({ sources, store, ask, random, seen }: HistoryKeeperParts): HistoryKeeper {
  const times = askTimes(random, PACE)
  const nextLook = new Map<string, number>()
  /** Failures of each year: one that cannot be had must not bar the others. */
  const failures = new Map<string, number>()

  async function fillSeason(place: Place, fromEpochH: number, nowEpochH: number): Promise<void> {
    const cell = cellOf(place)
    if (sources.length === 0 || nowEpochH < (nextLook.get(cell) ?? Number.NEGATIVE_INFINITY)) return
    const settled = await store.settledYears(cell)
    const due = dueSources(cell, nowEpochH)
    let isDone = true
    for (let year = yearOf(nowEpochH); year >= yearOf(fromEpochH); year--) {
      if ((await fillYear(place, year, settled, nowEpochH, due, fromEpochH)) === 'failed') isDone = false
    }
    if (isDone) nextLook.set(cell, nowEpochH + LOOK_EVERY_H)
  }

  /** Those that may be asked now; the years of one season may then follow each other at once. */
  const dueSources = (cell: string, nowEpochH: number): Set<HistorySource> =>
    new Set(sources.filter(({ id }) => times.isDue(`${cell}/${id}/history`, nowEpochH)))

  /** @returns whether the year was kept, nobody who was asked answered, or there was nothing to ask for. */
  async function fillYear(
    place: Place,
    year: number,
    settled: readonly SettledYear[],
    nowEpochH: number,
    due: Set<HistorySource>,
    neededFromEpochH?: number,
  ): Promise<'kept' | 'failed' | 'nothing'> {
    const cell = cellOf(place)
    const span = hoursOfYear(year)
    let outcome: 'failed' | 'nothing' = 'nothing'
    for (const source of sources) {
      const fromEpochH = Math.max(settledUntil(settled, year), source.sinceEpochH, span.startEpochH)
      const toEpochH = Math.min(span.endEpochH, Math.floor(nowEpochH - source.lagH))
      if (toEpochH - fromEpochH < SHORTEST_H) continue
      if (neededFromEpochH !== undefined && !(await hasGap(place, Math.max(fromEpochH, neededFromEpochH), toEpochH)))
        continue
      outcome = 'failed'
      if (!due.has(source)) continue
      const key = `${cell}/${source.id}/history`
      const answer = await ask(
        { source, kind: 'history', key, times, nowEpochH },
        () => source.fetch({ place, nowEpochH, fromEpochH, toEpochH }),
        ({ weather }) => ({ issuedAtEpochH: lastKnownEpochH(weather) + 1 }),
      )
      if ('found' in answer) {
        await keep(cell, place, source, year, answer.found.weather, nowEpochH)
        return 'kept'
      }
      due.delete(source)
      const failed = `${cell}/${year}`
      failures.set(failed, (failures.get(failed) ?? 0) + 1)
    }
    return outcome
  }

  async function hasGap(place: Place, fromEpochH: number, toEpochH: number): Promise<boolean> {
    const known = await seen(place, fromEpochH, toEpochH)
    let gap = 0
    for (let epochH = fromEpochH; epochH < toEpochH; epochH++) {
      gap = known && isKnown(known, epochH - known.startEpochH) ? 0 : gap + 1
      if (gap > SMALL_GAP_H) return true
    }
    return false
  }

  async function keep(
    cell: string,
    place: Place,
    { id }: HistorySource,
    year: number,
    found: Weather,
    nowEpochH: number,
  ): Promise<void> {
    const { startEpochH, endEpochH } = hoursOfYear(year)
    const kept = (await store.years(cell, place, year, year)).find(({ sourceId }) => sourceId === id)
    const hours = endEpochH - startEpochH
    const arrays = unknownWeatherArrays(1, hours)
    for (const name of WEATHER_VARIABLES) {
      if (kept) arrays[name].set(kept.weather[name])
      for (let h = 0; h < found.hours; h++) {
        const value = found[name][h]!
        if (!Number.isNaN(value)) arrays[name][found.startEpochH - startEpochH + h] = value
      }
    }
    const weather: Weather = { ...found, ...arrays, place, startEpochH, hours }
    // What the source did not have yet may come; once the year is long over, what is missing stays so.
    const isOver = nowEpochH > endEpochH + SETTLED_AFTER_H
    const settledUntilEpochH = isOver ? endEpochH : Math.max(startEpochH, lastKnownEpochH(weather) + 1)
    await store.keepYear(cell, { sourceId: id, year, settledUntilEpochH, weather })
  }

  async function oneEarlierYear(place: Place, nowEpochH: number): Promise<void> {
    if (sources.length === 0) return
    const cell = cellOf(place)
    const settled = await store.settledYears(cell)
    const thisYear = yearOf(nowEpochH)
    const missing = Array.from({ length: YEARS_BACK }, (_, back) => thisYear - 1 - back)
      .filter((year) => hoursOfYear(year).endEpochH - settledUntil(settled, year) >= SHORTEST_H)
      .sort((a, b) => (failures.get(`${cell}/${a}`) ?? 0) - (failures.get(`${cell}/${b}`) ?? 0))
    const due = dueSources(cell, nowEpochH)
    for (const year of missing) {
      if (due.size === 0 || (await fillYear(place, year, settled, nowEpochH, due)) !== 'nothing') return
    }
  }

  async function between(place: Place, fromEpochH: number, toEpochH: number): Promise<readonly Weather[]> {
    if (toEpochH <= fromEpochH) return []
    const kept = await store.years(cellOf(place), place, yearOf(fromEpochH), yearOf(toEpochH - 1))
    const order = [...new Set([...sources.map(({ id }) => id), ...kept.map(({ sourceId }) => sourceId)])]
    return order.flatMap((id) => {
      const own = kept.filter(({ sourceId }) => sourceId === id)
      return own.length > 0 ? [stretchOf(own, fromEpochH, toEpochH)] : []
    })
  }

  return { fillSeason, oneEarlierYear, between }
}

function stretchOf(years: readonly KeptYear[], fromEpochH: number, toEpochH: number): Weather {
  const pieces = years.map(({ weather }) => weather)
  const arrays = laidBetween(pieces, fromEpochH, toEpochH)
  return { ...pieces.at(-1)!, ...arrays, startEpochH: fromEpochH, hours: toEpochH - fromEpochH }
}

const isKnown = (weather: Weather, h: number): boolean =>
  NEEDED.every((name) => !Number.isNaN(weather[name][h] ?? Number.NaN))

/** @returns last hour of which all is known that is needed, hours since the epoch; NaN = none. */
function lastKnownEpochH(weather: Weather): number {
  for (let h = weather.hours - 1; h >= 0; h--) if (isKnown(weather, h)) return weather.startEpochH + h
  return Number.NaN
}

function settledUntil(settled: readonly SettledYear[], year: number): number {
  const own = settled.filter((one) => one.year === year).map(({ settledUntilEpochH }) => settledUntilEpochH)
  return Math.max(hoursOfYear(year).startEpochH, ...own)
}

const yearOf = (epochH: number): number => instantOf(epochH).toZonedDateTimeISO('UTC').year
