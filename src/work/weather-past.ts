/** The past as one series: what stations measured, and where they are silent the service's own hours as they passed. */
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'

/** Rain that no station reported may be taken from the forecast's hour as it passed; it is told. */
export function joinPast(station: Weather | undefined, analysis: Weather | undefined): Weather | undefined {
  const base = station ?? analysis
  if (!base) return undefined
  const { hours } = base
  const arrays = unknownWeatherArrays(1, hours)
  let borrowed = 0
  for (let h = 0; h < hours; h++) {
    let isBorrowed = false
    for (const name of WEATHER_VARIABLES) {
      const measured = station?.[name][h] ?? Number.NaN
      const own = analysis?.[name][h] ?? Number.NaN
      const isMeasured = !Number.isNaN(measured)
      arrays[name][h] = isMeasured ? measured : own
      if (!isMeasured && !Number.isNaN(own) && NEEDED.has(name)) isBorrowed = true
    }
    if (isBorrowed) borrowed++
  }
  const remarks = borrowed > 0 ? [`${borrowed} h of the past from the forecast as it passed`] : []
  const provenance = {
    ...base.provenance,
    spread: 'observed' as const,
    remarks: [...base.provenance.remarks, ...remarks],
  }
  return withoutUnknownStart({ ...base, ...arrays, provenance })
}

const NEEDED: ReadonlySet<string> = new Set(['airTempC', 'relHumidity', 'rainMm', 'windMs', 'solarWm2'])

/** Hours before anything was seen say nothing; they are cut off. */
function withoutUnknownStart(weather: Weather): Weather {
  let from = 0
  while (from < weather.hours && Number.isNaN(weather.airTempC[from]!)) from++
  if (from === 0) return weather
  const arrays = unknownWeatherArrays(1, weather.hours - from)
  for (const name of WEATHER_VARIABLES) arrays[name].set(weather[name].subarray(from))
  return { ...weather, ...arrays, startEpochH: weather.startEpochH + from, hours: weather.hours - from }
}

/** @returns last hour with a known temperature, hours since the epoch; NaN = none. */
export function lastKnownEpochH(weather: Weather | undefined): number {
  if (!weather) return Number.NaN
  for (let h = weather.hours - 1; h >= 0; h--) if (!Number.isNaN(weather.airTempC[h]!)) return weather.startEpochH + h
  return Number.NaN
}

/** A part of a series of one member. */
export function hoursBetween(weather: Weather, fromEpochH: number, toEpochH: number): Weather | undefined {
  const from = Math.max(0, fromEpochH - weather.startEpochH)
  const to = Math.min(weather.hours, toEpochH - weather.startEpochH)
  if (to <= from) return undefined
  const arrays = unknownWeatherArrays(1, to - from)
  for (const name of WEATHER_VARIABLES) arrays[name].set(weather[name].subarray(from, to))
  return { ...weather, ...arrays, startEpochH: weather.startEpochH + from, hours: to - from }
}
