/**
 * How much heat the ripe crop takes from the sun and loses to the sky, from hourly sunlight, temperature and humidity.
 * The weather value carries no cloud cover: it is read from how much of the clear-sky sunlight arrives, and carried
 * through the night from the last and the next daylight.
 */
import { vapourPressureKPa } from '#core/science/air/vapour.ts'

/** Stefan-Boltzmann constant [W/(m2 K4)], CODATA. */
const STEFAN_BOLTZMANN = 5.670374e-8
const KELVIN_AT_0C = 273.15
/** Share of sunlight reflected by a crop: FAO-56 reference value. */
const ALBEDO = 0.23
/** Longwave emissivity of plant surfaces [-], common practice. */
const PLANT_EMISSIVITY = 0.97
/** Clear-sky sunlight from which cloud can be read, the sun about 10 degrees up [W/m2]. Choice, no source. */
const BRIGHT_ENOUGH_WM2 = 180
/** Clearness taken when a series shows no usable daylight: FAO-56 chapter 3, humid nights 0.4-0.6, dry 0.7-0.8. */
const CLEARNESS_WITHOUT_DAYLIGHT = 0.7

/**
 * Fills one member's clearness of the sky, hour by hour: measured in daylight, drawn straight between the last and
 * the next daylight through the night, held at the ends of the series, 0.7 if there is no daylight at all.
 *
 * @param solarWm2 global radiation, all members [W/m2]
 * @param base first index of the member in `solarWm2`
 * @param clearSky clear-sky radiation per hour of the series [W/m2]
 * @param out receives clearness per hour [0-1]; 1 is cloudless
 *
 * FAO-56 (Allen et al. 1998, chapter 3, hourly) takes the ratio before sunset for the night; here the next morning's is
 * used as well.
 */
export function fillClearness(solarWm2: Float32Array, base: number, clearSky: Float32Array, out: Float32Array): void {
  let last = -1
  for (let h = 0; h < out.length; h++) {
    const full = clearSky[h]!
    const ratio = full >= BRIGHT_ENOUGH_WM2 ? solarWm2[base + h]! / full : Number.NaN
    if (!(ratio >= 0)) continue
    out[h] = Math.min(ratio, 1)
    const from = last < 0 ? out[h]! : out[last]!
    const span = h - last
    for (let k = last + 1; k < h; k++) out[k] = from + ((out[h]! - from) * (k - last)) / span
    last = h
  }
  out.fill(last < 0 ? CLEARNESS_WITHOUT_DAYLIGHT : out[last]!, last + 1)
}

/**
 * Emissivity of the sky.
 *
 * @param airTempC air temperature [deg C], -50..55
 * @param relHumidity relative humidity [0-1]
 * @param clearness share of the clear-sky sunlight that arrives [0-1]
 * @returns emissivity [0-1], clamped at 1
 *
 * Clear part: Brutsaert 1975 (Water Resour. Res. 11:742-744, doi:10.1029/WR011i005p00742) eq. 11,
 * 1.24 (e/T)^(1/7), e in hPa, T in K. Cloud part: Crawford & Duchon 1999 (J. Appl. Meteorol. 38:474-480) with cloud
 * fraction 1 - clearness. Both forms from memory.
 */
export function skyEmissivity(airTempC: number, relHumidity: number, clearness: number): number {
  const vapourHPa = 10 * vapourPressureKPa(airTempC, relHumidity)
  const clear = 1.24 * (vapourHPa / (airTempC + KELVIN_AT_0C)) ** (1 / 7)
  return Math.min(1, 1 - clearness + clearness * clear)
}

/**
 * Net radiation of a level plant surface that is as warm as the air (isothermal net radiation).
 *
 * @param airTempC air temperature [deg C], -50..55
 * @param relHumidity relative humidity [0-1]
 * @param solarWm2 global radiation [W/m2], 0..1500
 * @param clearness share of the clear-sky sunlight that arrives [0-1]
 * @returns net radiation, positive into the surface [W/m2]
 *
 * (1 - albedo) S + e (sky emissivity - 1) sigma T^4. Checked against the net longwave of FAO-56 example 19
 * (tests/truth/dew.ts): ours loses a fifth more than the FAO-56 form in both hours.
 */
export function isothermalNetRadiationWm2(
  airTempC: number,
  relHumidity: number,
  solarWm2: number,
  clearness: number,
): number {
  const sky = skyEmissivity(airTempC, relHumidity, clearness)
  return (1 - ALBEDO) * solarWm2 + PLANT_EMISSIVITY * (sky - 1) * STEFAN_BOLTZMANN * (airTempC + KELVIN_AT_0C) ** 4
}

/**
 * Heat a plant surface stops losing to the sky per degree that it is cooler than the air.
 *
 * @param airTempC air temperature [deg C], -50..55
 * @returns radiative conductance, 4 e sigma T^3 [W/(m2 K)] (Monteith & Unsworth, Principles of Environmental Physics)
 */
export function radiativeConductanceWm2K(airTempC: number): number {
  return 4 * PLANT_EMISSIVITY * STEFAN_BOLTZMANN * (airTempC + KELVIN_AT_0C) ** 3
}
