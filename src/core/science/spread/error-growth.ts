/**
 * How far a single forecast strays from what comes, by lead time.
 *
 * Two errors add up: a local one, there from the first hour (the grid is not the field), and one of the weather's own
 * growth that ends at what seasons usually do at the place. The grown share of that end follows the logistic law of
 * small errors that double and then fill up (Lorenz 1982, Tellus 34:505-513; Dalcher & Kalnay 1987, Tellus 39A:474-491).
 */

export interface ErrorGrowth {
  /** Share of the usual variance that the forecast no longer explains, 0-1. */
  readonly grownShare: number
  /** Local and grown part of the temperature error, standard deviations [deg C]. */
  readonly airTempLocalC: number
  readonly airTempGrownC: number
  readonly dewPointLocalC: number
  readonly dewPointGrownC: number
  /** Parts of the error of the natural logarithm of wind speed. */
  readonly logWindLocal: number
  readonly logWindGrown: number
  readonly windDirectionLocalDeg: number
  readonly windDirectionGrownDeg: number
  /** Parts of the error of the sky's clearness, sunlight over clear-sky sunlight [-]. */
  readonly clearnessLocal: number
  readonly clearnessGrown: number
  /** Error of the timing of rain, standard deviation [h]. */
  readonly rainShiftSdH: number
  /** Weight of the forecast's own wet or dry call against the usual chance of rain, 0-1. */
  readonly rainSkill: number
}

/** Lead at which half of the usual variance is lost, and how gently it is lost [d]. */
const HALF_LOST_D = 6
const GENTLE_D = 2
/** Wind is lost earlier. Choice, no source. */
const WIND_HALF_LOST_D = 4.5

/**
 * What the errors grow to: spread of autumn weather around its usual course for the hour and date, less what the contrast of
 * wet and dry hours makes of it. Champaign, Illinois, September to mid November 1996-2023 (tests/fixtures/champaign): 4.9
 * and 5.4 deg C with that contrast, 0.22 of clearness without.
 */
const USUAL_AIR_TEMP_SD_C = 4.8
const USUAL_DEW_POINT_SD_C = 4.7
/** A little less than the 0.45 measured, for which hours near calm count too much. */
const USUAL_LOG_WIND_SD = 0.4
const USUAL_CLEARNESS_SD = 0.22
/** Of a direction that is not known at all it is 104 deg. */
const USUAL_DIRECTION_SD_DEG = 90

/**
 * Local errors: spread between Newark, LaGuardia and Kennedy airports (15-35 km apart) at the same hour in autumn 2013,
 * over the square root of two, because each of a pair is off (tests/fixtures/newark). Wind less: those are readings of two minutes.
 */
const LOCAL_AIR_TEMP_C = 0.9
const LOCAL_DEW_POINT_C = 1.05
const LOCAL_LOG_WIND = 0.25
const LOCAL_DIRECTION_DEG = 15
const LOCAL_CLEARNESS = 0.07

/** Skill of a wet or dry call at once and how fast it fades [d]; timing error at once and per day [h]. From memory. */
const RAIN_SKILL_AT_ONCE = 0.8
const RAIN_SKILL_FADES_D = 4.5
const RAIN_SHIFT_AT_ONCE_H = 1.5
const RAIN_SHIFT_PER_DAY_H = 1
const LONGEST_RAIN_SHIFT_H = 10

const grown = (leadDays: number, halfLostD: number): number => 1 / (1 + Math.exp((halfLostD - leadDays) / GENTLE_D))

/**
 * Size of the errors at a lead.
 *
 * @param leadDays days from the issue of the forecast [d]; below 0 counts as 0.
 * @returns standard deviations by variable and part; NaN if the lead is unknown.
 *
 * For forecasts already drawn towards the usual (as public services publish them): error and forecast are unrelated.
 * Checked: a day ahead 68 % of forecasts are within 3 and 3 % off by 10 deg F or more (2005, all of the United States:
 * ForecastWatch); ours 1.6 deg C at day one, 78 %. No more skill than the usual beyond ten days (common practice): 12 % of the
 * variance left. The days between and all of rain skill are from memory.
 */
export function errorGrowth(leadDays: number): ErrorGrowth {
  const lead = Math.max(leadDays, 0)
  const grownShare = grown(lead, HALF_LOST_D)
  const root = Math.sqrt(grownShare)
  return {
    grownShare,
    airTempLocalC: LOCAL_AIR_TEMP_C,
    airTempGrownC: USUAL_AIR_TEMP_SD_C * root,
    dewPointLocalC: LOCAL_DEW_POINT_C,
    dewPointGrownC: USUAL_DEW_POINT_SD_C * root,
    logWindLocal: LOCAL_LOG_WIND,
    logWindGrown: USUAL_LOG_WIND_SD * Math.sqrt(grown(lead, WIND_HALF_LOST_D)),
    windDirectionLocalDeg: LOCAL_DIRECTION_DEG,
    windDirectionGrownDeg: USUAL_DIRECTION_SD_DEG * root,
    clearnessLocal: LOCAL_CLEARNESS,
    clearnessGrown: USUAL_CLEARNESS_SD * root,
    rainShiftSdH: Math.min(LONGEST_RAIN_SHIFT_H, RAIN_SHIFT_AT_ONCE_H + RAIN_SHIFT_PER_DAY_H * lead),
    rainSkill: RAIN_SKILL_AT_ONCE * Math.exp(-lead / RAIN_SKILL_FADES_D),
  }
}

/** Whole standard deviation of the temperature error [deg C]. */
export const airTempErrorSdC = (leadDays: number): number => {
  const { airTempLocalC, airTempGrownC } = errorGrowth(leadDays)
  return Math.hypot(airTempLocalC, airTempGrownC)
}
