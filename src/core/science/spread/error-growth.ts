/**
 * How far a single forecast strays from what comes, by lead time.
 *
 * Root-mean-square errors rise about linearly through the first ten days; the figures are common practice for
 * public point forecasts in the central United States (maximum temperature off by about 2-2.5 deg F on day one,
 * 5-6 deg F on day seven), from memory, not confirmed against one table. Skill for rain falls by 1/e in five days:
 * the forecast's own wet or dry call is kept with that weight and the place's usual chance of rain takes the rest.
 */
export interface ErrorGrowth {
  readonly airTempSdC: number
  readonly dewPointSdC: number
  /** Standard deviation of the logarithm of wind speed. */
  readonly logWindSd: number
  readonly windDirectionSdDeg: number
  /** Shift of rain in time, standard deviation [h]. */
  readonly rainShiftSdH: number
  /** Weight of the forecast's own wet or dry call, 0-1. */
  readonly rainSkill: number
}

const RAIN_SKILL_DAYS = 5
const SATURATION_DAYS = 10

/** @param leadDays days from issue [d], 0 or more; growth stops at ten days. */
export function errorGrowth(leadDays: number): ErrorGrowth {
  const lead = Math.min(Math.max(leadDays, 0), SATURATION_DAYS)
  return {
    airTempSdC: 0.9 + 0.35 * lead,
    dewPointSdC: 1.1 + 0.4 * lead,
    logWindSd: 0.18 + 0.035 * lead,
    windDirectionSdDeg: 15 + 6 * lead,
    rainShiftSdH: 1.5 + 1.2 * lead,
    rainSkill: Math.exp(-Math.max(leadDays, 0) / RAIN_SKILL_DAYS),
  }
}
