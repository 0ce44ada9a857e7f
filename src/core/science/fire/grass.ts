/**
 * Grassland fire danger: the Australian meters Mark 3, 4 and 5 as equations, and the wind at which an index is met.
 *
 * Mark 3 and 5: Noble I.R., Bary G.A.V., Gill A.M. 1980, Aust. J. Ecol. 5:201-203,
 * doi:10.1111/j.1442-9993.1980.tb01243.x. Mark 4: Purton C.M. 1982, Bureau of Meteorology, Meteorological Note 147.
 * The indices have no unit: 1 hardly burns, 100 was the worst known when the meters were made; no upper limit here.
 */
import { MS_PER_KMH } from '#core/units/convert.ts'
import { humidityPercent, possibleTempC, windKmh } from './inputs.ts'

/** Fuel of the standard pasture, and of the harvest code's table [t/ha]. */
export const STANDARD_FUEL_T_HA = 4.5
/**
 * Index at which grain harvest stops under the South Australian Grain Harvesting Code of Practice and the Victorian
 * voluntary guide: Mark 4 at 4.5 t/ha, fully cured, measured on the spot. Other places use other figures, and the
 * figure has been under review since 2022: a farm sets its own.
 */
export const HARVEST_CODE_STOP_INDEX = 35
/** Spread per index point on level ground [m/s], 0.13 km/h (McArthur 1966, from memory; near the code's table). */
const SPREAD_MS_PER_INDEX = 0.13 * MS_PER_KMH

/** Share of the grass that is dead, in percent. */
const curingPercent = (curedShare: number): number =>
  curedShare >= 0 && curedShare <= 1 ? 100 * curedShare : Number.NaN
const fuelTHa = (value: number): number => (value > 0 ? value : Number.NaN)

/**
 * Grassland fire danger index, Mark 3.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @param windMs mean wind of 10 minutes at 10 m [m/s], 0 and up
 * @param curedShare share of the grass that is dead [0-1], 1 unless told
 * @returns index, 0 and up; NaN where an input is unknown or impossible
 * Noble et al. 1980 (coefficients seen second-hand, there without the factor 2). Checked in tests/truth/grass-fire.ts (regression rows).
 */
export function grassIndexMark3(airTempC: number, relHumidity: number, windMs: number, curedShare = 1): number {
  const humidity = humidityPercent(relHumidity)
  const cured = 5.01 * Math.log(curingPercent(curedShare))
  const air = 0.0281 * possibleTempC(airTempC) - 0.226 * Math.sqrt(humidity)
  return 2 * Math.exp(-23.6 + cured + air + 0.633 * Math.sqrt(windKmh(windMs)))
}

/** Common logarithm of the Mark 4 index without wind. */
function calmLogMark4(airTempC: number, relHumidity: number, fuel: number, curedShare: number): number {
  const cured = -0.004096 * (100 - curingPercent(curedShare)) ** 1.536
  const air = 0.01201 * possibleTempC(airTempC) - 0.09577 * Math.sqrt(humidityPercent(relHumidity))
  return -0.6615 + 1.027 * Math.log10(fuelTHa(fuel)) + cured + air
}
const MARK4_WIND = 0.2789

/**
 * Common logarithm of the Mark 4 index: enough, and cheaper, where it is only held against a limit.
 * @returns log10 of the index; inputs, source and checks as `grassIndexMark4`
 */
export const logGrassIndexMark4 = (
  airTempC: number,
  relHumidity: number,
  windMs: number,
  curedShare = 1,
  fuel = STANDARD_FUEL_T_HA,
): number => calmLogMark4(airTempC, relHumidity, fuel, curedShare) + MARK4_WIND * Math.sqrt(windKmh(windMs))

/**
 * Grassland fire danger index, Mark 4: the one behind the grain harvest stop.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @param windMs mean wind of 10 minutes at 10 m [m/s], 0 and up
 * @param curedShare share of the grass that is dead [0-1], 1 unless told: a ripe crop
 * @param fuel dry fuel [t/ha], above 0; 4.5 unless told
 * @returns index, 0 and up; NaN where an input is unknown or impossible
 * Purton 1982 (coefficients from memory; the published stop table's cell 35 deg C, 10 % -> 26 km/h comes out).
 * Checked in tests/truth/grass-fire.ts.
 */
