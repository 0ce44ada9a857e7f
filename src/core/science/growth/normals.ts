/** A stand-in for the weather of a season that nobody has seen yet. */

export interface DayTemps {
  readonly maxC: number
  readonly minC: number
}
export type ClimateNormal = (dayOfYear: number) => DayTemps

const DAYS_PER_YEAR = 365.25
/** Warmest day in the north, 20 July. */
const WARMEST_DAY = 201
const ANCHOR_LAT_DEG = 40
const MEAN_AT_ANCHOR_C = 11.2
const MEAN_PER_DEG_C = -0.82
const SWING_AT_ANCHOR_C = 13.2
const SWING_PER_DEG_C = 0.42
/** Oceans temper the farmland of the southern half: less swing between summer and winter. */
const SOUTHERN_SWING = 0.65
const DAY_RANGE_C = 12
const LOWEST_LAT_DEG = 25
const HIGHEST_LAT_DEG = 58

/**
 * Usual highest and lowest temperature of each day of the year from latitude alone.
 *
 * @param latDeg [deg], south negative; the size is held to 25-58.
 * @returns function of the day of the year (1-366) giving [deg C]; NaN if the latitude is unknown.
 *
 * A sine laid by eye through the monthly means of Champaign IL, Stoneville MS and Fargo ND, as remembered: common practice, no
 * published equation. Made for continental farmland at low elevation; off by several degrees on coasts, in mountains and
 * in Europe. Only fills what no weather covers, and whoever uses it must widen its spread. Checked: within 1.5 deg C of
 * measured monthly means at Champaign, July to November 1996-2023, tests/truth/growth.ts.
 */
export function climateNormal(latDeg: number): ClimateNormal {
  const south = latDeg < 0
  const poleward = Math.min(HIGHEST_LAT_DEG, Math.max(LOWEST_LAT_DEG, Math.abs(latDeg))) - ANCHOR_LAT_DEG
  const meanC = MEAN_AT_ANCHOR_C + MEAN_PER_DEG_C * poleward
  const swingC = (SWING_AT_ANCHOR_C + SWING_PER_DEG_C * poleward) * (south ? SOUTHERN_SWING : 1)
  const warmestDay = south ? WARMEST_DAY - DAYS_PER_YEAR / 2 : WARMEST_DAY
  return (dayOfYear) => {
    const dayC = meanC + swingC * Math.cos((2 * Math.PI * (dayOfYear - warmestDay)) / DAYS_PER_YEAR)
    return { maxC: dayC + DAY_RANGE_C / 2, minC: dayC - DAY_RANGE_C / 2 }
  }
}

/** A crude normal is off by so much for a place, all season [deg C]. Assumption; -1.0 to +0.9 by month at Champaign. */
const PLACE_SD_C = 1
/** Summers differ by so much [deg C]. Measured at Champaign, 1996-2023. */
const SUMMER_SD_C = 0.8
/** Variance of the mean of n days within a summer: 27 / (n + 2) [deg C2]. Measured at Champaign, 1996-2023. */
const SPELL_C2_D = 27
const SPELL_D = 2

/**
 * Likely error of the mean temperature of days filled with a normal.
 *
 * @param days how many are filled, not negative. @returns standard deviation [deg C], 1.3-3.9; NaN if unknown.
 *
 * Place, summer and spells of weather as variances. Checked: without the place's part within 0.1 deg C of what the summers at
 * Champaign show for spans of 5 to 120 days, which it was fitted to (0.43 for one day), tests/truth/growth.ts. Not checked: elsewhere, or in spring.
 */
export const fillErrorSdC = (days: number): number =>
  days >= 0 ? Math.sqrt(PLACE_SD_C ** 2 + SUMMER_SD_C ** 2 + SPELL_C2_D / (days + SPELL_D)) : Number.NaN
