/**
 * Drought code: how dry the deep, compact layer is; open-ended from 0. The slow memory of the season.
 *
 * Equations 18-23 of Van Wagner C.E. 1987, For. Tech. Rep. 35, Canadian Forestry Service.
 */
import { droughtDayLength } from './day-length.ts'
import { notNegative, possibleTempC } from './inputs.ts'

/** Rain up to this much does not reach the deep layer [mm]. */
const LOST_RAIN_MM = 2.8
/** Colder noons count as this [deg C]. */
const COLDEST_C = -2.8

function afterRain(before: number, rainMm: number): number {
  const net = 0.83 * rainMm - 1.27 // 18
  const store = 800 * Math.exp(-before / 400) + 3.937 * net // 19, 20
  return Math.max(0, 400 * Math.log(800 / store)) // 21
}

/**
 * Drought code of today from yesterday's and the noon weather.
 * @param before yesterday's code, 0 and up
 * @param airTempC air temperature at noon local standard time [deg C]; below -2.8 counts as -2.8
 * @param rainMm rain of the 24 h up to noon [mm], 0 and up
 * @param month month of the day, 1-12
 * @param latDeg latitude, north positive [deg]
 * @returns code, 0 and up; NaN where an input is unknown or impossible
 * Eqs 18-23, Van Wagner 1987. Checked in tests/truth/fire-weather-index.ts.
 */
export function droughtCode(before: number, airTempC: number, rainMm: number, month: number, latDeg: number): number {
  const temp = Math.max(COLDEST_C, possibleTempC(airTempC))
  const rain = notNegative(rainMm)
  const start = notNegative(before)
  const demand = Math.max(0, 0.36 * (temp + 2.8) + droughtDayLength(month, latDeg)) // 22
  if (Number.isNaN(start + demand + rain)) return Number.NaN
  return (rain > LOST_RAIN_MM ? afterRain(start, rain) : start) + 0.5 * demand // 23
}
