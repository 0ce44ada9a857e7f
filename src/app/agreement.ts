/** Whether the sources behind a forecast say the same of today: its afternoon and its chance of rain. */
import type { SaidAgreement } from '#core/messages/morning.ts'
import { epochHoursAtMinute, hoursOfLocalDay } from '#core/units/time.ts'
import type { Weather, WeatherVariable } from '#core/units/weather.ts'
import type { ComparedForecast } from './ports.ts'

/** The hours that decide how the day dries [min of the civil day]. */
const AFTERNOON = { fromMinute: 12 * 60, toMinute: 18 * 60 }
/** Fewer known hours than this say nothing of an afternoon [h]. */
const ENOUGH_HOURS = 3
/**
 * Sources further apart than this do not agree: about twice what a forecast for the same day usually misses by
 * (2 deg C, 0.08 of humidity). Common practice, no source.
 */
const APART = { temperature: 4, humidity: 0.15, rain: 0.35 } as const
/** Rain of a day that counts [mm]: what a gauge of a hundredth of an inch can tell. */
const WET_MM = 0.25

/**
 * @param forecasts as their sources gave them, before any blending
 * @returns nothing where there are not two to compare, or where they share no hours of today; else how far apart the
 * two are that lie furthest apart: afternoon temperature [deg C], afternoon humidity [0-1], chance of rain today [0-1];
 * `NaN` for what fewer than two of them know
 */
export function agreementOf(
  forecasts: readonly ComparedForecast[],
  date: Temporal.PlainDate,
  timeZone: string,
): SaidAgreement | undefined {
  if (forecasts.length < 2) return undefined
  const from = epochHoursAtMinute(date, AFTERNOON.fromMinute, timeZone)
  const to = epochHoursAtMinute(date, AFTERNOON.toMinute, timeZone)
  const { endEpochH } = hoursOfLocalDay(date, timeZone)
  const airTempC = widest(forecasts.map(({ weather }) => meanThrough(weather, 'airTempC', from, to)))
  const relHumidity = widest(forecasts.map(({ weather }) => meanThrough(weather, 'relHumidity', from, to)))
  const rainChance = widest(commonRainChances(forecasts, endEpochH))
  if (Number.isNaN(airTempC) && Number.isNaN(relHumidity)) return undefined
  const differs: SaidAgreement['differs'][number][] = []
  if (airTempC > APART.temperature) differs.push('temperature')
  if (relHumidity > APART.humidity) differs.push('humidity')
  if (rainChance > APART.rain) differs.push('rain')
  return { sources: forecasts.length, differs, airTempC, relHumidity, rainChance }
}

/** @returns the largest difference between any two that are known. */
function widest(values: readonly number[]): number {
  const known = values.filter((value) => !Number.isNaN(value))
  return known.length < 2 ? Number.NaN : Math.max(...known) - Math.min(...known)
}

function meanThrough(weather: Weather, variable: WeatherVariable, fromEpochH: number, toEpochH: number): number {
  const { startEpochH, hours, members } = weather
  let sum = 0
  let count = 0
  const first = Math.max(0, Math.floor(fromEpochH) - startEpochH)
  const end = Math.min(hours, Math.ceil(toEpochH) - startEpochH)
  for (let member = 0; member < members; member++)
    for (let h = first; h < end; h++) {
      const value = weather[variable][member * hours + h]!
      if (Number.isNaN(value)) continue
      sum += value
      count++
    }
  return count < ENOUGH_HOURS * members ? Number.NaN : sum / count
}

/** From the first hour that all of them have, so that none is judged by hours that another has lost already. */
function commonRainChances(forecasts: readonly ComparedForecast[], untilEpochH: number): readonly number[] {
  const from = Math.max(...forecasts.map(({ weather }) => weather.startEpochH))
  return forecasts.map((forecast) => rainChance(forecast, from, untilEpochH))
}

/** By the members where there are some, else by the highest chance the source names; one dry or wet course is no chance. */
function rainChance({ weather, chances }: ComparedForecast, fromEpochH: number, untilEpochH: number): number {
  const { startEpochH, hours, members, rainMm } = weather
  const first = fromEpochH - startEpochH
  const end = Math.min(hours, untilEpochH - startEpochH)
  if (end <= first) return Number.NaN
  if (members === 1) {
    const named = [...(chances.popPct?.subarray(first, end) ?? [])].filter((pct) => !Number.isNaN(pct))
    return named.length === 0 ? Number.NaN : Math.max(...named) / 100
  }
  let wet = 0
  for (let member = 0; member < members; member++) {
    let totalMm = 0
    for (let h = first; h < end; h++) totalMm += rainMm[member * hours + h]!
    if (Number.isNaN(totalMm)) return Number.NaN
    if (totalMm >= WET_MM) wet++
  }
  return wet / members
}
