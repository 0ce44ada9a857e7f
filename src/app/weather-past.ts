/**
 * The past as one series: what stations measured, where they are silent the service's own hours as they passed, and where
 * neither knows the past that a source of history has.
 */
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'
import { creditOf, distinct } from './credit.ts'

export interface PastLayers {
  readonly station: Weather | undefined
  /** A forecast's own hours, kept as they passed. */
  readonly analysis: Weather | undefined
  /** From sources of history, the first that knows an hour believed. All layers cover the same hours. */
  readonly history: readonly Weather[]
}

/** Rain that no station reported may be taken from another layer; what is taken is told, and its source credited. */
export function joinPast({ station, analysis, history }: PastLayers): Weather | undefined {
  const base = station ?? analysis ?? history[0]
  if (!base) return undefined
  const layers = [station, analysis, ...history]
  const { hours } = base
  const arrays = unknownWeatherArrays(1, hours)
  const takenH = layers.map(() => 0)
  for (let h = 0; h < hours; h++) {
    let last = 0
    for (const name of WEATHER_VARIABLES) {
      const from = layers.findIndex((layer) => layer && !Number.isNaN(layer[name][h]!))
      if (from < 0) continue
      arrays[name][h] = layers[from]![name][h]!
      if (NEEDED.has(name)) last = Math.max(last, from)
    }
    takenH[last]!++
  }
  const remarks = takenH.flatMap((count, from) => {
    if (count === 0 || from === 0) return []
    return [`${count} h of the past from ${from === 1 ? 'the forecast as it passed' : layers[from]!.provenance.source}`]
  })
  const used = layers.flatMap((layer, from) => (layer && takenH[from]! > 0 ? [layer.provenance] : []))
  const { provenance } = base
  return withoutUnknownStart({
    ...base,
    ...arrays,
    provenance: {
      ...provenance,
      ...creditOf([provenance, ...used]),
      spread: 'observed',
      remarks: [...distinct(used.flatMap((one) => one.remarks)), ...remarks],
    },
  })
}

const NEEDED: ReadonlySet<string> = new Set(['airTempC', 'relHumidity', 'rainMm', 'windMs', 'solarWm2'])

/** Hours before anything was seen say nothing; they are cut off. */
function withoutUnknownStart(weather: Weather): Weather {
  let from = 0
  while (from < weather.hours && Number.isNaN(weather.airTempC[from]!)) from++
  if (from === 0) return weather
  return hoursBetween(weather, weather.startEpochH + from, weather.startEpochH + weather.hours)
}

/** @returns last hour with a known temperature, hours since the epoch; NaN = none. */
export function lastKnownEpochH(weather: Weather | undefined): number {
  if (!weather) return Number.NaN
  for (let h = weather.hours - 1; h >= 0; h--) if (!Number.isNaN(weather.airTempC[h]!)) return weather.startEpochH + h
  return Number.NaN
}
