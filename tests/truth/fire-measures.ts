/**
 * Published values of fire weather measures. Typed in 2026-11-25.
 */

/**
 * [deg C, %, m/s, deficit hPa, wind times deficit hPa m/s]: calculated elsewhere from Srock et al. 2018 at one level with
 * the saturation curve of FAO-56.
 */
export const HOT_DRY_WINDY = [
  [30, 20, 8, 33.94, 271.6],
  [35, 10, 10, 50.6, 506],
  [25, 40, 5, 19.01, 95],
  [40, 15, 6, 62.69, 376.2],
] as const

/**
 * [deg F, %, mph, moisture %, damping, index]: calculated elsewhere from the definition of the Fosberg index (University
 * of Washington page) and of the moisture (Cohen & Deeming 1985, PSW-82, eqs 1a-1c).
 */
export const FOSBERG_ROWS = [
  [90, 15, 20, 3.299, 0.7976, 53.2],
  [75, 40, 10, 7.523, 0.5849, 19.58],
  [95, 5, 25, 1.163, 0.9247, 77.07],
  [60, 70, 15, 13.035, 0.3732, 18.69],
  [70, 0, 30, 0.032, 0.9978, 99.77],
] as const

/**
 * Red flag criteria of US National Weather Service offices, as their pages printed them in 2015-2018: [%, mean wind mph,
 * gust mph, hours]. Amarillo measures wind at 20 ft.
 */
export const RED_FLAG = {
  'western-kansas': { humidity: 15, gustMph: 25, hours: 1 },
  'south-central-nebraska': { humidity: 20, windMph: 20, gustMph: 25, hours: 1 },
  'western-missouri': { humidity: 25, gustMph: 25, hours: 1 },
  'texas-panhandle': { humidity: 15, windMph20ft: 20, gustMph20ft: 35, hours: 3 },
  'western-colorado': { humidity: 15, windMph: 25, gustMph: 25, hours: 3 },
} as const
