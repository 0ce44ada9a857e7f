/**
 * Reference evapotranspiration: water that a well-watered short grass gives to the air.
 *
 * FAO-56: Allen R.G., Pereira L.S., Raes D., Smith M. 1998, Crop evapotranspiration, FAO Irrigation and Drainage
 * Paper 56, chapters 3 and 4.
 */

import type { Weather } from '#core/units/weather.ts'
import {
  clearSkyWm2,
  extraterrestrialMJPerDay,
  extraterrestrialWm2,
  netRadiationMJPerDay,
  netRadiationMJPerH,
  SOLAR_CONSTANT_WM2,
  solarFromTempRange,
} from './radiation.ts'
import {
  airPressureKPa,
  psychrometricConstantKPaPerC,
  saturationSlopeKPaPerC,
  saturationVapourPressureKPa,
  vapourPressureKPa,
} from './vapour.ts'

/** Evaporates one MJ/m2 of heat [mm/(MJ/m2)]. FAO-56 eq. 20. */
const MM_PER_MJ = 0.408
/** FAO-56 eq. 6 turns degrees into kelvin with this, eq. 39 with 273.16 [K]. */
const ZERO_CELSIUS_K = 273
/** Height at which `Weather` gives the wind [m]. */
const WEATHER_WIND_M = 10
/** Wind where none is measured [m/s]. FAO-56 chapter 3, mean of over 2000 stations. */
const UNMEASURED_WIND_MS = 2
/** Ground heat flux per net radiation, sun up and sun down [-]. FAO-56 eqs. 45 and 46. */
const SOIL_SHARE_DAY = 0.1
const SOIL_SHARE_NIGHT = 0.5
/**
 * Sun lower than this says little about cloud, so the clearness before is kept [-]: sine of 0.3 rad. ASCE-EWRI 2005
 * (from memory).
 */
const HIGH_SUN_SINE = Math.sin(0.3)
/** Clearness until the sun has stood high once. FAO-56 chapter 4: 0.4-0.6 in humid, 0.7-0.8 in arid regions. */
const UNSEEN_CLEARNESS = 0.6

/**
 * Wind at 2 m over grass.
 *
 * @param windMs wind at the given height [m/s], 0 or more.
 * @param heightM height of the measurement above ground [m], 0.5 to 100.
 * @returns [m/s].
 *
 * FAO-56 eq. 47. NaN outside the range.
 * Checked: FAO-56 examples 14 and 18 to the printed digit.
 */
export function windAt2m(windMs: number, heightM: number): number {
  if (!(windMs >= 0) || !(heightM >= 0.5 && heightM <= 100)) return Number.NaN
  return (windMs * 4.87) / Math.log(67.8 * heightM - 5.42) // FAO-56 eq. 47
}

export interface HourlyEtInput {
  /** Mean air temperature [deg C], -50 to 55. */
  readonly airTempC: number
  /** Relative humidity over liquid water [0-1]. */
  readonly relHumidity: number
  /** Mean wind at 2 m [m/s], 0 or more. */
  readonly wind2mMs: number
  /** Mean sunlight on the ground [W/m2], 0 or more. */
  readonly solarWm2: number
  /** Sunlight over clear-sky sunlight [0-1]; at night that of the last high sun. */
  readonly clearness: number
  /** Whether the hour is a day hour for the heat that goes into the ground. */
  readonly sunUp: boolean
  /** Air pressure [kPa]. */
  readonly pressureKPa: number
}

/**
 * Reference evapotranspiration of one hour.
 *
 * @param input weather of the hour, see `HourlyEtInput`.
 * @returns [mm/h]; slightly below zero on clear, still nights, when the grass gains water.
 *
 * FAO-56 eq. 53, ground heat eqs. 45 and 46. Not clamped. NaN where any input is not known or out of range.
 * Checked: FAO-56 example 19 (from memory): 0.627 for 0.63 and 0.004 for 0.00 mm.
 */
export function referenceEtMmPerH(input: HourlyEtInput): number {
  const saturatedKPa = saturationVapourPressureKPa(input.airTempC)
  const vapourKPa = vapourPressureKPa(input.airTempC, input.relHumidity)
  const netMJ = netRadiationMJPerH(input.airTempC, vapourKPa, input.solarWm2, input.clearness)
  const soilMJ = netMJ * (input.sunUp ? SOIL_SHARE_DAY : SOIL_SHARE_NIGHT) // FAO-56 eqs. 45, 46
  return penmanMonteith(input.airTempC, input.wind2mMs, netMJ - soilMJ, saturatedKPa - vapourKPa, input.pressureKPa, 37)
}

export interface DailyEtInput {
  readonly latDeg: number
  /** 1 to 366. */
  readonly dayOfYear: number
  readonly elevationM: number
  readonly tempMaxC: number
  readonly tempMinC: number
  /** Mean vapour pressure [kPa]. Left out: that of air saturated at the lowest temperature, FAO-56 eq. 48. */
  readonly vapourKPa?: number
  /** Sunlight on the ground [MJ/m2/d]. Left out: from the span of temperature, FAO-56 eq. 50 inland, at most a clear sky's. */
  readonly solarMJ?: number
  /** Mean wind at 2 m [m/s]. Left out: 2 m/s, FAO-56 chapter 3. */
  readonly wind2mMs?: number
  /** Heat into the ground [MJ/m2/d]. Left out: 0, FAO-56 eq. 42. */
  readonly soilMJ?: number
}

