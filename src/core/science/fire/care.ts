/**
 * How careful to be with fire in one hour: ordinary, care, stop, or unknown.
 *
 * The three levels are this project's own. The figures behind them are the farm's; the defaults are drawn from
 * published ones. A ban or warning in force always raises the level, never lowers it. Local rules come first.
 */
import { MS_PER_MPH } from '#core/units/convert.ts'
import { HARVEST_CODE_STOP_INDEX, logGrassIndexMark4 } from './grass.ts'
import { humidityPercent, notNegative } from './inputs.ts'

/** In the order of their codes in a `Uint8Array`. */
export const FIRE_LEVELS = ['ordinary', 'care', 'stop', 'unknown'] as const
export type FireLevel = (typeof FIRE_LEVELS)[number]
export const LEVEL_ORDINARY = 0
export const LEVEL_CARE = 1
export const LEVEL_STOP = 2
export const LEVEL_UNKNOWN = 3

export interface FireThresholds {
  /** Care from this gust at 10 m [m/s]. */
  readonly careGustMs: number
  /** Care from this mean wind at 10 m [m/s]. */
  readonly careWindMs: number
  /** Care at or below this relative humidity [0-1]. */
  readonly careRelHumidity: number
  /** Care from this Mark 4 grass index. */
  readonly careGrassIndex: number
  /** Stop from this Mark 4 grass index. */
  readonly stopGrassIndex: number
}

/**
 * Gust: 25 mph, US National Weather Service red flag criteria of Kansas, Nebraska and Missouri offices (2018).
 * Wind: 20 mph, Iowa State University Extension 2021 (review of a bad year of combine fires), and the same criteria.
 * Humidity: 20 %, red flag criteria of Nebraska and eastern Kansas (2018).
 * Stop index: South Australian and Victorian grain harvest codes. Care index: own choice, no source.
 */
export const DEFAULT_FIRE_THRESHOLDS: FireThresholds = {
  careGustMs: 25 * MS_PER_MPH,
  careWindMs: 20 * MS_PER_MPH,
  careRelHumidity: 0.2,
  careGrassIndex: 20,
  stopGrassIndex: HARVEST_CODE_STOP_INDEX,
}

/**
 * Wind alone means nothing in damp air: gust and wind count below this humidity only [0-1]. 60 % is the laxest
 * humidity in any red flag criterion found (Guam office). Own choice.
 */
export const WIND_COUNTS_BELOW_REL_HUMIDITY = 0.6
/** Dry straw or drought bring the care figures for gust, wind and index down to this share. Own choice, no source. */
export const TIGHTENED_SHARE = 0.8
/** A drought index from here on tightens [mm]: 600 hundredths of an inch, red flag criterion of the Guam office. */
export const TIGHTENING_DROUGHT_MM = 152.4

export type OfficialNotice = 'none' | 'warning' | 'ban'
/** In the order of their codes in a `Uint8Array`. */
export const OFFICIAL_NOTICES: readonly OfficialNotice[] = ['none', 'warning', 'ban']

/** One bit per reason, in the order in which reasons are named. */
export const REASON = {
  gust: 1,
  wind: 2,
  'dry-air': 4,
  'grass-care': 8,
  'grass-stop': 16,
  'dry-straw': 32,
  drought: 64,
  warning: 128,
  ban: 256,
  'weather-unknown': 512,
  'gust-unknown': 1024,
} as const
export type FireReasonCode = keyof typeof REASON
export const FIRE_REASON_CODES = Object.keys(REASON) as readonly FireReasonCode[]

const CARE_BITS = REASON.gust | REASON.wind | REASON['dry-air'] | REASON['grass-care']

/** Why the level is what it is, with the value met and the figure it was held against. */
export type FireReason =
  | { readonly code: 'gust'; readonly gustMs: number; readonly limitMs: number }
  | { readonly code: 'wind'; readonly windMs: number; readonly limitMs: number }
  | { readonly code: 'dry-air'; readonly relHumidity: number; readonly limit: number }
  | { readonly code: 'grass-care' | 'grass-stop'; readonly grassIndex: number; readonly limit: number }
  | { readonly code: 'drought'; readonly droughtIndexMm: number; readonly limitMm: number }
  | { readonly code: 'dry-straw' | 'warning' | 'ban' | 'weather-unknown' | 'gust-unknown' }

