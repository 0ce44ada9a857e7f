/**
 * Dry-and-windy criteria of the kind that weather offices set for a red flag warning: thresholds that a place chooses.
 *
 * Every office sets its own, and all of them also ask for dry fuels. A warning in force always outranks what is
 * worked out here.
 */
import { MS_PER_MPH } from '#core/units/convert.ts'
import type { Weather } from '#core/units/weather.ts'
import { humidityPercent, notNegative } from './inputs.ts'
import { WIND_20FT_PER_10M } from './measures.ts'

export interface DryWindCriteria {
  /** Met at or below [0-1]. */
  readonly relHumidity: number
  /** Mean wind at 10 m, met at or above [m/s]. */
  readonly windMs?: number
  /** Gust at 10 m, met at or above [m/s]. With `windMs` given too, either is enough. */
  readonly gustMs?: number
  /** Hours in a row that it must last [h]. */
  readonly lastsH: number
}

/** A value stored with 32 bits may lie a hair beside the figure; met but for that is met. */
const ROUNDING = 1e-6

const mph = (value: number): number => value * MS_PER_MPH
const mph20ft = (value: number): number => mph(value) / WIND_20FT_PER_10M

/**
 * Published criteria, by the US National Weather Service office that set them (pages of 2015-2018; offices revise).
 * Sources: Kansas State University climate pages, February 2018; weather.gov/ama; crh.noaa.gov/gjt.
 */
export const PUBLISHED_DRY_WIND = {
  'western-kansas': { relHumidity: 0.15, gustMs: mph(25), lastsH: 1 },
  'south-central-nebraska': { relHumidity: 0.2, windMs: mph(20), gustMs: mph(25), lastsH: 1 },
  'western-missouri': { relHumidity: 0.25, gustMs: mph(25), lastsH: 1 },
  'texas-panhandle': { relHumidity: 0.15, windMs: mph20ft(20), gustMs: mph20ft(35), lastsH: 3 },
  'western-colorado': { relHumidity: 0.15, windMs: mph(25), gustMs: mph(25), lastsH: 3 },
} as const satisfies { readonly [place: string]: DryWindCriteria }

/** What an hour's code means. */
export const DRY_WIND_NO = 0
export const DRY_WIND_YES = 1
export const DRY_WIND_UNKNOWN = 2

/** One comparison in three-valued logic; a criterion not asked for is never met. */
const reached = (value: number, limit: number | undefined): number => {
  if (limit === undefined) return DRY_WIND_NO
  if (Number.isNaN(value)) return DRY_WIND_UNKNOWN
  return value >= limit * (1 - ROUNDING) ? DRY_WIND_YES : DRY_WIND_NO
}

/**
 * Whether one hour is dry and windy by the criteria.
 * @param relHumidity relative humidity [0-1]
 * @param windMs mean wind at 10 m [m/s]
 * @param gustMs gust at 10 m [m/s]
 * @param criteria thresholds; `lastsH` is not looked at
 * @returns `DRY_WIND_NO`, `DRY_WIND_YES` or `DRY_WIND_UNKNOWN`; unknown only where the unknown value could decide it
 * Checked against the published criteria in tests/truth/fire-measures.ts.
 */
export function isDryWind(relHumidity: number, windMs: number, gustMs: number, criteria: DryWindCriteria): number {
  const humidity = humidityPercent(relHumidity)
  const dry = Number.isNaN(humidity)
    ? DRY_WIND_UNKNOWN
    : humidity <= 100 * criteria.relHumidity * (1 + ROUNDING)
      ? DRY_WIND_YES
      : DRY_WIND_NO
  const wind = reached(notNegative(windMs), criteria.windMs)
  const gust = reached(notNegative(gustMs), criteria.gustMs)
  if (dry === DRY_WIND_NO || (wind === DRY_WIND_NO && gust === DRY_WIND_NO)) return DRY_WIND_NO
  if (dry === DRY_WIND_YES && (wind === DRY_WIND_YES || gust === DRY_WIND_YES)) return DRY_WIND_YES
  return DRY_WIND_UNKNOWN
}

/**
 * Hours that are dry and windy for long enough.
 * @param weather hourly weather
 * @param member which course, 0 to members - 1
 * @param criteria thresholds
 * @returns one code per hour; a run shorter than `lastsH` is `DRY_WIND_NO`, or `DRY_WIND_UNKNOWN` if unknown hours next
 * to it could have made it long enough; hours outside the series do not count
 */
export function dryWindHours(weather: Weather, member: number, criteria: DryWindCriteria): Uint8Array {
  const { hours } = weather
  const first = member * hours
  const codes = new Uint8Array(hours)
  for (let h = 0; h < hours; h++) {
    const i = first + h
    codes[h] = isDryWind(weather.relHumidity[i]!, weather.windMs[i]!, weather.gustMs[i]!, criteria)
  }
  return longEnough(codes, criteria.lastsH)
}

/** An hour counts if a run of YES hours around it is long enough, may count if YES and UNKNOWN hours together are. */
function longEnough(codes: Uint8Array, lastsH: number): Uint8Array {
  const sure = runLengths(codes, (code) => code === DRY_WIND_YES)
  const possible = runLengths(codes, (code) => code !== DRY_WIND_NO)
  return codes.map((code, h) => {
    if (code === DRY_WIND_NO) return DRY_WIND_NO
    if (code === DRY_WIND_YES && sure[h]! >= lastsH) return DRY_WIND_YES
    return possible[h]! >= lastsH ? DRY_WIND_UNKNOWN : DRY_WIND_NO
  })
}

/** Length of the run each hour belongs to; 0 outside a run. */
function runLengths(codes: Uint8Array, belongs: (code: number) => boolean): Uint32Array {
  const lengths = new Uint32Array(codes.length)
  for (let start = 0; start < codes.length; ) {
    if (!belongs(codes[start]!)) {
      start += 1
      continue
    }
    let end = start
    while (end < codes.length && belongs(codes[end]!)) end += 1
    lengths.fill(end - start, start, end)
    start = end
  }
  return lengths
}
