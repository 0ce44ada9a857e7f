/**
 * Monthly day-length factors of the duff and drought codes, by belt of latitude.
 *
 * The northern belt is that of Van Wagner 1987 (For. Tech. Rep. 35). The other belts follow Lawson B.D.,
 * Armitage O.B. 2008, Weather guide for the Canadian Forest Fire Danger Rating System: from memory, except the January
 * values south of 10 S (duff) and south of the equator (drought), which test data of the Canadian Forest Service bear out.
 */

/** Effective day length for the duff code, January to December [h]. */
const DUFF_NORTH = [6.5, 7.5, 9, 12.8, 13.9, 13.9, 12.4, 10.9, 9.4, 8, 7, 6]
const DUFF_NORTH_TROPICS = [7.9, 8.4, 8.9, 9.5, 9.9, 10.2, 10.1, 9.7, 9.1, 8.6, 8.1, 7.8]
const DUFF_EQUATOR = 9
const DUFF_SOUTH_TROPICS = [10.1, 9.6, 9.1, 8.5, 8.1, 7.8, 7.9, 8.3, 8.9, 9.4, 9.9, 10.2]
const DUFF_SOUTH = [11.5, 10.5, 9.2, 7.9, 6.8, 6.2, 6.5, 7.4, 8.7, 10, 11.2, 11.8]
/** Day-length adjustment for the drought code, January to December. */
const DROUGHT_NORTH = [-1.6, -1.6, -1.6, 0.9, 3.8, 5.8, 6.4, 5, 2.4, 0.4, -1.6, -1.6]
const DROUGHT_EQUATOR = 1.4

const monthIndex = (month: number): number => (Number.isInteger(month) && month >= 1 && month <= 12 ? month - 1 : -1)
const isLatitude = (latDeg: number): boolean => Math.abs(latDeg) <= 90

/**
 * Effective day length Le of the duff moisture code.
 * @param month 1-12
 * @param latDeg latitude, north positive [deg]; belts change at 30, 10, -10 and -30
 * @returns Le [h]; NaN for no such month or latitude
 * Van Wagner 1987 table for 46 N, used from 30 N on. Other belts from memory.
 */
export function duffDayLength(month: number, latDeg: number): number {
  const m = monthIndex(month)
  if (m < 0 || !isLatitude(latDeg)) return Number.NaN
  if (latDeg >= 30) return DUFF_NORTH[m]!
  if (latDeg >= 10) return DUFF_NORTH_TROPICS[m]!
  if (latDeg > -10) return DUFF_EQUATOR
  if (latDeg > -30) return DUFF_SOUTH_TROPICS[m]!
  return DUFF_SOUTH[m]!
}

/**
 * Day-length adjustment Lf of the drought code.
 * @param month 1-12
 * @param latDeg latitude, north positive [deg]; belts change at 20 and -20
 * @returns Lf; NaN for no such month or latitude
 * Van Wagner 1987; the south takes the north's values six months apart, between 20 S and 20 N 1.4 (from memory).
 */
export function droughtDayLength(month: number, latDeg: number): number {
  const m = monthIndex(month)
  if (m < 0 || !isLatitude(latDeg)) return Number.NaN
  if (latDeg >= 20) return DROUGHT_NORTH[m]!
  if (latDeg > -20) return DROUGHT_EQUATOR
  return DROUGHT_NORTH[(m + 6) % 12]!
}
