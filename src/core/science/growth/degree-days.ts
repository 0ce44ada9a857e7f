/** Heat that moves a crop on, day by day, from the highest and lowest temperature. */
import { celsiusFromFahrenheit, fahrenheitFromCelsius } from '#core/units/convert.ts'

/**
 * Degree days by the first reading: the mean of the day less the base, none below it.
 *
 * @param maxC [deg C]. @param minC [deg C]. @param baseC temperature at which growth stops [deg C].
 * @returns [deg C d], not negative; NaN if unknown.
 *
 * McMaster & Wilhelm 1997, Agric. For. Meteorol. 87:291-300, method 1; the one used here for wheat, barley, oats,
 * canola and sunflower. Their method 2 (`clippedDegreeDays`) differs by up to 83 % for wheat at base 0: a requirement
 * made with one must not be used with the other. Checked: tests/truth/growth.ts, exact.
 */
export const meanDegreeDays = (maxC: number, minC: number, baseC: number): number =>
  Math.max(0, (maxC + minC) / 2 - baseC)

/**
 * Degree days by the second reading: both temperatures held between base and ceiling before the mean is taken.
 *
 * @param maxC [deg C]. @param minC [deg C]. @param baseC [deg C]. @param ceilingC temperature above which more heat
 * does no more [deg C], above baseC.
 * @returns [deg C d], 0 to ceilingC - baseC; NaN if unknown.
 *
 * McMaster & Wilhelm 1997, method 2, with a ceiling. Checked: tests/truth/growth.ts, exact.
 */
export const clippedDegreeDays = (maxC: number, minC: number, baseC: number, ceilingC: number): number =>
  (Math.min(ceilingC, Math.max(baseC, maxC)) + Math.min(ceilingC, Math.max(baseC, minC))) / 2 - baseC

const CORN_BASE_F = 50
const CORN_CEILING_F = 86

/**
 * Corn growing degree days by the 86/50 method.
 *
 * @param maxC [deg C]. @param minC [deg C].
 * @returns [deg F d], 0-36, the unit in which corn hybrids are rated; NaN if unknown.
 *
 * GDD = (min(max(Tx, 50), 86) + min(max(Tn, 50), 86)) / 2 - 50, Ohio State University Extension AGF-101.
 * Checked: 90/48 F gives 18, tests/truth/growth.ts, exact.
 */
export const cornDegreeDaysF = (maxC: number, minC: number): number =>
  clippedDegreeDays(fahrenheitFromCelsius(maxC), fahrenheitFromCelsius(minC), CORN_BASE_F, CORN_CEILING_F)

/**
 * Corn growing degree days by the 86/50 method in Celsius: base 10, ceiling 30.
 *
 * @param maxC [deg C]. @param minC [deg C]. @returns [deg C d], 0-20; NaN if unknown.
 *
 * Checked: 1.8 times the result equals `cornDegreeDaysF`.
 */
export const cornDegreeDaysC = (maxC: number, minC: number): number =>
  clippedDegreeDays(maxC, minC, celsiusFromFahrenheit(CORN_BASE_F), celsiusFromFahrenheit(CORN_CEILING_F))
