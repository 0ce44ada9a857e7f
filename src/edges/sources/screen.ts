/**
 * Screens what came in before anyone believes it: impossible values, impossible jumps and stuck sensors become "not
 * known" and are counted.
 */

import type { ForecastChances } from '#app/ports.ts'
import {
  mapArrays,
  WEATHER_VARIABLES,
  type Weather,
  type WeatherArrays,
  type WeatherVariable,
} from '#core/units/weather.ts'

interface Bounds {
  readonly low: number
  readonly high: number
  /** How people call it. */
  readonly spoken: string
}

/**
 * What is possible at all. Records (World Meteorological Organization, Weather and Climate Extremes Archive):
 * 56.7 deg C (1913), 305 mm of rain in 42 minutes (1947), gust of 113.2 m/s (1996). The lower end of humidity also
 * catches a share delivered as per cent.
 */
export const POSSIBLE: { readonly [V in WeatherVariable]: Bounds } = {
  airTempC: { low: -60, high: 57, spoken: 'temperature' },
  relHumidity: { low: 0.02, high: 1.02, spoken: 'humidity' },
  rainMm: { low: 0, high: 305, spoken: 'rain' },
  windMs: { low: 0, high: 75, spoken: 'wind' },
  gustMs: { low: 0, high: 113.2, spoken: 'gusts' },
  windFromDeg: { low: 0, high: 360, spoken: 'wind direction' },
  solarWm2: { low: -5, high: 1400, spoken: 'sunlight' },
}

/**
 * Largest believable step from one hour to the next. Temperature and wind: the temporal check of the NOAA MADIS
 * quality control, 35 deg F/h and 20 kt/h, from memory; wind here wider, for storms. Humidity: common practice.
 */
const LARGEST_STEP: Partial<Record<WeatherVariable, number>> = { airTempC: 19.4, relHumidity: 0.7, windMs: 25 }

/**
 * Longest run of one and the same value [h]. Forecasts repeat themselves (an NWS body of 2022 has ten equal hours of
 * temperature), sensors do not. Common practice, no source.
 */
const LONGEST_RUN = {
  observed: { airTempC: 12, relHumidity: 18, windMs: 24 },
  forecast: { airTempC: 36, relHumidity: 48, windMs: 60 },
} as const
/** Air may stay saturated, and calm, for days. */
const MAY_LAST: Partial<Record<WeatherVariable, (value: number) => boolean>> = {
  relHumidity: (value) => value >= 0.97,
  windMs: (value) => value === 0,
}

/** @returns the same weather without what cannot be, each kind of repair told in the remarks. */
export function screened(weather: Weather, kind: 'observed' | 'forecast'): Weather {
  const arrays = mapArrays(weather, (values) => values.slice())
  const remarks: string[] = []
  const tell = (count: number, variable: WeatherVariable, why: string) => {
    if (count > 0) remarks.push(`${count} h of ${POSSIBLE[variable].spoken} left out: ${why}.`)
  }
  for (const variable of WEATHER_VARIABLES) {
    tell(dropImpossible(arrays[variable], POSSIBLE[variable]), variable, 'not possible')
    const step = LARGEST_STEP[variable]
    if (step !== undefined) tell(dropJumps(arrays[variable], weather.hours, step), variable, 'jumped')
    const run = (LONGEST_RUN[kind] as Partial<Record<WeatherVariable, number>>)[variable]
    if (run !== undefined)
      tell(dropStuck(arrays[variable], weather.hours, run, MAY_LAST[variable]), variable, 'did not change for too long')
  }
  settle(arrays)
  return {
    ...weather,
    ...arrays,
    provenance: { ...weather.provenance, remarks: [...weather.provenance.remarks, ...remarks] },
  }
}

/** Small overshoots of rounding are no faults. */
function settle({ relHumidity, solarWm2, windMs, gustMs, windFromDeg }: WeatherArrays): void {
  for (let i = 0; i < relHumidity.length; i++) {
    if (relHumidity[i]! > 1) relHumidity[i] = 1
    if (solarWm2[i]! < 0) solarWm2[i] = 0
    // The highest gust of an hour is no weaker than its mean wind.
    if (gustMs[i]! < windMs[i]!) gustMs[i] = windMs[i]!
    if (windFromDeg[i]! === 360) windFromDeg[i] = 0
  }
}

