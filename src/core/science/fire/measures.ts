/**
 * Measures of fire weather at one place and hour: hot-dry-windy, moisture that fine wood comes to, Fosberg's index.
 */

import { vapourPressureDeficitKPa } from '#core/science/air/vapour.ts'
import { fahrenheitFromCelsius, MS_PER_MPH } from '#core/units/convert.ts'
import { humidityPercent, notNegative, possibleTempC } from './inputs.ts'

const HPA_PER_KPA = 10
/** Moisture at which Fosberg's damping reaches nothing [% of dry mass]. */
const EXTINCTION_DB = 30
/** Fosberg's scale: 30 mph on bone-dry fuel is 100. */
const FOSBERG_SCALE = 0.3002
const FOSBERG_TOP = 100
/** Wind at 6.1 m (20 ft), where US fire weather measures it, per wind at 10 m (Lindley et al. 2011, via NWS). */
export const WIND_20FT_PER_10M = 0.886

/**
 * Hot-dry-windy measure at the ground.
 * @param airTempC air temperature at 2 m [deg C], -90 to 65
 * @param relHumidity relative humidity at 2 m [0-1]
 * @param windMs wind at 10 m [m/s], 0 and up
 * @returns wind times vapour pressure deficit [hPa m/s], 0 and up; NaN where an input is unknown or impossible
 * After Srock A.F. et al. 2018, Atmosphere 9(7):279, doi:10.3390/atmos9070279, who take the highest wind and deficit of
 * the lowest 500 m: this is a lower bound of theirs. No fixed limit exists; compare with the place's own past.
 * Checked in tests/truth/fire-measures.ts (regression rows).
 */
export const hotDryWindy = (airTempC: number, relHumidity: number, windMs: number): number =>
  HPA_PER_KPA *
  vapourPressureDeficitKPa(possibleTempC(airTempC), humidityPercent(relHumidity) / 100) *
  notNegative(windMs)

/**
 * Moisture that thin dead wood comes to in steady air.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @returns moisture [% of dry mass], 0 and up; NaN where an input is unknown or impossible
 * Simard's fit as used by the US National Fire Danger Rating System: Cohen J.D., Deeming J.E. 1985, PSW-82, eqs 1a-1c.
 * Three pieces: small steps at 10 and 50 %. Checked in tests/truth/fire-measures.ts (regression rows).
 */
export function woodEquilibriumDb(airTempC: number, relHumidity: number): number {
  const temp = fahrenheitFromCelsius(possibleTempC(airTempC))
  const h = humidityPercent(relHumidity)
  if (h < 10) return Math.max(0, 0.03229 + 0.281073 * h - 0.000578 * h * temp) // 1a
  if (h < 50) return Math.max(0, 2.22749 + 0.160107 * h - 0.014784 * temp) // 1b
  return Math.max(0, 21.0606 + 0.005565 * h * h - 0.00035 * h * temp - 0.483199 * h) // 1c
}

/**
 * Fosberg's damping of fire by moisture.
 * @param moistureDb moisture of fine dead fuel [% of dry mass], 0 and up; above 30 counts as 30
 * @returns share, 1 (bone dry) to 0; NaN where unknown
 * Fosberg 1978. Checked in tests/truth/fire-measures.ts (regression rows).
 */
export function fosbergDamping(moistureDb: number): number {
  const x = Math.min(1, notNegative(moistureDb) / EXTINCTION_DB)
  return 1 - 2 * x + 1.5 * x ** 2 - 0.5 * x ** 3
}

/**
 * Fosberg fire weather index.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @param windMs wind [m/s], 0 and up; meant at 6.1 m, that is `WIND_20FT_PER_10M` of the wind at 10 m
 * @returns index, 0-100; 50 and more is called significant nationally (NOAA); NaN where an input is unknown
 * Fosberg 1978. Checked in tests/truth/fire-measures.ts (regression rows).
 */
export function fosbergIndex(airTempC: number, relHumidity: number, windMs: number): number {
  const mph = notNegative(windMs) / MS_PER_MPH
  const damping = fosbergDamping(woodEquilibriumDb(airTempC, relHumidity))
  return Math.min(FOSBERG_TOP, (damping * Math.sqrt(1 + mph * mph)) / FOSBERG_SCALE)
}
