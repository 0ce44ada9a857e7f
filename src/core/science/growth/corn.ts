/** Corn: growing degree days from planting to black layer. */
import type { CropClock } from './crop-clock.ts'
import { cornDegreeDaysF } from './degree-days.ts'
import { dateOfEpochDay, whenReached } from './season.ts'

/** Relative maturities for which hybrids are sold and the equations are used [d]. */
const RM_RANGE = { low: 70, high: 125 } as const

/** Nielsen, R.L., Purdue University: heat from planting by relative maturity [deg F d]; from memory. */
const SILK = { slope: 11.459, intercept: 100.27 } as const
const BLACK_LAYER = { slope: 24.16, intercept: -15.388 } as const

/**
 * Heat from planting to silking.
 *
 * @param relativeMaturity [d], 70-125. @returns [deg F d], 86/50 method; NaN outside the range.
 *
 * Silk = 11.459 RM + 100.27, Nielsen (Purdue), from memory. Checked: RM 105 gives 1303.5, tests/truth/growth.ts.
 */
export const silkDegreeDaysF = (relativeMaturity: number): number =>
  inRange(relativeMaturity) ? SILK.slope * relativeMaturity + SILK.intercept : Number.NaN

/**
 * Heat from planting to black layer, planted by 1 May.
 *
 * @param relativeMaturity [d], 70-125. @returns [deg F d], 86/50 method; NaN outside the range.
 *
 * BL = 24.16 RM - 15.388, Nielsen (Purdue), from memory. Checked: RM 105 gives 2521.4, inside the Wisconsin band of
 * 2400-2600 for RM 95-105, tests/truth/growth.ts; RM 95 gives 2279.8, below that band.
 */
export const blackLayerDegreeDaysF = (relativeMaturity: number): number =>
  inRange(relativeMaturity) ? BLACK_LAYER.slope * relativeMaturity + BLACK_LAYER.intercept : Number.NaN

const inRange = (rm: number): boolean => rm >= RM_RANGE.low && rm <= RM_RANGE.high

const LATE_PER_DAY_F = 6.8
/** Planting dates of the trials ran into mid-June; later than this we reckon no further saving. Assumption. */
const LATE_DAYS_MOST = 60

/**
 * Heat that late-planted corn does without.
 *
 * @param daysAfterFirstOfMay [d]; in the south, days after 1 November. Held to 0-60.
 * @returns [deg F d] to take from the hybrid's rating.
 *
 * 6.8 per day after 1 May, Nielsen, Thomison, Brown, Halter, Wells & Wuethrich 2002, Agron. J. 94:549-558 (author list from
 * memory). Checked: 2700 planted 31 May becomes 2496, tests/truth/growth.ts, exact.
 */
export const latePlantingSavingF = (daysAfterFirstOfMay: number): number =>
  LATE_PER_DAY_F * Math.min(LATE_DAYS_MOST, Math.max(0, daysAfterFirstOfMay))

/** Usual full-season hybrid by latitude: RM 105 at 42 deg, 3.2 d less per degree poleward. Common practice, no source. */
const usualRelativeMaturity = (latDeg: number): number =>
  Math.min(118, Math.max(75, 105 - 3.2 * (Math.abs(latDeg) - 42)))

const daysAfterFirstOfMay = (plantedDay: number, latDeg: number): number => {
  const planted = dateOfEpochDay(plantedDay)
  const first = planted.with({ month: latDeg >= 0 ? 5 : 11, day: 1 })
  const lastFirst = latDeg < 0 && planted.month <= 6 ? first.subtract({ years: 1 }) : first
  return lastFirst.until(planted).days
}

/**
 * How corn gets to black layer.
 *
 * @param plantedDay [epoch days]. @param latDeg [deg]. @param relativeMaturity [d]; absent = the usual one of the place.
 *
 * Moisture at black layer: 30-32 usual, 25-40 seen (NDSU); 25-35 (Nielsen, Purdue); 35 (Abendroth et al. 2011, Iowa State):
 * 33 with a spread of 4. Spread of the requirement: 3 % of a hybrid's rating, 6 % where the rating is guessed (assumption).
 */
export function cornClock(plantedDay: number, latDeg: number, relativeMaturity: number | undefined): CropClock {
  const rm = relativeMaturity ?? usualRelativeMaturity(latDeg)
  const neededF = blackLayerDegreeDaysF(rm) - latePlantingSavingF(daysAfterFirstOfMay(plantedDay, latDeg))
  return {
    covered: !Number.isNaN(neededF),
    matureOn: (temps, effort) =>
      whenReached(plantedDay, neededF * effort, temps, ({ maxC, minC }) => cornDegreeDaysF(maxC, minC)),
    effortSd: relativeMaturity === undefined ? 0.06 : 0.03,
    modelSdDays: 3,
    moistureWb: 33,
    moistureSdWb: 4,
    tenderFromDay: 60,
    basis: `black layer after ${Math.round(neededF)} degree days (F, 86/50) from planting, a ${Math.round(rm)}-day hybrid`,
    remarks:
      relativeMaturity === undefined
        ? ['The relative maturity of the hybrid is not given; the usual one for the latitude is used.']
        : [],
  }
}
