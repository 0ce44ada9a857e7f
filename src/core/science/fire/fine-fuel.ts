/**
 * Fine fuel moisture code: how dry the litter on top is, on a scale of 0 (soaked) to 101 (bone dry).
 *
 * Equations: Van Wagner C.E., Pickett T.L. 1985, For. Tech. Rep. 33; Van Wagner C.E. 1987, For. Tech. Rep. 35,
 * Canadian Forestry Service. Hourly form: Van Wagner C.E. 1977, Inf. Rep. PS-X-69. Equation numbers are those of
 * 1985/1987. The code describes closed pine litter, not a standing crop.
 */
import { humidityPercent, notNegative, possibleTempC, windKmh } from './inputs.ts'

/** Scale constant as printed in 1985 and 1987. */
export const FINE_FUEL_SCALE_1987 = 147.2
/** The same constant carried to full length, so that moisture 0 is code 101 (Wang et al. 2015, NOR-X-424). */
export const FINE_FUEL_SCALE_FULL = (59.5 * 250) / 101
/** Moisture at code 0, and the most that rain can bring about [% of dry mass]. */
const SOAKED = 250
const DRIEST_CODE = 101
/** Rain that the crowns keep back, of the daily rain only [mm]. */
const CROWN_RAIN_MM = 0.5
/** Factors of the log drying rate (base 10), eqs 6b, 7b: for the noon day of the code, and per true hour. */
const PER_DAY = 0.581
const PER_HOUR = 0.0579

/**
 * Moisture that belongs to a fine fuel code.
 * @param code fine fuel moisture code, 0-101
 * @param scale scale constant
 * @returns moisture [% of dry mass], 0-250; NaN outside the scale
 * Eq 1 (Van Wagner 1987). Checked as the inverse of eq 10 and through the code itself.
 */
export function fineFuelMoistureDb(code: number, scale = FINE_FUEL_SCALE_1987): number {
  if (!(code >= 0 && code <= DRIEST_CODE)) return Number.NaN
  return (scale * (DRIEST_CODE - code)) / (59.5 + code) // 1
}

/** Eq 10, held to the scale. */
const codeOf = (moistureDb: number, scale: number): number =>
  Math.min(DRIEST_CODE, Math.max(0, (59.5 * (SOAKED - moistureDb)) / (scale + moistureDb))) // 10

/** Eqs 3a, 3b; `rainMm` is what reaches the litter. */
function wetted(moistureDb: number, rainMm: number): number {
  if (rainMm <= 0) return moistureDb
  const gain = 42.5 * rainMm * Math.exp(-100 / (251 - moistureDb)) * (1 - Math.exp(-6.93 / rainMm)) // 3a
  const beyond = moistureDb > 150 ? 0.0015 * (moistureDb - 150) ** 2 * Math.sqrt(rainMm) : 0 // 3b
  return Math.min(SOAKED, moistureDb + gain + beyond)
}

/** Moisture where drying ends and where wetting ends [% of dry mass], eqs 4 and 5. */
function equilibria(airTempC: number, humidity: number): { drying: number; wetting: number } {
  const warmth = 0.18 * (21.1 - airTempC) * (1 - Math.exp(-0.115 * humidity))
  const near = Math.exp((humidity - 100) / 10)
  return {
    drying: Math.max(0, 0.942 * humidity ** 0.679 + 11 * near + warmth), // 4
    wetting: Math.max(0, 0.618 * humidity ** 0.753 + 10 * near + warmth), // 5
  }
}

/** Log rate before the temperature factor, eqs 6a and 7a; `share` is RH for drying and 1 - RH for wetting. */
const rate = (share: number, kmh: number): number =>
  0.424 * (1 - share ** 1.7) + 0.0694 * Math.sqrt(kmh) * (1 - share ** 8)

/** Moves the moisture toward the equilibrium on its side; `length` is the log-rate factor of the whole step. */
function settled(moistureDb: number, airTempC: number, humidity: number, kmh: number, length: number): number {
  const { drying, wetting } = equilibria(airTempC, humidity)
  const left = (share: number): number => 10 ** -(rate(share, kmh) * Math.exp(0.0365 * airTempC) * length) // 6b, 7b
  if (moistureDb > drying) return drying + (moistureDb - drying) * left(humidity / 100) // 8
  if (moistureDb < wetting) return wetting - (wetting - moistureDb) * left(1 - humidity / 100) // 9
  return moistureDb
}

