/**
 * Keetch-Byram drought index: the water missing from the top of the soil and the litter, day after day.
 *
 * Keetch J.J., Byram G.M. 1968 (rev. 1988), A drought index for forest fire control, USDA Forest Service Res. Pap.
 * SE-38, with the constants put right by Alexander M.E. 1990, Fire Management Notes 51(4):23-25 (8.30 where the 1968
 * print has 0.830). Metric form: Crane W.J.B. 1982; Finkele K. et al. 2006, BMRC Res. Rep. 119.
 */
import { MM_PER_IN } from '#core/units/convert.ts'
import { notNegative, possibleTempC } from './inputs.ts'

/** The index counts hundredths of an inch, 0 (soaked) to 800 (nothing left). */
export const DRIEST_HUNDREDTHS_IN = 800
/** The same in millimetres. */
export const DRIEST_MM = 203.2
/** Rain of a wet spell that never reaches the soil [mm], 0.20 in. */
const LOST_RAIN_MM = 0.2 * MM_PER_IN
const FINKELE_LOST_RAIN_MM = 5
/** The table of SE-38 has no drying at or below this highest temperature of the day (from memory) [deg F, deg C]. */
const NO_DRYING_F = 50
const NO_DRYING_C = 10

/**
 * `keetch-byram`: 5.08 mm lost per wet spell, rain taken off before the day dries, no drying at 10 deg C or less.
 * `finkele`: 5 mm lost, the day dries from yesterday's index, then rain comes off, rain factor 0.00173.
 */
export type DroughtIndexForm = 'keetch-byram' | 'finkele'

const inRange = (value: number, top: number): number => (value >= 0 && value <= top ? value : Number.NaN)

/**
 * Rise of the index in one dry day, imperial form.
 * @param index index before [0.01 in], 0-800
 * @param maxTempF highest temperature of the day [deg F], -130 to 149
 * @param annualRainIn mean rain of a year [in], 0 and up
 * @returns rise [0.01 in], 0 and up; 0 at 50 deg F or less; NaN where an input is unknown or impossible
 * Eq 18 of SE-38 as corrected by Alexander 1990. Checked in tests/truth/drought-index.ts (regression rows).
 */
export function dailyDryingHundredthsIn(index: number, maxTempF: number, annualRainIn: number): number {
  const temp = maxTempF >= -130 && maxTempF <= 149 ? maxTempF : Number.NaN
  const gap = DRIEST_HUNDREDTHS_IN - inRange(index, DRIEST_HUNDREDTHS_IN)
  const cover = 1 + 10.88 * Math.exp(-0.0441 * notNegative(annualRainIn))
  const rise = (gap * (0.968 * Math.exp(0.0486 * temp) - 8.3) * 1e-3) / cover
  if (Number.isNaN(rise)) return Number.NaN
  return temp <= NO_DRYING_F ? 0 : Math.min(rise, gap)
}

/**
 * Rise of the index in one dry day, metric form.
 * @param indexMm index before [mm], 0-203.2
 * @param maxTempC highest temperature of the day [deg C], -90 to 65
 * @param annualRainMm mean rain of a year [mm], 0 and up
 * @param form which form, 'keetch-byram' unless told
 * @returns rise [mm], 0 and up; NaN where an input is unknown or impossible
 * Crane 1982, Finkele et al. 2006. No drying at 10 deg C or less ('finkele': where the equation turns negative, about
 * 6.8 deg C). Checked in tests/truth/drought-index.ts.
 */
export function dailyDryingMm(
  indexMm: number,
  maxTempC: number,
  annualRainMm: number,
  form: DroughtIndexForm = 'keetch-byram',
): number {
  const temp = possibleTempC(maxTempC)
  const gap = DRIEST_MM - inRange(indexMm, DRIEST_MM)
  const cover = 1 + 10.88 * Math.exp((form === 'finkele' ? -0.00173 : -0.001736) * notNegative(annualRainMm))
  const rise = (gap * (0.968 * Math.exp(0.0875 * temp + 1.5552) - 8.3) * 1e-3) / cover
  if (Number.isNaN(rise)) return Number.NaN
  if (form === 'keetch-byram' && temp <= NO_DRYING_C) return 0
  return Math.min(Math.max(0, rise), gap)
}

/**
 * Rain that reaches the soil, day by day: the first part of each wet spell is lost, once per spell.
 * @param rainMm rain per day [mm], 0 and up; a spell is a run of days with any rain
 * @param lostMm loss per spell [mm]
 * @returns net rain per day [mm]; NaN on an unknown day and until that spell has surely ended
 * Keetch & Byram 1968. Checked through the hand-calculated rows in tests/truth/drought-index.ts.
 */
export function netRainMm(rainMm: ArrayLike<number>, lostMm: number): Float64Array {
  const net = new Float64Array(rainMm.length)
  let spell = 0
  for (let d = 0; d < net.length; d++) {
    const today = notNegative(rainMm[d]!)
    const before = spell
    spell = today === 0 ? 0 : spell + today
    net[d] = today === 0 ? 0 : Math.max(0, spell - lostMm) - Math.max(0, before - lostMm)
  }
  return net
}

export interface DroughtDays {
  /** Rain per day [mm]. */
  readonly rainMm: ArrayLike<number>
  /** Highest temperature per day [deg C]. */
  readonly maxTempC: ArrayLike<number>
}

/**
 * Drought index over a series of days, metric.
 * @param days rain and highest temperature of consecutive days
 * @param startMm index before the first day [mm], 0-203.2; 0 after 150-200 mm of rain in a week or after snow-melt
 * @param annualRainMm mean rain of a year [mm], 0 and up
 * @param form which form, 'keetch-byram' unless told
 * @returns index per day [mm], 0-203.2; from the first unknown day on all is NaN
 * Keetch & Byram 1968 with Alexander 1990; Finkele et al. 2006. Checked in tests/truth/drought-index.ts: rows
 * calculated by hand by others (form 'finkele') to 5 decimals, a regression trace ('keetch-byram').
 */
export function droughtIndexMm(
  days: DroughtDays,
  startMm: number,
  annualRainMm: number,
  form: DroughtIndexForm = 'keetch-byram',
): Float64Array {
  const net = netRainMm(days.rainMm, form === 'finkele' ? FINKELE_LOST_RAIN_MM : LOST_RAIN_MM)
  const out = new Float64Array(net.length)
  let index = startMm
  for (let d = 0; d < out.length; d++) {
    const temp = days.maxTempC[d]!
    if (form === 'finkele') {
      index = hold(index + dailyDryingMm(index, temp, annualRainMm, form) - net[d]!)
    } else {
      const wetted = hold(index - net[d]!)
      index = wetted + dailyDryingMm(wetted, temp, annualRainMm, form)
    }
    out[d] = index
  }
  return out
}

const hold = (indexMm: number): number => Math.min(DRIEST_MM, Math.max(0, indexMm))

/** @returns the index in hundredths of an inch, 0-800, as it is quoted in the United States, from [mm]. */
export const hundredthsInFromMm = (indexMm: number): number => (indexMm / MM_PER_IN) * 100
/** @returns the index [mm] from hundredths of an inch. */
export const mmFromHundredthsIn = (index: number): number => (index / 100) * MM_PER_IN