function dropImpossible(values: Float32Array, { low, high }: Omit<Bounds, 'spoken'>): number {
  let dropped = 0
  for (let i = 0; i < values.length; i++) {
    // Written so that what is not known passes.
    if (values[i]! < low || values[i]! > high) {
      values[i] = Number.NaN
      dropped++
    }
  }
  return dropped
}

/** First spikes of one hour, then both sides of a step that remains. */
function dropJumps(values: Float32Array, hours: number, step: number): number {
  let dropped = 0
  for (let first = 0; first < values.length; first += hours) {
    const end = first + hours
    for (let i = first + 1; i < end; i++)
      if (Math.abs(values[i]! - values[i - 1]!) > step) {
        // Rare: the member is gone through with care, once.
        dropped += dropJumpsOf(values, first, end, step)
        break
      }
  }
  return dropped
}

function dropJumpsOf(values: Float32Array, first: number, end: number, step: number): number {
  const apart = (i: number, j: number) => Math.abs(values[i]! - values[j]!) > step
  const spikes: number[] = []
  for (let i = first + 1; i + 1 < end; i++)
    if (apart(i, i - 1) && apart(i, i + 1) && !apart(i - 1, i + 1)) spikes.push(i)
  for (const i of spikes) values[i] = Number.NaN
  const steps = new Set<number>()
  for (let i = first + 1; i < end; i++) if (apart(i, i - 1)) steps.add(i).add(i - 1)
  for (const i of steps) values[i] = Number.NaN
  return spikes.length + steps.size
}

function dropStuck(
  values: Float32Array,
  hours: number,
  longest: number,
  mayLast: ((value: number) => boolean) | undefined,
): number {
  let dropped = 0
  for (let first = 0; first < values.length; first += hours) {
    let runStart = first
    for (let i = first + 1; i <= first + hours; i++) {
      if (i < first + hours && values[i] === values[i - 1]) continue
      if (i - runStart > longest && !mayLast?.(values[runStart]!)) {
        dropped += i - runStart
        values.fill(Number.NaN, runStart, i)
      }
      runStart = i
    }
  }
  return dropped
}

const PER_CENT = { low: 0, high: 100 }
const BLOCK_H = { low: 1, high: 24 }
const POSSIBLE_CHANCES: { readonly [C in keyof ForecastChances]-?: Omit<Bounds, 'spoken'> } = {
  popPct: PER_CENT,
  popBlockH: BLOCK_H,
  thunderPct: PER_CENT,
  airTempP10C: POSSIBLE.airTempC,
  airTempP90C: POSSIBLE.airTempC,
  windP10Ms: POSSIBLE.windMs,
  windP90Ms: POSSIBLE.windMs,
  rainMinMm: POSSIBLE.rainMm,
  rainMaxMm: POSSIBLE.rainMm,
}
const ORDERED = [
  ['airTempP10C', 'airTempP90C'],
  ['windP10Ms', 'windP90Ms'],
  ['rainMinMm', 'rainMaxMm'],
] as const

/** @returns the chances without what cannot be, and without pairs whose low end is above the high one. */
export function screenedChances(chances: ForecastChances): ForecastChances {
  const clean: { [name: string]: Float32Array } = {}
  for (const [name, bounds] of Object.entries(POSSIBLE_CHANCES)) {
    const values = chances[name as keyof ForecastChances]?.slice()
    if (values === undefined) continue
    dropImpossible(values, bounds)
    clean[name] = values
  }
  for (const [low, high] of ORDERED) {
    const [lows, highs] = [clean[low], clean[high]]
    if (lows === undefined || highs === undefined) continue
    for (let hour = 0; hour < lows.length; hour++) if (lows[hour]! > highs[hour]!) lows[hour] = highs[hour] = Number.NaN
  }
  return clean
}