export const grassIndexMark4 = (
  airTempC: number,
  relHumidity: number,
  windMs: number,
  curedShare = 1,
  fuel = STANDARD_FUEL_T_HA,
): number => 10 ** logGrassIndexMark4(airTempC, relHumidity, windMs, curedShare, fuel)

/**
 * Wind at which the Mark 4 index reaches a value, for example the stop of the grain harvest code.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]; the printed table of the code rounds down to its column
 * @param index value to reach, above 0; 35 unless told
 * @param curedShare share of the grass that is dead [0-1], 1 unless told
 * @param fuel dry fuel [t/ha], above 0; 4.5 unless told
 * @returns mean wind at 10 m [m/s]; 0 where calm air is enough; NaN where an input is unknown or impossible
 * Purton 1982 solved for wind. Checked in tests/truth/grass-fire.ts: one published cell, 63 regression cells.
 */
export function criticalWindMs(
  airTempC: number,
  relHumidity: number,
  index = HARVEST_CODE_STOP_INDEX,
  curedShare = 1,
  fuel = STANDARD_FUEL_T_HA,
): number {
  if (!(index > 0)) return Number.NaN
  const missing = Math.log10(index) - calmLogMark4(airTempC, relHumidity, fuel, curedShare)
  return Math.max(0, missing / MARK4_WIND) ** 2 * MS_PER_KMH
}

/**
 * Moisture of the grass in the Mark 5 meter.
 * @param airTempC air temperature [deg C], -5 to 65: below, the equation leaves its ground
 * @param relHumidity relative humidity [0-1]
 * @param curedShare share of the grass that is dead [0-1], above 0
 * @returns moisture [% of dry mass], 0 and up; NaN where an input is unknown or impossible
 * Noble et al. 1980. Checked in tests/truth/grass-fire.ts (regression rows).
 */
export function grassMoistureMark5(airTempC: number, relHumidity: number, curedShare = 1): number {
  const temp = airTempC >= -5 ? possibleTempC(airTempC) : Number.NaN
  const humidity = humidityPercent(relHumidity)
  const moisture = (97.7 + 4.06 * humidity) / (temp + 6) - 0.00854 * humidity + 3000 / curingPercent(curedShare) - 30
  return Math.max(0, moisture)
}

/**
 * Grassland fire danger index, Mark 5.
 * @param airTempC air temperature [deg C], -5 to 65
 * @param relHumidity relative humidity [0-1]
 * @param windMs mean wind of 10 minutes at 10 m [m/s], 0 and up
 * @param curedShare share of the grass that is dead [0-1], 1 unless told
 * @param fuel dry fuel [t/ha], above 0; 4.5 unless told
 * @returns index, 0 and up; 0 above 30 % moisture; NaN where an input is unknown or impossible
 * Noble et al. 1980. Checked in tests/truth/grass-fire.ts (regression rows).
 */
export function grassIndexMark5(
  airTempC: number,
  relHumidity: number,
  windMs: number,
  curedShare = 1,
  fuel = STANDARD_FUEL_T_HA,
): number {
  const moisture = grassMoistureMark5(airTempC, relHumidity, curedShare)
  const wind = 0.0403 * windKmh(windMs)
  const load = fuelTHa(fuel)
  if (moisture < 18.8) return 3.35 * load * Math.exp(-0.0897 * moisture + wind)
  return 0.299 * load * Math.exp(-1.686 + wind) * Math.max(0, 30 - moisture)
}

/**
 * Speed of a grass fire on level ground from an index.
 * @param index grassland fire danger index, 0 and up
 * @returns speed of the front [m/s]; NaN where the index is unknown
 * McArthur: 0.13 km/h per point. Checked in tests/truth/grass-fire.ts against the six values of the South Australian
 * table: max error 0.1 km/h (6.5 for the printed 6.4 at index 50).
 */
export const grassSpreadMs = (index: number): number => (index >= 0 ? SPREAD_MS_PER_INDEX * index : Number.NaN)
