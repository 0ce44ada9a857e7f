/**
 * Published values of the Keetch-Byram drought index. Typed in 2026-11-25.
 *
 * The worked table of SE-38 (Keetch & Byram 1968) was not obtained. What stands here instead is named row by row.
 */

const RAIN_MM = [10, 0, 0.1, 6, 0, 0, 0.5, 0.3, 0, 1] as const
const MAX_TEMP_C = [20, 30, 20, 30, 30, 25, 40, 35, 20, 20] as const

/**
 * Calculated by hand by others, in the form of Finkele et al. 2006 (5 mm lost, 0.00173), mean rain 1 mm/yr: public test
 * file tests/test_ffdi.py of the xclim library, which says so. Index on the tenth day [mm].
 */
export const HAND_CALCULATED = [
  { startMm: 0, rainMm: RAIN_MM, maxTempC: MAX_TEMP_C, tenthDayMm: 7.10174 },
  { startMm: 10, rainMm: RAIN_MM, maxTempC: MAX_TEMP_C, tenthDayMm: 12.18341 },
  { startMm: 0, rainMm: RAIN_MM, maxTempC: Array<number>(10).fill(30), tenthDayMm: 7.25278 },
  { startMm: 0, rainMm: Array<number>(10).fill(0), maxTempC: MAX_TEMP_C, tenthDayMm: 8.46632 },
] as const

/** Day by day for the first row, calculated elsewhere from the same equations [mm]. */
export const HAND_CALCULATED_DAYS = [
  0, 0.94201, 1.25034, 1.08655, 2.02352, 2.57578, 5.00328, 6.50248, 6.80234, 7.10174,
] as const

/**
 * One dry day, imperial: [index 0.01 in, deg F, in/yr, rise]. Calculated elsewhere from eq 18 as corrected by Alexander
 * 1990 (Fire Management Notes 51(4):23-25), three decimals.
 */
export const DRYING_IMPERIAL = [
  [0, 80, 50, 14.167],
  [100, 90, 50, 21.807],
  [200, 90, 30, 10.548],
  [400, 95, 50, 16.304],
  [400, 80, 20, 2.831],
  [600, 100, 40, 8.141],
  [700, 75, 60, 1.623],
] as const

/** One dry day, metric: [index mm, deg C, mm/yr, rise mm]. Calculated elsewhere, four decimals. */
export const DRYING_METRIC = [
  [0, 30, 1270, 5.0791],
  [25.4, 32.2222, 1270, 5.5421],
  [50.8, 32.2222, 762, 2.6807],
  [101.6, 35, 1270, 4.1437],
] as const

/**
 * Days from index 300 with 40 in of rain a year, rain taken off first: [rain in, deg F, index 0.01 in]. Calculated
 * elsewhere, two decimals; the second and third wet days are one spell.
 */
export const SEASON_TRACE = [
  [0, 90, 311.96],
  [0, 95, 327.24],
  [0.15, 85, 335.81],
  [0.3, 80, 317.46],
  [0, 82, 324.84],
  [1.1, 75, 240.51],
  [0, 88, 252.5],
  [0, 92, 267.1],
] as const