/**
 * Fine fuel moisture code of today from yesterday's and the noon weather.
 * @param before yesterday's code, 0-101
 * @param airTempC air temperature at noon local standard time [deg C], -90 to 65
 * @param relHumidity relative humidity at noon [0-1]
 * @param windMs wind at 10 m at noon [m/s], 0 and up
 * @param rainMm rain of the 24 h up to noon [mm], 0 and up
 * @param scale scale constant, `FINE_FUEL_SCALE_1987` unless told
 * @returns code, 0-101; NaN where an input is unknown or impossible
 * Eqs 1-10, Van Wagner 1987, For. Tech. Rep. 35. Equilibria are held at 0 or more (matters above 55 deg C only).
 * Checked in tests/truth/fire-weather-index.ts: 24 days of the 1985 test season, one full-precision value.
 */
export function fineFuelCode(
  before: number,
  airTempC: number,
  relHumidity: number,
  windMs: number,
  rainMm: number,
  scale = FINE_FUEL_SCALE_1987,
): number {
  const temp = possibleTempC(airTempC)
  const humidity = humidityPercent(relHumidity)
  const kmh = windKmh(windMs)
  const start = wetted(fineFuelMoistureDb(before, scale), notNegative(rainMm) - CROWN_RAIN_MM) // 2
  if (Number.isNaN(start + temp + humidity + kmh + notNegative(rainMm))) return Number.NaN
  return codeOf(settled(start, temp, humidity, kmh, PER_DAY), scale)
}

/**
 * Fine fuel moisture code after some hours of steady weather.
 * @param before the code at the start, 0-101
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @param windMs wind at 10 m [m/s], 0 and up
 * @param rainMm rain in the step [mm], 0 and up; all of it counts
 * @param stepH length of the step [h], above 0; 1 unless told
 * @param scale scale constant, `FINE_FUEL_SCALE_FULL` unless told
 * @returns code, 0-101; NaN where an input is unknown or impossible
 * Van Wagner 1977, PS-X-69, in the form the Canadian Forest Service computes it: rain without the crown loss, 0.0579
 * per hour for 0.581 per day. Checked in tests/truth/fire-weather-index.ts against rows of the Service's own test data
 * (9 h steps; max error 2e-6, from its rounding of the scale constant).
 */
export function hourlyFineFuel(
  before: number,
  airTempC: number,
  relHumidity: number,
  windMs: number,
  rainMm: number,
  stepH = 1,
  scale = FINE_FUEL_SCALE_FULL,
): number {
  const temp = possibleTempC(airTempC)
  const humidity = humidityPercent(relHumidity)
  const kmh = windKmh(windMs)
  const rain = notNegative(rainMm)
  const start = fineFuelMoistureDb(before, scale)
  if (Number.isNaN(start + temp + humidity + kmh + rain) || !(stepH > 0)) return Number.NaN
  return codeOf(settled(wetted(start, rain), temp, humidity, kmh, PER_HOUR * stepH), scale)
}

/** Hour-by-hour weather of one course, all of one length. */
export interface HourlyFireWeather {
  readonly airTempC: ArrayLike<number>
  readonly relHumidity: ArrayLike<number>
  readonly windMs: ArrayLike<number>
  readonly rainMm: ArrayLike<number>
}

/**
 * Hourly fine fuel moisture code through a series.
 * @param weather hourly values, units as in `hourlyFineFuel`
 * @param start code before the first hour, 0-101
 * @param scale scale constant, `FINE_FUEL_SCALE_FULL` unless told
 * @returns code at the end of each hour; from the first unknown hour on all is NaN
 * Source and checks as `hourlyFineFuel`.
 */
export function hourlyFineFuelSeries(
  weather: HourlyFireWeather,
  start: number,
  scale = FINE_FUEL_SCALE_FULL,
): Float64Array {
  const { airTempC, relHumidity, windMs, rainMm } = weather
  const codes = new Float64Array(airTempC.length)
  let code = start
  for (let h = 0; h < codes.length; h++) {
    code = hourlyFineFuel(code, airTempC[h]!, relHumidity[h]!, windMs[h]!, rainMm[h]!, 1, scale)
    codes[h] = code
  }
  return codes
}
