/**
 * Water vapour in the air: pressure, deficit, dew point, wet bulb.
 *
 * House form of the saturation curve is that of FAO-56 (Tetens), over liquid water at every temperature, because
 * weather services give relative humidity over liquid water below freezing as well. Over ice the curve lies lower
 * (17 % at -20 deg C), so frost forms somewhat above the dew point given here.
 *
 * FAO-56: Allen R.G., Pereira L.S., Raes D., Smith M. 1998, Crop evapotranspiration, FAO Irrigation and Drainage
 * Paper 56. ASHRAE: Handbook of Fundamentals 2017, chapter 1.
 */

/** Saturation vapour pressure at 0 deg C [kPa]. FAO-56 eq. 11. */
const TETENS_E0_KPA = 0.6108
/** FAO-56 eq. 11 [-]. */
const TETENS_A = 17.27
/** FAO-56 eq. 11 [deg C]. */
const TETENS_B_C = 237.3
/** Beyond +-100 deg C no air temperature is believed; catches kelvin given for celsius. */
const TEMP_LIMIT_C = 100
/** Drier air is read as this dry where a dew point must stay finite [0-1]. */
const DRIEST_REL_HUMIDITY = 0.001
/** Mass of water vapour per mass of dry air at equal pressure [-]. ASHRAE 2017 ch. 1 eq. 20. */
const VAPOUR_MASS_RATIO = 0.621945
/** FAO-56 eq. 8 [1/deg C]. */
const PSYCHROMETRIC_PER_C = 0.665e-3
/** Land lies between these [m]; a height outside is not believed. */
export const LOWEST_LAND_M = -500
export const HIGHEST_LAND_M = 9000
/** Newton steps to the wet bulb: at most 8 are needed from -50 to 55 deg C and 50 to 110 kPa. */
const WET_BULB_STEPS = 20
const WET_BULB_TOLERANCE_C = 1e-7

const isTemp = (tempC: number): boolean => Math.abs(tempC) <= TEMP_LIMIT_C
const isShare = (share: number): boolean => share >= 0 && share <= 1

/**
 * Saturation vapour pressure over liquid water.
 *
 * @param airTempC air temperature [deg C], -100 to 100; used from -50 to 55.
 * @returns [kPa].
 *
 * FAO-56 eq. 11 (Tetens). NaN outside the range.
 * Checked: tests/truth/psychrometrics.ts. FAO-56 examples to the printed digit; ASHRAE table 3 and psychrolib over water
 * within 0.12 % from 0.5 to 55 deg C; over supercooled water 0.7 % low at -20, 2.6 % at -40, 4.4 % at -50 deg C (that
 * table from memory).
 */
export function saturationVapourPressureKPa(airTempC: number): number {
  if (!isTemp(airTempC)) return Number.NaN
  return TETENS_E0_KPA * Math.exp((TETENS_A * airTempC) / (airTempC + TETENS_B_C)) // FAO-56 eq. 11
}

/**
 * Vapour pressure of the air.
 *
 * @param airTempC air temperature [deg C], -100 to 100.
 * @param relHumidity relative humidity over liquid water [0-1].
 * @returns [kPa].
 *
 * FAO-56 eq. 10 turned round. NaN outside the range.
 * Checked: FAO-56 example 5 to the printed digit.
 */
export function vapourPressureKPa(airTempC: number, relHumidity: number): number {
  return isShare(relHumidity) ? relHumidity * saturationVapourPressureKPa(airTempC) : Number.NaN
}

/**
 * How much vapour pressure the air lacks to be saturated.
 *
 * @param airTempC air temperature [deg C], -100 to 100.
 * @param relHumidity relative humidity over liquid water [0-1].
 * @returns [kPa], 0 in saturated air.
 *
 * FAO-56 chapter 3, es - ea at one temperature. NaN outside the range.
 * Checked: FAO-56 example 19 (from memory) to the printed digit.
 */
export function vapourPressureDeficitKPa(airTempC: number, relHumidity: number): number {
  return isShare(relHumidity) ? (1 - relHumidity) * saturationVapourPressureKPa(airTempC) : Number.NaN
}

/**
 * Dew point: the temperature at which this air is saturated over liquid water.
 *
 * @param airTempC air temperature [deg C], -50 to 55.
 * @param relHumidity relative humidity over liquid water [0-1].
 * @returns [deg C], never above the air temperature.
 *
 * Inverse of FAO-56 eq. 11. Relative humidity below 0.001 is read as 0.001, so that bone-dry air has a finite dew
 * point. NaN outside the range.
 * Checked: psychrolib where the dew point is above freezing, within 0.02 deg C.
 */
export function dewPointC(airTempC: number, relHumidity: number): number {
  if (!isTemp(airTempC) || !isShare(relHumidity)) return Number.NaN
  const logRatio =
    Math.log(Math.max(relHumidity, DRIEST_REL_HUMIDITY)) + (TETENS_A * airTempC) / (airTempC + TETENS_B_C)
  return Math.min(airTempC, (TETENS_B_C * logRatio) / (TETENS_A - logRatio))
}

