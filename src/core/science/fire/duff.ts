/**
 * Duff moisture code: how dry the loose layer under the litter is; open-ended from 0.
 *
 * Equations 11-17 of Van Wagner C.E. 1987, For. Tech. Rep. 35, Canadian Forestry Service.
 */
import { duffDayLength } from './day-length.ts'
import { humidityPercent, notNegative, possibleTempC } from './inputs.ts'

/** Rain up to this much stays in crowns and litter [mm]. */
const LOST_RAIN_MM = 1.5
/** Colder noons count as this [deg C]. */
const COLDEST_C = -1.1

/** `1987`: eqs 12 and 15 as printed. `full`: the same scale written as 280 and 0.023, as later programs do. */
export type DuffForm = '1987' | 'full'

/** Eqs 11-15: the code after rain. */
function afterRain(before: number, rainMm: number, form: DuffForm): number {
  const net = 0.92 * rainMm - 1.27 // 11
  const moisture = 20 + (form === '1987' ? Math.exp(5.6348 - before / 43.43) : 280 / Math.exp(0.023 * before)) // 12
  const slope =
    before <= 33
      ? 100 / (0.5 + 0.3 * before) // 13a
      : before <= 65
        ? 14 - 1.3 * Math.log(before) // 13b
        : 6.2 * Math.log(before) - 17.2 // 13c
  const wet = moisture + (1000 * net) / (48.77 + slope * net) // 14
  const offset = form === '1987' ? 244.72 : 43.43 * 5.6348
  return Math.max(0, offset - 43.43 * Math.log(wet - 20)) // 15
}

/**
 * Duff moisture code of today from yesterday's and the noon weather.
 * @param before yesterday's code, 0 and up
 * @param airTempC air temperature at noon local standard time [deg C]; below -1.1 counts as -1.1
 * @param relHumidity relative humidity at noon [0-1]
 * @param rainMm rain of the 24 h up to noon [mm], 0 and up
 * @param month month of the day, 1-12
 * @param latDeg latitude, north positive [deg]
 * @param form which print of the constants, '1987' unless told
 * @returns code, 0 and up; NaN where an input is unknown or impossible
 * Eqs 11-17, Van Wagner 1987. Checked in tests/truth/fire-weather-index.ts.
 */
export function duffCode(
  before: number,
  airTempC: number,
  relHumidity: number,
  rainMm: number,
  month: number,
  latDeg: number,
  form: DuffForm = '1987',
): number {
  const temp = Math.max(COLDEST_C, possibleTempC(airTempC))
  const humidity = humidityPercent(relHumidity)
  const rain = notNegative(rainMm)
  const drying = 1.894 * (temp + 1.1) * (100 - humidity) * duffDayLength(month, latDeg) * 1e-6 // 16
  const start = notNegative(before)
  if (Number.isNaN(start + drying + rain)) return Number.NaN
  return (rain > LOST_RAIN_MM ? afterRain(start, rain, form) : start) + 100 * drying // 17
}
