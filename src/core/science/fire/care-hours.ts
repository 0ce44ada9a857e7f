/**
 * Fire care through a whole weather course.
 */
import type { Weather } from '#core/units/weather.ts'
import { type FireThresholds, fireLimits, fireReasonBits, levelOfBits, tighteningBits } from './care.ts'

export interface FireCareOptions {
  /** 1 for each hour in which the straw under the crop is dry; none unless told. */
  readonly strawDry?: Uint8Array
  /** Keetch-Byram drought index of the time [mm]; unknown unless told. */
  readonly droughtIndexMm?: number
  /** Code of the notice in force per hour: 0 none, 1 warning, 2 ban; none unless told. */
  readonly official?: Uint8Array
}

/**
 * Fire care of each hour of one weather course.
 * @param weather hourly weather
 * @param member which course, 0 to members - 1
 * @param thresholds the farm's figures
 * @param options straw, drought and notices
 * @returns level per hour (code in `FIRE_LEVELS`) and its reasons (bits of `REASON`)
 * The same rule as `fireCare`, hour by hour.
 */
export function fireCareHours(
  weather: Weather,
  member: number,
  thresholds: FireThresholds,
  options: FireCareOptions = {},
): { level: Uint8Array; reasonBits: Uint16Array } {
  const { strawDry, droughtIndexMm = Number.NaN, official } = options
  const { hours, airTempC, relHumidity, windMs, gustMs } = weather
  const limits = fireLimits(thresholds)
  const first = member * hours
  const level = new Uint8Array(hours)
  const reasonBits = new Uint16Array(hours)
  for (let h = 0; h < hours; h++) {
    const i = first + h
    const tightening = tighteningBits(strawDry?.[h] === 1, droughtIndexMm)
    const bits = fireReasonBits(
      airTempC[i]!,
      relHumidity[i]!,
      windMs[i]!,
      gustMs[i]!,
      limits,
      tightening,
      official?.[h] ?? 0,
    )
    reasonBits[h] = bits
    level[h] = levelOfBits(bits)
  }
  return { level, reasonBits }
}