/**
 * A value stored with 32 bits may lie a hair beside the figure that was typed; a figure met but for that is met. The
 * slack is to the safe side.
 */
const ROUNDING = 1e-6

/** What care is held against, with everything worked out that does not change from hour to hour. */
interface CareLimits {
  readonly gustMs: number
  readonly windMs: number
  /** Common logarithm of the grass index. */
  readonly indexLog: number
}
export interface FireLimits {
  readonly usual: CareLimits
  readonly tightened: CareLimits
  readonly humidityPercent: number
  readonly stopIndexLog: number
}

/**
 * A farm's thresholds made ready for `fireReasonBits`.
 * @param thresholds the farm's figures, each above 0
 * @returns the limits
 * A figure that is missing or not above 0 is a RangeError: with it no hour would ever be called out.
 */
export function fireLimits(thresholds: FireThresholds): FireLimits {
  for (const [name, value] of Object.entries(requiredOf(thresholds))) {
    if (!(value > 0)) throw new RangeError(`Fire threshold ${name} must be above 0, not ${value}`)
  }
  return {
    usual: careLimits(thresholds, 1),
    tightened: careLimits(thresholds, TIGHTENED_SHARE),
    humidityPercent: 100 * thresholds.careRelHumidity * (1 + ROUNDING),
    stopIndexLog: Math.log10(thresholds.stopGrassIndex * (1 - ROUNDING)),
  }
}

function careLimits(thresholds: FireThresholds, share: number): CareLimits {
  const met = share * (1 - ROUNDING)
  return {
    gustMs: met * thresholds.careGustMs,
    windMs: met * thresholds.careWindMs,
    indexLog: Math.log10(met * thresholds.careGrassIndex),
  }
}

const requiredOf = (t: FireThresholds): FireThresholds => ({
  careGustMs: t.careGustMs,
  careWindMs: t.careWindMs,
  careRelHumidity: t.careRelHumidity,
  careGrassIndex: t.careGrassIndex,
  stopGrassIndex: t.stopGrassIndex,
})

/**
 * The reasons of one hour as bits; the level follows from them alone (`levelOfBits`).
 * @param airTempC air temperature [deg C]
 * @param relHumidity relative humidity [0-1]
 * @param windMs mean wind at 10 m [m/s]
 * @param gustMs gust at 10 m [m/s]; NaN where the source has none: the hour is then judged without it
 * @param limits from `fireLimits`
 * @param tightening bits 'dry-straw' and 'drought' if they hold, else 0
 * @param official code of the notice in force: 0 none, 1 warning, 2 ban
 * @returns bits of `REASON`
 */
export function fireReasonBits(
  airTempC: number,
  relHumidity: number,
  windMs: number,
  gustMs: number,
  limits: FireLimits,
  tightening: number,
  official: number,
): number {
  let bits = tightening
  if (official === 1) bits |= REASON.warning
  if (official === 2) bits |= REASON.ban
  const humidity = humidityPercent(relHumidity)
  const indexLog = logGrassIndexMark4(airTempC, relHumidity, windMs)
  if (Number.isNaN(indexLog)) return bits | REASON['weather-unknown']
  const gust = notNegative(gustMs)
  if (Number.isNaN(gust)) bits |= REASON['gust-unknown']
  const care = tightening === 0 ? limits.usual : limits.tightened
  if (humidity < 100 * WIND_COUNTS_BELOW_REL_HUMIDITY) {
    if (gust >= care.gustMs) bits |= REASON.gust
    if (windMs >= care.windMs) bits |= REASON.wind
  }
  if (humidity <= limits.humidityPercent) bits |= REASON['dry-air']
  if (indexLog >= limits.stopIndexLog) bits |= REASON['grass-stop']
  else if (indexLog >= care.indexLog) bits |= REASON['grass-care']
  return bits
}

/**
 * The level that reasons amount to.
 * @param bits bits of `REASON`
 * @returns code in `FIRE_LEVELS`
 * A ban is a stop. So is the stop index. A warning lifts by one: ordinary to care, care to stop. Unknown weather is
 * unknown, except that a warning keeps it at care at least and a ban at stop.
 */
