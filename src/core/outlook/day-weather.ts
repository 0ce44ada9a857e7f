/** What the weather of the coming days does to everybody on the farm, summed over its members. */
import type { Field } from '#core/farm/farm.ts'
import { daylightOf } from '#core/science/sun/daylight.ts'
import { type DryingOff, dryingOff } from '#core/science/wetness/drying-off.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { quantileOfSorted } from './quantile.ts'

export interface DewTimes {
  /** When plants are dry and when they are wet again, hours since the epoch; NaN = not within the day, or unknown. */
  readonly offEpochH: number
  readonly onEpochH: number
}

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
  const { sunriseEpochH } = daylightOf(weather.place, date, timeZone)
  const { endEpochH } = hoursOfLocalDay(date, timeZone)
  const from = Math.max(1, sunriseEpochH - weather.startEpochH)
  const to = Math.min(weather.hours, endEpochH - weather.startEpochH)
  const unknown = { offEpochH: Number.NaN, onEpochH: Number.NaN }
  if (Number.isNaN(from) || to <= from) return unknown
  const times: DryingOff[] = Array.from({ length: weather.members }, (_, member) =>
    dryingOff(waterMm, member * weather.hours, from, to),
  )
  const middle = (values: number[]) => {
    if (values.some(Number.isNaN)) return Number.NaN
    const median = quantileOfSorted(
      values.sort((a, b) => a - b),
      0.5,
    )
    return Number.isFinite(median) ? weather.startEpochH + median : Number.NaN
  }
  const off = middle(times.map(({ dryH }) => dryH))
  // Dry from the first hour looked at: there was no dew to come off.
  return {
    offEpochH: off <= weather.startEpochH + from + 0.01 ? Number.NaN : off,
    onEpochH: middle(times.map(({ wetAgainH }) => wetAgainH)),
  }
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

/** The first day in sight on which rain is more likely than usual, and when in it. */
export function rainAhead(weather: Weather): RainAhead {
  const { hours, members, startEpochH, rainMm } = weather
  if (hours === 0) return { kind: 'unknown' }
  for (let from = 0; from + 24 <= hours; from += 6) {
    const totals: number[] = []
    const starts: number[] = []
    for (let m = 0; m < members; m++) {
      let total = 0
      let start = -1
      for (let h = from; h < from + 24; h++) {
        const mm = rainMm[m * hours + h]!
        if (Number.isNaN(mm))
          return from === 0 ? { kind: 'unknown' } : { kind: 'none-in-sight', untilEpochH: startEpochH + h }
        total += mm
        if (start < 0 && mm >= RAIN_HOUR_MM) start = h
      }
      if (total >= RAIN_DAY_MM && start >= 0) {
        totals.push(total)
        starts.push(start)
      }
    }
    if (totals.length / members >= RAIN_CHANCE_SAID) {
      return {
        kind: 'expected',
        startEpochH:
          startEpochH +
          quantileOfSorted(
            starts.sort((a, b) => a - b),
            0.5,
          ),
        chance: totals.length / members,
        amountMm: quantileOfSorted(
          totals.sort((a, b) => a - b),
          0.5,
        ),
      }
    }
  }
  return { kind: 'none-in-sight', untilEpochH: startEpochH + hours }
}

/** @returns share of members with at least 1 mm in the first `spanH` hours, 0-1. */
export function rainChanceWithin(weather: Weather, spanH: number): number {
  const { hours, members, rainMm } = weather
  let wet = 0
  for (let m = 0; m < members; m++) {
    let total = 0
    for (let h = 0; h < Math.min(spanH, hours); h++) total += rainMm[m * hours + h]! || 0
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
    hourly.push(
      quantileOfSorted(
        column.sort((a, b) => a - b),
        0.5,
      ),
    )
  }
  const bearing = (Math.atan2(east, north) * 180) / Math.PI
  return {
    windLowMs: Math.min(...hourly),
    windHighMs: Math.max(...hourly),
    windFromDeg: (bearing + 360) % 360,
    meanWindMs: hourly.reduce((sum, ms) => sum + ms, 0) / hourly.length,
    meanSolarWm2: solar / ((last - first) * members),
  }
}

/** Straw of the crop before lies under the crop of this field. */
export const strawUnder = (field: Field): boolean => field.followsWheat
