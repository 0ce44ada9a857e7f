/**
 * Published values of grassland fire danger. Typed in 2026-11-25.
 */

/**
 * Grain harvest stop of South Australia: at 35 deg C and 14 %, read in the 10 % column, harvest ceases above a mean wind
 * of 26 km/h. South Australian Country Fire Service article on the Grain Harvesting Code of Practice; the one cell of the
 * code's table that was found.
 */
export const STOP_CELL = { airTempC: 35, columnHumidity: 10, windKmh: 26, index: 35 } as const

/** Spread on level ground: [index, km/h], South Australian table, one decimal. */
export const SPREAD_TABLE = [
  [2, 0.3],
  [5, 0.6],
  [10, 1.3],
  [20, 2.6],
  [40, 5.2],
  [50, 6.4],
] as const

/** Columns of `STOP_WINDS` [%]. */
export const STOP_HUMIDITIES = [5, 10, 15, 20, 25, 30, 40, 50, 60] as const
/**
 * Wind [km/h] at which Mark 4 reaches 35 with 4.5 t/ha, fully cured: [deg C, by humidity]. Calculated elsewhere from
 * Purton's equation, one decimal.
 */
export const STOP_WINDS = [
  [15, [31.6, 35.3, 38.3, 40.9, 43.2, 45.4, 49.4, 53.1, 56.5]],
  [20, [29.3, 32.8, 35.7, 38.2, 40.4, 42.5, 46.4, 50, 53.3]],
  [25, [27, 30.4, 33.1, 35.5, 37.7, 39.8, 43.5, 47, 50.2]],
  [30, [24.8, 28.1, 30.7, 33, 35.1, 37.1, 40.7, 44.1, 47.2]],
  [35, [22.7, 25.8, 28.4, 30.6, 32.6, 34.5, 38, 41.3, 44.3]],
  [40, [20.7, 23.7, 26.1, 28.3, 30.2, 32, 35.4, 38.5, 41.5]],
  [45, [18.8, 21.6, 24, 26, 27.9, 29.7, 32.9, 35.9, 38.7]],
] as const

/**
 * [deg C, %, km/h, curing %, Mark 3, Mark 4 at 4.5 t/ha, Mark 5 moisture %, Mark 5 at 4.5 t/ha]. Calculated elsewhere
 * from the equations of Noble et al. 1980 and Purton 1982, two decimals.
 */
export const INDEX_ROWS = [
  [20, 50, 10, 100, 3.1, 2.85, 11.14, 8.31],
  [25, 40, 20, 100, 9.67, 8.94, 8.05, 16.4],
  [30, 30, 20, 100, 13.48, 12.37, 5.84, 19.99],
  [35, 20, 20, 100, 19.47, 17.73, 4.19, 23.17],
  [35, 10, 26, 100, 38.92, 35.4, 3.29, 32.01],
  [35, 20, 30, 100, 36.78, 33.81, 4.19, 34.67],
  [40, 10, 20, 100, 30.12, 27.18, 2.92, 25.97],
  [40, 10, 30, 100, 56.91, 51.82, 2.92, 38.86],
  [30, 30, 30, 80, 8.33, 9.22, 13.34, 15.26],
  [30, 30, 30, 90, 15.02, 17.06, 9.17, 22.18],
] as const

/**
 * [deg C, %, km/h, moisture %, damping, natural km/h, grazed km/h], fully cured. Calculated elsewhere from Cheney et al.
 * 1998; curing damping is left out there (1 at full curing).
 */
export const CHENEY_ROWS = [
  [35, 10, 26, 3.785, 0.6645, 8.202, 6.936],
  [40, 15, 21, 3.45, 0.6889, 6.958, 5.872],
  [30, 30, 20, 7.57, 0.4415, 4.256, 3.589],
  [25, 60, 15, 12.735, 0.2566, 1.861, 1.564],
  [30, 20, 4, 6.19, 0.5125, 0.579, 0.456],
] as const