export function levelOfBits(bits: number): number {
  if (bits & (REASON.ban | REASON['grass-stop'])) return LEVEL_STOP
  const warned = bits & REASON.warning
  if (bits & CARE_BITS) return warned ? LEVEL_STOP : LEVEL_CARE
  if (warned) return LEVEL_CARE
  return bits & REASON['weather-unknown'] ? LEVEL_UNKNOWN : LEVEL_ORDINARY
}

export interface FireHour {
  readonly airTempC: number
  readonly relHumidity: number
  readonly windMs: number
  readonly gustMs: number
  /** The straw under the crop is dry. */
  readonly strawDry?: boolean
  /** Keetch-Byram drought index [mm]. */
  readonly droughtIndexMm?: number
  readonly official?: OfficialNotice
}

/** @returns the tightening bits; an unknown drought index does not tighten. */
export const tighteningBits = (strawDry: boolean, droughtIndexMm: number): number =>
  (strawDry ? REASON['dry-straw'] : 0) | (droughtIndexMm >= TIGHTENING_DROUGHT_MM ? REASON.drought : 0)

/**
 * How careful to be with fire in one hour, and why.
 * @param hour weather [SI] and what else is known
 * @param thresholds the farm's figures, `DEFAULT_FIRE_THRESHOLDS` unless told
 * @returns level and reasons with their values. 'dry-straw' and 'drought' stand among the reasons whenever they hold;
 * alone they leave the level as it is. 'gust-unknown' says that the hour was judged by the mean wind only.
 * Own levels, see the constants for sources. Checked on the grain harvest code's published cell in
 * tests/truth/grass-fire.ts.
 */
export function fireCare(
  hour: FireHour,
  thresholds: FireThresholds = DEFAULT_FIRE_THRESHOLDS,
): { level: FireLevel; reasons: FireReason[] } {
  const { airTempC, relHumidity, windMs, gustMs, strawDry = false, droughtIndexMm = Number.NaN } = hour
  const tightening = tighteningBits(strawDry, droughtIndexMm)
  const official = OFFICIAL_NOTICES.indexOf(hour.official ?? 'none')
  const limits = fireLimits(thresholds)
  const bits = fireReasonBits(airTempC, relHumidity, windMs, gustMs, limits, tightening, official)
  return { level: FIRE_LEVELS[levelOfBits(bits)]!, reasons: fireReasons(bits, hour, thresholds) }
}

/**
 * Reasons with their values, from bits.
 * @param bits bits of `REASON`, as `fireCareHours` gives them
 * @param hour the same hour's values
 * @param thresholds the farm's figures
 * @returns reasons in the order of `FIRE_REASON_CODES`
 */
export function fireReasons(bits: number, hour: FireHour, thresholds: FireThresholds): FireReason[] {
  const share = bits & (REASON['dry-straw'] | REASON.drought) ? TIGHTENED_SHARE : 1
  return FIRE_REASON_CODES.filter((code) => bits & REASON[code]).map((code) => reasonOf(code, share, hour, thresholds))
}

function reasonOf(code: FireReasonCode, share: number, hour: FireHour, thresholds: FireThresholds): FireReason {
  const { airTempC, relHumidity, windMs, gustMs, droughtIndexMm = Number.NaN } = hour
  switch (code) {
    case 'gust':
      return { code, gustMs, limitMs: share * thresholds.careGustMs }
    case 'wind':
      return { code, windMs, limitMs: share * thresholds.careWindMs }
    case 'dry-air':
      return { code, relHumidity, limit: thresholds.careRelHumidity }
    case 'grass-care':
    case 'grass-stop': {
      const limit = code === 'grass-stop' ? thresholds.stopGrassIndex : share * thresholds.careGrassIndex
      return { code, grassIndex: 10 ** logGrassIndexMark4(airTempC, relHumidity, windMs), limit }
    }
    case 'drought':
      return { code, droughtIndexMm, limitMm: TIGHTENING_DROUGHT_MM }
    default:
      return { code }
  }
}