/**
 * Relative humidity over liquid water from the dew point.
 *
 * @param airTempC air temperature [deg C], -100 to 100.
 * @param dewPointTempC dew point over liquid water [deg C], -100 to 100.
 * @returns [0-1].
 *
 * FAO-56 eqs. 10 and 14. A dew point above the air temperature (rounded reports) gives 1. NaN outside the range.
 * Checked: psychrolib where the dew point is above freezing, within 0.0015.
 */
export function relHumidityFromDewPoint(airTempC: number, dewPointTempC: number): number {
  return Math.min(1, saturationVapourPressureKPa(dewPointTempC) / saturationVapourPressureKPa(airTempC))
}

/**
 * Slope of the saturation curve.
 *
 * @param airTempC air temperature [deg C], -100 to 100.
 * @returns [kPa/deg C].
 *
 * FAO-56 eq. 13. NaN outside the range.
 * Checked: FAO-56 examples 17 to 19 to the printed digit.
 */
export function saturationSlopeKPaPerC(airTempC: number): number {
  return (TETENS_A * TETENS_B_C * saturationVapourPressureKPa(airTempC)) / (airTempC + TETENS_B_C) ** 2 // FAO-56 eq. 13
}

/**
 * Mean air pressure at a height above the sea.
 *
 * @param elevationM height above the sea [m], -500 to 9000.
 * @returns [kPa].
 *
 * FAO-56 eq. 7, for air of 20 deg C at sea level; the weather's own swing (about +-3 kPa) is left out. NaN outside
 * the range.
 * Checked: FAO-56 examples 2, 4 and 18 to the printed digit; ASHRAE standard atmosphere (15 deg C) within 0.85 %, worst
 * at 4000 m.
 */
export function airPressureKPa(elevationM: number): number {
  if (!(elevationM >= LOWEST_LAND_M && elevationM <= HIGHEST_LAND_M)) return Number.NaN
  return 101.3 * ((293 - 0.0065 * elevationM) / 293) ** 5.26 // FAO-56 eq. 7
}

/**
 * Psychrometric constant.
 *
 * @param pressureKPa air pressure [kPa], above 0.
 * @returns [kPa/deg C].
 *
 * FAO-56 eq. 8. NaN outside the range.
 * Checked: FAO-56 examples 2 and 18 to the printed digit.
 */
export function psychrometricConstantKPaPerC(pressureKPa: number): number {
  return pressureKPa > 0 ? PSYCHROMETRIC_PER_C * pressureKPa : Number.NaN // FAO-56 eq. 8
}

/** @returns water per dry air in saturated air [kg/kg]. ASHRAE 2017 ch. 1 eq. 20. */
const vapourPerAir = (vapourKPa: number, pressureKPa: number): number =>
  (VAPOUR_MASS_RATIO * vapourKPa) / (pressureKPa - vapourKPa)

/**
 * Thermodynamic wet bulb over liquid water, below freezing as well (a wet, not an iced, wick).
 *
 * @param airTempC air temperature [deg C], -50 to 55.
 * @param relHumidity relative humidity over liquid water [0-1].
 * @param pressureKPa air pressure [kPa]; must exceed the saturation vapour pressure.
 * @returns [deg C], between the dew point and the air temperature.
 *
 * ASHRAE 2017 ch. 1 eq. 33 with the house saturation curve, solved by Newton steps from the air temperature down: the
 * heat balance is rising and convex in the wet bulb, so they cannot overshoot. NaN outside the range.
 * Checked: psychrolib above freezing, within 0.01 deg C at 70 to 101 kPa; ASHRAE example 1; FAO-56 example 4 (a ventilated
 * psychrometer, 0.05 deg C above this). Below freezing within 0.5 deg C of psychrolib, which has ice on the wick.
 */
export function wetBulbC(airTempC: number, relHumidity: number, pressureKPa: number): number {
  const saturatedKPa = saturationVapourPressureKPa(airTempC)
  if (!isShare(relHumidity) || !(pressureKPa > saturatedKPa)) return Number.NaN
  const water = vapourPerAir(relHumidity * saturatedKPa, pressureKPa)
  let wetC = airTempC
  for (let step = 0; step < WET_BULB_STEPS; step++) {
    const wetKPa = saturationVapourPressureKPa(wetC)
    const wetWater = vapourPerAir(wetKPa, pressureKPa)
    const wetWaterSlope = (VAPOUR_MASS_RATIO * pressureKPa * saturationSlopeKPaPerC(wetC)) / (pressureKPa - wetKPa) ** 2
    const latent = 2501 - 2.326 * wetC
    const imbalance = latent * wetWater - 1.006 * (airTempC - wetC) - water * (2501 + 1.86 * airTempC - 4.186 * wetC) // eq. 33
    const change = imbalance / (latent * wetWaterSlope - 2.326 * wetWater + 1.006 + 4.186 * water)
    wetC -= change
    if (Math.abs(change) < WET_BULB_TOLERANCE_C) break
  }
  return Math.min(wetC, airTempC)
}
