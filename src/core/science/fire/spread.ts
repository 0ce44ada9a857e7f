/**
 * What the three moisture codes say together: initial spread, build-up, fire weather index, daily severity.
 *
 * Equations 24-31 of Van Wagner C.E. 1987, For. Tech. Rep. 35, Canadian Forestry Service.
 */
import { FINE_FUEL_SCALE_1987, fineFuelMoistureDb } from './fine-fuel.ts'
import { notNegative, windKmh } from './inputs.ts'

/**
 * Initial spread index.
 * @param fineFuel fine fuel moisture code, 0-101
 * @param windMs wind at 10 m at noon [m/s], 0 and up
 * @param scale scale constant of the fine fuel code, `FINE_FUEL_SCALE_1987` unless told
 * @returns index, 0 and up; NaN where an input is unknown or impossible
 * Eqs 24-26, Van Wagner 1987. No limit on wind: in a storm the index grows without bound, as printed.
 * Checked in tests/truth/fire-weather-index.ts.
 */
export function initialSpread(fineFuel: number, windMs: number, scale = FINE_FUEL_SCALE_1987): number {
  const moisture = fineFuelMoistureDb(fineFuel, scale)
  const wind = Math.exp(0.05039 * windKmh(windMs)) // 24
  const fuel = 91.9 * Math.exp(-0.1386 * moisture) * (1 + moisture ** 5.31 / 4.93e7) // 25
  return 0.208 * wind * fuel // 26
}

/**
 * Build-up index: fuel that can burn.
 * @param duff duff moisture code, 0 and up
 * @param drought drought code, 0 and up
 * @returns index, 0 and up; NaN where an input is unknown
 * Eqs 27a, 27b, Van Wagner 1987. Checked in tests/truth/fire-weather-index.ts.
 */
export function buildUp(duff: number, drought: number): number {
  const p = notNegative(duff)
  const d = notNegative(drought)
  if (p === 0) return Number.isNaN(d) ? Number.NaN : 0
  if (p <= 0.4 * d) return (0.8 * p * d) / (p + 0.4 * d) // 27a
  return Math.max(0, p - (1 - (0.8 * d) / (p + 0.4 * d)) * (0.92 + (0.0114 * p) ** 1.7)) // 27b
}

/**
 * Fire weather index.
 * @param spread initial spread index, 0 and up
 * @param build build-up index, 0 and up
 * @returns index, 0 and up; NaN where an input is unknown
 * Eqs 28a-30b, Van Wagner 1987. Checked in tests/truth/fire-weather-index.ts.
 */
export function fireWeather(spread: number, build: number): number {
  const u = notNegative(build)
  const fuel = u <= 80 ? 0.626 * u ** 0.809 + 2 : 1000 / (25 + 108.64 * Math.exp(-0.023 * u)) // 28a, 28b
  const b = 0.1 * notNegative(spread) * fuel // 29
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: rounded as printed in 1987.
  return b > 1 ? Math.exp(2.72 * (0.434 * Math.log(b)) ** 0.647) : b // 30a, 30b
}

/**
 * Daily severity rating: the work of putting out, meant for averaging over days.
 * @param index fire weather index, 0 and up
 * @returns rating, 0 and up; NaN where the index is unknown
 * Eq 31, Van Wagner 1987. Checked by hand arithmetic only: the 1985 table does not print it.
 */
export const dailySeverity = (index: number): number => 0.0272 * notNegative(index) ** 1.77 // 31
