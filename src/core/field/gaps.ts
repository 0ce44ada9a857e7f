/** Short gaps in observed weather are bridged, long ones stay unknown and are told. */
import {
  unknownWeatherArrays,
  WEATHER_VARIABLES,
  type Weather,
  type WeatherArrays,
  type WeatherVariable,
} from '#core/units/weather.ts'

/** Longest gap bridged in a straight line [h]. */
export const LONGEST_BRIDGE_H = 6
const HOURS_PER_DAY = 24
/** Longest gap filled with the same hour of the day before [d]. */
const LONGEST_COPY_D = 3

/** Variables that a straight line suits; rain is never invented, direction does not run along a line. */
const SMOOTH: ReadonlySet<WeatherVariable> = new Set(['airTempC', 'relHumidity', 'windMs', 'solarWm2'])

export interface Filled {
  readonly weather: Weather
  /** Values bridged or copied, all variables together. */
  readonly filled: number
  /** Hours still unknown in a variable that moisture needs. */
  readonly unknownHours: number
}

/**
 * Fills gaps of one observed course: up to six hours in a straight line, up to three days from the same hour of the day
 * before (nearest known day). Rain that is not known counts as none in a filled hour, and is counted.
 */
export function fillGaps(weather: Weather): Filled {
  if (weather.members !== 1) throw new RangeError(`fillGaps takes one member, got ${weather.members}`)
  const arrays = unknownWeatherArrays(1, weather.hours)
  let filled = 0
  for (const variable of WEATHER_VARIABLES) {
    arrays[variable].set(weather[variable])
    if (SMOOTH.has(variable)) filled += bridge(arrays[variable]) + copyDay(arrays[variable])
  }
  for (let h = 0; h < weather.hours; h++) {
    if (!Number.isNaN(arrays.rainMm[h]!) || Number.isNaN(arrays.airTempC[h]!)) continue
    arrays.rainMm[h] = 0
    filled++
  }
  return { weather: { ...weather, ...arrays }, filled, unknownHours: countUnknown(arrays, weather.hours) }
}

function bridge(values: Float32Array): number {
  let filled = 0
  let lastKnown = -1
  for (let h = 0; h < values.length; h++) {
    if (Number.isNaN(values[h]!)) continue
    const gap = h - lastKnown - 1
    if (lastKnown >= 0 && gap > 0 && gap <= LONGEST_BRIDGE_H) {
      for (let k = 1; k <= gap; k++) {
        values[lastKnown + k] = values[lastKnown]! + ((values[h]! - values[lastKnown]!) * k) / (gap + 1)
        filled++
      }
    }
    lastKnown = h
  }
  return filled
}

function copyDay(values: Float32Array): number {
  let filled = 0
  const original = values.slice()
  for (let h = 0; h < values.length; h++) {
    if (!Number.isNaN(values[h]!)) continue
    for (let day = 1; day <= LONGEST_COPY_D; day++) {
      const before = original[h - day * HOURS_PER_DAY]
      const after = original[h + day * HOURS_PER_DAY]
      const found = before !== undefined && !Number.isNaN(before) ? before : after
      if (found !== undefined && !Number.isNaN(found)) {
        values[h] = found
        filled++
        break
      }
    }
  }
  return filled
}

function countUnknown(arrays: WeatherArrays, hours: number): number {
  let unknown = 0
  for (let h = 0; h < hours; h++) if (Number.isNaN(arrays.airTempC[h]! + arrays.relHumidity[h]!)) unknown++
  return unknown
}
