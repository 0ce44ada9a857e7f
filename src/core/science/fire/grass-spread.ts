/**
 * Moisture and speed of fire in cured grass after the Australian grassland experiments.
 *
 * Cheney N.P., Gould J.S., Catchpole W.R. 1998, Int. J. Wildland Fire 8:1-13; curing: Cruz M.G. et al. 2015, Int. J.
 * Wildland Fire 24:838-848. Moisture and its damping are confirmed in public copies; spread coefficients and the
 * curing function are from memory.
 */
import { MS_PER_KMH } from '#core/units/convert.ts'
import { humidityPercent, possibleTempC, windKmh } from './inputs.ts'

/** `natural`: standing, undisturbed. `grazed`: short or cut. */
export type GrassState = 'natural' | 'grazed'

/** Coefficients of the spread equation: base and slope below 5 km/h, base and slope above it [km/h]. */
const SPREAD: { readonly [S in GrassState]: readonly [number, number, number, number] } = {
  natural: [0.054, 0.269, 1.4, 0.838],
  grazed: [0.054, 0.209, 1.1, 0.715],
}
/** Wind at which the fire begins to run with it [km/h]. */
const RUN_WIND_KMH = 5

/**
 * Moisture of dead standing grass.
 * @param airTempC air temperature [deg C], -90 to 65
 * @param relHumidity relative humidity [0-1]
 * @param floorDb lowest value to give [% of dry mass], 0 unless told; the Australian rating system uses 5
 * @returns moisture [% of dry mass]; NaN where an input is unknown or impossible
 * Cheney et al. 1998 after McArthur. Checked in tests/truth/grass-fire.ts (regression rows).
 */
export const deadGrassMoistureDb = (airTempC: number, relHumidity: number, floorDb = 0): number =>
  Math.max(floorDb, 9.58 - 0.205 * possibleTempC(airTempC) + 0.138 * humidityPercent(relHumidity))

/**
 * How far moisture slows a grass fire.
 * @param moistureDb moisture of dead grass [% of dry mass], 0 and up
 * @param windMs wind at 10 m [m/s], 0 and up
 * @returns share of the dry speed, 0-1; NaN where an input is unknown
 * Cheney et al. 1998; two straight lines above 12 % with a change at 10 km/h, so there is a small step at 10 km/h.
 */
export function grassMoistureDamping(moistureDb: number, windMs: number): number {
  const kmh = windKmh(windMs)
  if (!(moistureDb >= 0) || Number.isNaN(kmh)) return Number.NaN
  if (moistureDb < 12) return Math.exp(-0.108 * moistureDb)
  return Math.max(0, kmh <= 10 ? 0.684 - 0.0342 * moistureDb : 0.547 - 0.0228 * moistureDb)
}

/**
 * How far green grass slows a grass fire.
 * @param curedShare share of the grass that is dead [0-1]
 * @returns share of the speed in fully cured grass, 0-1; NaN where unknown
 * Cruz et al. 2015, from memory.
 */
export const grassCuringDamping = (curedShare: number): number =>
  curedShare >= 0 && curedShare <= 1
    ? Math.min(1, 1.036 / (1 + 103.99 * Math.exp(-0.0996 * (100 * curedShare - 20))))
    : Number.NaN

/**
 * Speed of the front of a grass fire on level ground.
 * @param moistureDb moisture of dead grass [% of dry mass], 0 and up
 * @param windMs wind at 10 m [m/s], 0 and up
 * @param curedShare share of the grass that is dead [0-1], 1 unless told
 * @param state natural or grazed; standing crop and stubble were not measured
 * @returns speed [m/s]; NaN where an input is unknown or impossible
 * Cheney et al. 1998. Checked in tests/truth/grass-fire.ts (regression rows).
 */
export function cheneySpreadMs(
  moistureDb: number,
  windMs: number,
  curedShare = 1,
  state: GrassState = 'natural',
): number {
  const kmh = windKmh(windMs)
  const [base, slope, runBase, runSlope] = SPREAD[state]
  const dry = kmh <= RUN_WIND_KMH ? base + slope * kmh : runBase + runSlope * Math.max(0, kmh - RUN_WIND_KMH) ** 0.844
  return dry * grassMoistureDamping(moistureDb, windMs) * grassCuringDamping(curedShare) * MS_PER_KMH
}
