/** Short gaps in observed weather are bridged, long ones stay unknown and are told; sunlight can always be estimated. */
import { clearSkyWm2, extraterrestrialWm2, solarFromTempRange } from '#core/science/air/radiation.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import {
  unknownWeatherArrays,
  WEATHER_VARIABLES,
  type Weather,
  type WeatherArrays,
  type WeatherVariable,
} from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'

/** Longest gap bridged in a straight line [h]. */
export const LONGEST_BRIDGE_H = 6
/** Longest gap filled with the same hour of the day before [d]. */
const LONGEST_COPY_D = 3

/** Variables that a straight line suits; rain is never invented, direction does not run along a line. */
const SMOOTH: ReadonlySet<WeatherVariable> = new Set(['airTempC', 'relHumidity', 'windMs'])

/** Wind where none is measured: 2 m/s at 2 m over grass, FAO-56 chapter 3, mean of over 2000 stations; at 10 m [m/s]. */
const UNMEASURED_WIND_MS = 2.7
/** Below this clear-sky sunlight the sun is too low to tell how clear the sky is [W/m2]. */
const LOW_SUN_WM2 = 50
/** Clearness where neither sunlight nor temperature tells: FAO-56 chapter 3, humid 0.4-0.6, dry 0.7-0.8. */
const UNSEEN_CLEARNESS = 0.6
/** Share of the sunlight above the air that a clear sky lets through. FAO-56 eq. 37 at sea level. */
const CLEAR_SHARE = 0.75
/** A day's span of temperature is believed from so many known hours on [h]. */
const ENOUGH_HOURS = 18

export interface Filled {
  readonly weather: Weather
  /** Values bridged or copied, all variables together; sunlight and usual wind are counted apart. */
  readonly filled: number
  /** Daylight hours whose sunlight is estimated from the span of temperature or from the hours around. */
  readonly sunHours: number
  /** Hours that got the usual wind because none was measured for days. */
  readonly windHours: number
  /** Hours still unknown in a variable that moisture needs. */
  readonly unknownHours: number
}

/**
 * Fills gaps of one observed course: up to six hours in a straight line, up to three days from the same hour of the day
 * before (nearest known day). Rain that is not known counts as none in a filled hour, and is counted. Sunlight that is not
 * known is estimated everywhere, and wind that is not known for days is the usual one.
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
  let windHours = 0
  for (let h = 0; h < weather.hours; h++) {
    if (!Number.isNaN(arrays.windMs[h]!) || Number.isNaN(arrays.airTempC[h]!)) continue
    arrays.windMs[h] = UNMEASURED_WIND_MS
    windHours++
  }
  return {
    weather: { ...weather, ...arrays },
    filled,
    sunHours: arrays.solarWm2.some(Number.isNaN) ? estimateSun({ ...weather, ...arrays }, arrays.solarWm2) : 0,
    windHours,
    unknownHours: countUnknown(arrays, weather.hours),
  }
}

/**
 * The stretch that leads to the end without a gap: from the hour after the last one in which temperature or humidity is
 * not known. One unknown hour would make grain and soil unknown for the rest of the season.
 */
export function afterLastGap(weather: Weather): Weather {
  let from = weather.hours
  while (from > 0 && !Number.isNaN(weather.airTempC[from - 1]! + weather.relHumidity[from - 1]!)) from--
  if (from === 0) return weather
  return hoursBetween(weather, weather.startEpochH + from, weather.startEpochH + weather.hours)
}

/**
 * Bridges short gaps of a forecast, every member for itself, and estimates its unknown sunlight. Rain that is not known
 * stays unknown: a forecast without rain is no forecast of dry weather.
 */
export function fillAhead(weather: Weather): Weather {
  const { members, hours } = weather
  const arrays = unknownWeatherArrays(members, hours)
  for (const variable of WEATHER_VARIABLES) arrays[variable].set(weather[variable])
  for (let member = 0; member < members; member++) {
    const span = (values: Float32Array) => values.subarray(member * hours, (member + 1) * hours)
    for (const variable of SMOOTH) bridge(span(arrays[variable]))
    const solarWm2 = span(arrays.solarWm2)
    if (solarWm2.some(Number.isNaN)) estimateSun({ ...weather, airTempC: span(arrays.airTempC) }, solarWm2)
  }
  return { ...weather, ...arrays }
}

/**
 * Fills unknown sunlight: clear-sky sunlight times a clearness, that of the known daylight within six hours where there
 * is some, else that of the day's span of temperature (FAO-56 eq. 50), else a usual one. Night is dark.
 *
 * @returns daylight hours that were filled.
 */
function estimateSun(weather: SunView, solarWm2: Float32Array): number {
  const { place, startEpochH, hours } = weather
  const clear = Float64Array.from({ length: hours }, (_, h) =>
    clearSkyWm2(extraterrestrialWm2(place.latDeg, place.lonDeg, startEpochH + h), place.elevationM),
  )
  const original = solarWm2.slice()
  const clearnessAt = (h: number): number =>
    h >= 0 && h < hours && clear[h]! >= LOW_SUN_WM2 ? Math.min(1, original[h]! / clear[h]!) : Number.NaN
  let filled = 0
  let solarDay = Number.NaN
  let ofDay = Number.NaN
  for (let h = 0; h < hours; h++) {
    if (!Number.isNaN(original[h]!) || Number.isNaN(clear[h]!)) continue
    if (clear[h] === 0) {
      solarWm2[h] = 0
      continue
    }
    const day = Math.floor((startEpochH + h + place.lonDeg / 15) / HOURS_PER_DAY)
    if (day !== solarDay) {
      solarDay = day
      ofDay = clearnessOfDay(weather, day)
    }
    solarWm2[h] = clear[h]! * (nearestKnown(clearnessAt, h) ?? ofDay)
    filled++
  }
  return filled
}

/** One member's view of the weather: `airTempC` has `hours` values. */
type SunView = Pick<Weather, 'place' | 'startEpochH' | 'hours' | 'airTempC'>

/** Mean of the nearest known values on either side, at most six hours away; undefined where there is none. */
function nearestKnown(valueAt: (h: number) => number, h: number): number | undefined {
  for (let away = 1; away <= LONGEST_BRIDGE_H; away++) {
    const known = [valueAt(h - away), valueAt(h + away)].filter((value) => !Number.isNaN(value))
    if (known.length > 0) return known.reduce((sum, value) => sum + value, 0) / known.length
  }
  return undefined
}

function clearnessOfDay({ airTempC, place, startEpochH }: SunView, solarDay: number): number {
  const first = Math.ceil(solarDay * HOURS_PER_DAY - place.lonDeg / 15) - startEpochH
  let known = 0
  let lowC = Number.POSITIVE_INFINITY
  let highC = Number.NEGATIVE_INFINITY
  for (let h = first; h < first + HOURS_PER_DAY; h++) {
    const tempC = airTempC[h] ?? Number.NaN
    if (Number.isNaN(tempC)) continue
    known++
    lowC = Math.min(lowC, tempC)
    highC = Math.max(highC, tempC)
  }
  if (known < ENOUGH_HOURS) return UNSEEN_CLEARNESS
  return Math.min(1, solarFromTempRange(1, highC, lowC) / CLEAR_SHARE)
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
