/** What the weather of the coming days does to everybody on the farm, summed over its members. */
import { daylightOf } from '#core/science/sun/daylight.ts'
import { type DryingOff, dryingOff } from '#core/science/wetness/drying-off.ts'
import { wrapDeg } from '#core/units/angles.ts'
import { HOURS_PER_DAY, hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { medianOf } from './quantile.ts'

export interface DewTimes {
  /** `dry`: nothing to wait for; `dries`: wet at first, dry from `offEpochH` on; `wet`: not dry before the day ends. */
  readonly kind: 'dry' | 'dries' | 'wet' | 'unknown'
  /** When plants are dry and when they are wet again, hours since the epoch; NaN = not within the day, or unknown. */
  readonly offEpochH: number
  readonly onEpochH: number
  /** Whether rain has its part in the wetness before they are dry, and after. */
  readonly rainBefore: boolean
  readonly rainAfter: boolean
}

const LIKELY = 0.5

/**
 * Median over the members of the hours at which plants come dry and are wet again.
 * @param waterMm water on the plants of one crop, laid out as the weather.
 */
export function dewTimes(
  weather: Weather,
  waterMm: Float32Array,
  date: Temporal.PlainDate,
  timeZone: string,
): DewTimes {
  const { hours, members, startEpochH, rainMm } = weather
  const { sunriseEpochH } = daylightOf(weather.place, date, timeZone)
  const { endEpochH } = hoursOfLocalDay(date, timeZone)
  const from = Math.max(1, sunriseEpochH - startEpochH)
  const to = Math.min(hours, endEpochH - startEpochH)
  const none = { offEpochH: Number.NaN, onEpochH: Number.NaN, rainBefore: false, rainAfter: false }
  // The day is over: nothing is waited for any more.
  if (to <= from) return { kind: 'dry', ...none }
  const times: DryingOff[] = Array.from({ length: members }, (_, member) =>
    dryingOff(waterMm, member * hours, from, to),
  )
  if (times.some(({ dryH }) => Number.isNaN(dryH))) return { kind: 'unknown', ...none }
  const middle = (values: number[]) => (values.some(Number.isNaN) ? Number.NaN : medianOf(values))
  const rainShare = (spanOf: (time: DryingOff) => { readonly from: number; readonly to: number }) => {
    const rained = times.filter((time, m) => {
      const span = spanOf(time)
      return rainMm
        .subarray(m * hours + Math.floor(span.from), m * hours + Math.min(Math.ceil(span.to), to))
        .some((mm) => mm >= RAIN_HOUR_MM)
    })
    return rained.length / members
  }
  const offH = middle(times.map(({ dryH }) => dryH))
  const rainBefore = rainShare(({ dryH }) => ({ from: 0, to: dryH })) >= LIKELY
  if (!Number.isFinite(offH)) return { kind: 'wet', ...none, rainBefore }
  const onH = middle(times.map(({ wetAgainH }) => wetAgainH))
  const again = {
    onEpochH: Number.isFinite(onH) ? startEpochH + onH : Number.NaN,
    rainAfter: rainShare(({ wetAgainH }) => ({ from: wetAgainH, to: Math.floor(wetAgainH) + 1 })) >= LIKELY,
  }
  // Dry from the first hour looked at: there was no dew to come off.
  if (offH <= from + 0.01) return { kind: 'dry', ...none, ...again }
  return { kind: 'dries', offEpochH: startEpochH + offH, rainBefore, ...again }
}

export type RainAhead =
  | { readonly kind: 'none-in-sight'; readonly untilEpochH: number }
  | { readonly kind: 'expected'; readonly startEpochH: number; readonly chance: number; readonly amountMm: number }
  | { readonly kind: 'unknown' }

/** A day is worth a word when it rains in more members than on any usual day. */
const RAIN_CHANCE_SAID = 0.3
/** Enough to stop a combine or wet the ground [mm in a day]. */
const RAIN_DAY_MM = 1
const RAIN_HOUR_MM = 0.25

/** Days that overlap the first rainy one are looked at too, every six hours, for the one most likely rainy [h]. */
const STEP_H = 6

/**
 * The first day in sight on which rain is more likely than usual, and when in it.
 *
 * A day is any 24 hours. Of the days that overlap the first one with enough chance, the one with the highest is told, so
 * that the edge of a rain that is almost sure is not told as a small chance.
 */
export function rainAhead(weather: Weather): RainAhead {
  const { hours, startEpochH } = weather
  const known = knownRainHours(weather)
  if (known === 0) return { kind: 'unknown' }
  let best: RainDay | undefined
  let lastFrom = known - HOURS_PER_DAY
  for (let from = 0; from <= lastFrom; from += STEP_H) {
    const day = rainDay(weather, from)
    if (day.chance < RAIN_CHANCE_SAID) continue
    if (!best) lastFrom = Math.min(lastFrom, from + HOURS_PER_DAY - STEP_H)
    if (!best || day.chance > best.chance) best = day
  }
  if (best) return { kind: 'expected', ...best }
  return known < Math.min(HOURS_PER_DAY, hours)
    ? { kind: 'unknown' }
    : { kind: 'none-in-sight', untilEpochH: startEpochH + known }
}

/** Hours from the start for which the rain is known in every member. */
function knownRainHours({ hours, members, rainMm }: Weather): number {
  for (let h = 0; h < hours; h++) {
    for (let m = 0; m < members; m++) if (Number.isNaN(rainMm[m * hours + h]!)) return h
  }
  return hours
}

interface RainDay {
  readonly startEpochH: number
  readonly chance: number
  readonly amountMm: number
}

/** The day from an hour on: share of members in which it rains, and the median start and amount of those. */
function rainDay({ hours, members, startEpochH, rainMm }: Weather, from: number): RainDay {
  const totals: number[] = []
  const starts: number[] = []
  for (let m = 0; m < members; m++) {
    const day = rainMm.subarray(m * hours + from, m * hours + from + HOURS_PER_DAY)
    const total = day.reduce((sum, mm) => sum + mm, 0)
    const start = day.findIndex((mm) => mm >= RAIN_HOUR_MM)
    if (total < RAIN_DAY_MM || start < 0) continue
    totals.push(total)
    starts.push(from + start)
  }
  return { startEpochH: startEpochH + medianOf(starts), chance: totals.length / members, amountMm: medianOf(totals) }
}

/** @returns share of members with at least 1 mm from one whole hour to another, 0-1; NaN where not all of it is known. */
export function rainChanceBetween(weather: Weather, fromEpochH: number, toEpochH: number): number {
  const { hours, members, rainMm, startEpochH } = weather
  const from = fromEpochH - startEpochH
  const to = toEpochH - startEpochH
  if (!(from >= 0 && from < to && to <= hours)) return Number.NaN
  let wet = 0
  for (let m = 0; m < members; m++) {
    const total = rainMm.subarray(m * hours + from, m * hours + to).reduce((sum, mm) => sum + mm, 0)
    if (Number.isNaN(total)) return Number.NaN
    if (total >= RAIN_DAY_MM) wet++
  }
  return wet / members
}

export interface SpanWeather {
  readonly windLowMs: number
  readonly windHighMs: number
  /** Mean direction of the wind as a vector [deg from]; NaN where the source has none. */
  readonly windFromDeg: number
  readonly meanWindMs: number
  readonly meanSolarWm2: number
}

/** The wind through a span of hours: median member by hour, then the range over the hours. */
export function windThrough(weather: Weather, fromEpochH: number, toEpochH: number): SpanWeather {
  const { hours, members, startEpochH } = weather
  const first = Math.max(0, Math.floor(fromEpochH - startEpochH))
  const last = Math.min(hours, Math.max(first + 1, Math.ceil(toEpochH - startEpochH)))
  const hourly: number[] = []
  let east = 0
  let north = 0
  let solar = 0
  for (let h = first; h < last; h++) {
    const column: number[] = []
    for (let m = 0; m < members; m++) {
      const i = m * hours + h
      column.push(weather.windMs[i]!)
      const radians = (weather.windFromDeg[i]! * Math.PI) / 180
      east += weather.windMs[i]! * Math.sin(radians)
      north += weather.windMs[i]! * Math.cos(radians)
      solar += weather.solarWm2[i]!
    }
    hourly.push(medianOf(column))
  }
  const bearing = (Math.atan2(east, north) * 180) / Math.PI
  return {
    windLowMs: Math.min(...hourly),
    windHighMs: Math.max(...hourly),
    windFromDeg: wrapDeg(bearing, 360),
    meanWindMs: hourly.reduce((sum, ms) => sum + ms, 0) / hourly.length,
    meanSolarWm2: solar / ((last - first) * members),
  }
}