/**
 * Reference evapotranspiration of one day.
 *
 * @param input weather of the day, see `DailyEtInput`. A value left out is replaced by the FAO-56 procedure for missing
 *   data; a value given as NaN is "not known" and makes the result NaN.
 * @returns [mm/d].
 *
 * FAO-56 eq. 6. Not clamped. NaN where any input is not known or out of range.
 * Checked: FAO-56 examples 17, 18 and 20: 5.716 for 5.72, 3.880 for 3.88, 4.560 for 4.56 mm (20 recomputed, not printed).
 */
export function referenceEtMmPerDay(input: DailyEtInput): number {
  const { latDeg, dayOfYear, elevationM, tempMaxC, tempMinC } = input
  const aboveMJ = extraterrestrialMJPerDay(latDeg, dayOfYear)
  const lowestKPa = saturationVapourPressureKPa(tempMinC)
  const saturatedKPa = (saturationVapourPressureKPa(tempMaxC) + lowestKPa) / 2 // FAO-56 eq. 12
  const vapourKPa = input.vapourKPa ?? lowestKPa // FAO-56 eq. 48
  const clearSkyMJ = clearSkyWm2(aboveMJ, elevationM)
  const solarMJ = input.solarMJ ?? Math.min(clearSkyMJ, solarFromTempRange(aboveMJ, tempMaxC, tempMinC)) // FAO-56 eq. 50
  const netMJ = netRadiationMJPerDay(tempMaxC, tempMinC, vapourKPa, solarMJ, clearSkyMJ)
  return penmanMonteith(
    (tempMaxC + tempMinC) / 2,
    input.wind2mMs ?? UNMEASURED_WIND_MS,
    netMJ - (input.soilMJ ?? 0),
    saturatedKPa - vapourKPa,
    airPressureKPa(elevationM),
    900,
  )
}

/** FAO-56 eq. 6 with `aeroFactor` 900 (day) and eq. 53 with 37 (hour). @returns [mm per day or hour]. */
function penmanMonteith(
  airTempC: number,
  wind2mMs: number,
  energyMJ: number,
  deficitKPa: number,
  pressureKPa: number,
  aeroFactor: number,
): number {
  if (!(wind2mMs >= 0)) return Number.NaN
  const slope = saturationSlopeKPaPerC(airTempC)
  const gamma = psychrometricConstantKPaPerC(pressureKPa)
  const wind = ((gamma * aeroFactor) / (airTempC + ZERO_CELSIUS_K)) * wind2mMs * deficitKPa
  return (MM_PER_MJ * slope * energyMJ + wind) / (slope + gamma * (1 + 0.34 * wind2mMs))
}

/**
 * Reference evapotranspiration of one day from temperature alone.
 *
 * @param tempMaxC highest temperature of the day [deg C].
 * @param tempMinC lowest temperature of the day [deg C], not above the highest.
 * @param extraterrestrialMJ sunlight above the atmosphere [MJ/m2/d], 0 or more.
 * @returns [mm/d], 0 below a mean of -17.8 deg C.
 *
 * FAO-56 eq. 52 (Hargreaves G.H., Samani Z.A. 1985, Applied Engineering in Agriculture 1:96-99). NaN outside the range.
 * Checked: FAO-56 example 20 (from memory): 5.03 for 5.0 mm.
 */
export function hargreavesMmPerDay(tempMaxC: number, tempMinC: number, extraterrestrialMJ: number): number {
  if (!(extraterrestrialMJ >= 0) || !(tempMaxC >= tempMinC)) return Number.NaN
  const warmth = Math.max(0, (tempMaxC + tempMinC) / 2 + 17.8)
  return 0.0023 * warmth * Math.sqrt(tempMaxC - tempMinC) * MM_PER_MJ * extraterrestrialMJ // FAO-56 eq. 52
}

/**
 * Reference evapotranspiration of every hour and member of a weather series.
 *
 * @param weather hourly weather of one place; wind at 10 m is brought to 2 m.
 * @returns [mm/h], laid out as the weather (member * hours + hour); NaN where temperature, humidity, wind or sunlight
 *   is not known.
 *
 * `referenceEtMmPerH` hour by hour. Clearness is taken while the sun stands above 17 deg (0.3 rad) and kept through low
 * sun and night; 0.6 until then.
 * Checked: FAO-56 example 19; hours of example 18 add up to 3.71 mm where the day makes 3.88 (-4.4 %).
 */
export function hourlyReferenceEtMm(weather: Weather): Float32Array {
  const { place, hours, members, airTempC, relHumidity, windMs, solarWm2 } = weather
  const above = Float64Array.from({ length: hours }, (_, hour) =>
    extraterrestrialWm2(place.latDeg, place.lonDeg, weather.startEpochH + hour),
  )
  const pressureKPa = airPressureKPa(place.elevationM)
  const result = new Float32Array(members * hours)
  for (let member = 0; member < members; member++) {
    let clearness = UNSEEN_CLEARNESS
    for (let hour = 0; hour < hours; hour++) {
      const at = member * hours + hour
      const aboveWm2 = above[hour]!
      const solar = solarWm2[at]!
      if (aboveWm2 >= HIGH_SUN_SINE * SOLAR_CONSTANT_WM2 && solar >= 0) {
        clearness = solar / clearSkyWm2(aboveWm2, place.elevationM)
      }
      result[at] = referenceEtMmPerH({
        airTempC: airTempC[at]!,
        relHumidity: relHumidity[at]!,
        wind2mMs: windAt2m(windMs[at]!, WEATHER_WIND_M),
        solarWm2: solar,
        clearness,
        sunUp: aboveWm2 > 0,
        pressureKPa,
      })
    }
  }
  return result
}
