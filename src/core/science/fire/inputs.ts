/**
 * The doorway of the fire models: what is not a possible weather value becomes "not known".
 */
import { MS_PER_KMH } from '#core/units/convert.ts'

/** Rounding in a supplier's humidity or in Float32 may land a hair above saturation. */
const HUMIDITY_SLACK = 0.01
/** Beyond the coldest and hottest air ever measured near the ground, with room [deg C]. */
const COLDEST_C = -90
const HOTTEST_C = 65

/**
 * Relative humidity as the fire equations want it.
 * @param relHumidity relative humidity [0-1]
 * @returns relative humidity [%], 0-100; up to 1.01 counts as 1, anything else outside 0-1 is NaN
 */
export const humidityPercent = (relHumidity: number): number =>
  relHumidity >= 0 && relHumidity <= 1 + HUMIDITY_SLACK ? Math.min(100, 100 * relHumidity) : Number.NaN

/** @returns wind [km/h] from [m/s]; NaN below zero. */
export const windKmh = (windMs: number): number => (windMs >= 0 ? windMs / MS_PER_KMH : Number.NaN)

/** @returns the air temperature [deg C], NaN outside -90 to 65. */
export const possibleTempC = (airTempC: number): number =>
  airTempC >= COLDEST_C && airTempC <= HOTTEST_C ? airTempC : Number.NaN

/** @returns the value, NaN below zero. */
export const notNegative = (value: number): number => (value >= 0 ? value : Number.NaN)
