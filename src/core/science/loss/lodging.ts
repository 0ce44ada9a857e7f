/** What standing too long does to corn (stalks, ears) and to the test weight of wheat. */
import { KG_PER_LB, L_PER_BUSHEL } from '#core/units/convert.ts'
import { alongCorners, type Corner } from './piecewise.ts'

/**
 * Corn lost while standing, by days after physiological maturity [d, share of yield].
 * Thomison, Geyer & Minyo (Ohio State, eight trials): October to November 2 %, November to December 11 % more.
 * Thelen (Michigan State): 0.4 % on the ground at an October harvest. Maturity in mid-September, harvests about the
 * tenth of the month: common practice, no source.
 */
const CORN_STANDING: readonly Corner[] = [
  [0, 0],
  [25, 0.004],
  [55, 0.024],
  [85, 0.134],
]
const CORN_LATE_PER_DAY = 0.11 / 30

/** Most that corn is taken to lose by standing [share of yield]. Common practice, no source. */
export const CORN_WORST = 0.5

/**
 * Share of a corn crop lost by standing, from maturity until now.
 *
 * @param daysRipe days since physiological maturity (black layer); below 0 nothing is lost [d].
 * @returns loss [share of yield, 0-0.5]; NaN when not known.
 * Form: broken line through the monthly means of Thomison, Geyer & Minyo (Ohio State), going on at the last slope, held
 * at 0.5. Valid for the Corn Belt in years of usual wind; single years ran from 5 to 24 % in the third month.
 * Checked: tests/truth/losses.ts, against Thelen's totals as well. Not confirmed: days behind the calendar months.
 */
export function cornStandingFraction(daysRipe: number): number {
  const [lastDay, lastLoss] = CORN_STANDING.at(-1)!
  if (daysRipe <= lastDay || Number.isNaN(daysRipe)) return alongCorners(CORN_STANDING, daysRipe)
  return Math.min(CORN_WORST, lastLoss + (daysRipe - lastDay) * CORN_LATE_PER_DAY)
}

/**
 * Share of a corn crop lost per day of standing, at this day.
 *
 * @param daysRipe days since physiological maturity (black layer); below 0 nothing is lost [d].
 * @returns loss rate [share of yield per day]; NaN when not known.
 * Form: slope of `cornStandingFraction`, without its hold at 0.5. Checked: tests/truth/losses.ts.
 */
export function cornStandingPerDay(daysRipe: number): number {
  if (Number.isNaN(daysRipe)) return Number.NaN
  if (daysRipe < 0) return 0
  for (let i = 1; i < CORN_STANDING.length; i++) {
    const [x0, y0] = CORN_STANDING[i - 1]!
    const [x1, y1] = CORN_STANDING[i]!
    if (daysRipe < x1) return (y1 - y0) / (x1 - x0)
  }
  return CORN_LATE_PER_DAY
}

/** One pound per U.S. bushel [kg/m3]. */
export const KG_M3_PER_LB_BU = (KG_PER_LB / L_PER_BUSHEL) * 1000

/** Test weight lost each time ripe wheat is wetted: 1 lb/bu, rule of Virginia Tech extension [kg/m3]. */
const WHEAT_TEST_WEIGHT_PER_WETTING = KG_M3_PER_LB_BU
/** The largest fall seen by Farrer et al. 2006 [kg/m3]. */
const WHEAT_TEST_WEIGHT_WORST = 115

/**
 * Test weight of ripe wheat after some rains.
 *
 * @param soundKgM3 test weight when first ripe [kg/m3, above 0].
 * @param rainEvents wettings since then, whatever their amount [count, 0 or more].
 * @returns test weight [kg/m3]; NaN when an input is not known or out of range.
 * Form: linear in the number of rain events, not their amount, r2 0.93 (Farrer et al. 2006, Agron. J. 98:588-595), 1 lb/bu
 * each (Virginia Tech extension), at most the 115 kg/m3 that Farrer et al. saw.
 * Checked: tests/truth/losses.ts. Doubtful: North Dakota State extension gives 2-3 lb/bu a wetting, so this is the mild end.
 */
export function wheatTestWeightKgM3(soundKgM3: number, rainEvents: number): number {
  if (!(soundKgM3 > 0 && rainEvents >= 0)) return Number.NaN
  return soundKgM3 - Math.min(WHEAT_TEST_WEIGHT_WORST, rainEvents * WHEAT_TEST_WEIGHT_PER_WETTING)
}
