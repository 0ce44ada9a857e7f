/**
 * Noon readings out of hourly weather: the once-a-day values that the fire weather index is defined on.
 */
import { epochHoursOf, HOURS_PER_DAY } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'

const NOON_H = 12

/** Noon values of consecutive days, one entry per day. */
export interface NoonDays {
  readonly dates: readonly Temporal.PlainDate[]
  /** At noon [deg C]. */
  readonly airTempC: ArrayLike<number>
  /** At noon [0-1]. */
  readonly relHumidity: ArrayLike<number>
  /** At noon, 10 m [m/s]. */
  readonly windMs: ArrayLike<number>
  /** Of the 24 h up to noon [mm]. */
  readonly rainMm: ArrayLike<number>
}

/**
 * Hours by which a zone's standard time is ahead of UTC, summer time left out.
 * @param timeZone IANA name
 * @param year civil year
 * @returns offset [h]: the smaller of the January and July offsets, since summer time only ever adds
 * Common practice, no source. Checked against the standard offsets of the zones named in its test.
 */
export function standardOffsetH(timeZone: string, year: number): number {
  const offset = (month: number): number =>
    Temporal.ZonedDateTime.from({ timeZone, year, month, day: 1, hour: 12 }).offsetNanoseconds / 3.6e12
  return Math.min(offset(1), offset(7))
}

/**
 * Hours by which the sun's mean time at a meridian is ahead of UTC.
 * @param lonDeg longitude, east positive [deg], -180 to 180
 * @returns offset [h], with fraction
 */
export const sunOffsetH = (lonDeg: number): number => lonDeg / 15

/** Between the middles of two hours, for one member; a weight of 0 does not look at its hour. */
function atHour(values: Float32Array, first: number, hours: number, position: number): number {
  const lower = Math.floor(position)
  const share = position - lower
  const at = (h: number): number => (h >= 0 && h < hours ? values[first + h]! : Number.NaN)
  return share === 0 ? at(lower) : (1 - share) * at(lower) + share * at(lower + 1)
}

function rainUpTo(values: Float32Array, first: number, endHour: number): number {
  let sum = 0
  for (let h = endHour - HOURS_PER_DAY; h < endHour; h++) sum += values[first + h]!
  return sum
}

/**
 * Noon temperature, humidity and wind, and the rain of the 24 h before, for each day of one weather course.
 * @param weather hourly weather
 * @param member which course, 0 to members - 1
 * @param offsetH standard time ahead of UTC [h], -14 to 14: `standardOffsetH(zone, year)` or `sunOffsetH(lonDeg)`
 * @returns the days whose noon and the 24 h before it lie inside the series; unknown hours make unknown values
 * Noon is taken between the middles of the hours around it, linearly. With an offset off the full hour the rain day
 * ends at the nearest full hour. Definition of the readings: Van Wagner 1987, For. Tech. Rep. 35.
 */
export function noonWeather(weather: Weather, member: number, offsetH: number): NoonDays {
  const { hours, startEpochH } = weather
  const first = member * hours
  const noonOf = (date: Temporal.PlainDate): number =>
    epochHoursOf(date.toZonedDateTime('UTC').toInstant()) + NOON_H - offsetH - startEpochH
  const dates: Temporal.PlainDate[] = []
  const days: { airTempC: number[]; relHumidity: number[]; windMs: number[]; rainMm: number[] } = {
    airTempC: [],
    relHumidity: [],
    windMs: [],
    rainMm: [],
  }
  let date = Temporal.Instant.fromEpochMilliseconds(Math.round((startEpochH + offsetH) * 3_600_000))
    .toZonedDateTimeISO('UTC')
    .toPlainDate()
  for (let noon = noonOf(date); Math.ceil(noon - 0.5) < hours; date = date.add({ days: 1 }), noon = noonOf(date)) {
    if (Math.round(noon) < HOURS_PER_DAY) continue
    const middle = noon - 0.5
    dates.push(date)
    days.airTempC.push(atHour(weather.airTempC, first, hours, middle))
    days.relHumidity.push(atHour(weather.relHumidity, first, hours, middle))
    days.windMs.push(atHour(weather.windMs, first, hours, middle))
    days.rainMm.push(rainUpTo(weather.rainMm, first, Math.round(noon)))
  }
  return { dates, ...days }
}
