/**
 * Sunlight and net radiation on level ground after FAO-56, chapter 3 (Allen R.G., Pereira L.S., Raes D., Smith M.
 * 1998, FAO Irrigation and Drainage Paper 56).
 *
 * Hourly sunlight is in W/m2, as in `Weather`; daily sums are in MJ/m2, as FAO-56 prints them.
 */

import { HOURS_PER_DAY } from '#core/units/time.ts'
import { HIGHEST_LAND_M, LOWEST_LAND_M } from './vapour.ts'

/** Solar constant [MJ/m2/min]. FAO-56 eq. 21. */
const SOLAR_CONSTANT_MJ_PER_MIN = 0.082
const MIN_PER_DAY = 1440
/** Sunlight of one W/m2 for one hour [MJ/m2]. */
export const MJ_PER_WM2_HOUR = 0.0036
/** Sunlight above the atmosphere on a plane that faces it [W/m2]. FAO-56 eq. 21. */
export const SOLAR_CONSTANT_WM2 = (SOLAR_CONSTANT_MJ_PER_MIN * 60) / MJ_PER_WM2_HOUR
/** Turn of the earth in an hour [rad]. */
const RAD_PER_HOUR = Math.PI / 12
const RAD_PER_DEG = Math.PI / 180
const DEG_PER_HOUR = 15
/** Share of sunlight that the reference grass throws back [0-1]. FAO-56 eq. 38. */
const GRASS_ALBEDO = 0.23
/** Stefan-Boltzmann constant [MJ/K4/m2/d]. FAO-56 eq. 39. */
const STEFAN_BOLTZMANN_MJ_PER_DAY = 4.903e-9
/** FAO-56 chapter 3 takes 0 deg C as this [K]. */
const ZERO_CELSIUS_K = 273.16
/** Least Rs/Rso believed in the cloud term; keeps it above zero. ASCE-EWRI 2005, from memory. */
const LEAST_CLEARNESS = 0.3

const EPOCH = Temporal.PlainDate.from('1970-01-01')

const isLatitude = (latDeg: number): boolean => Math.abs(latDeg) <= 90

/**
 * Tilt of the sun's path on a day.
 *
 * @param dayOfYear 1 to 366.
 * @returns solar declination [rad], positive in the northern summer.
 *
 * FAO-56 eq. 24. NaN in, NaN out.
 * Checked: FAO-56 example 8 to the printed digit. Against Meeus example 25.a it is 1.5 deg too far south in mid October:
 * the form crosses the equator 1 day late in March and 2 days early in September.
 */
export const solarDeclinationRad = (dayOfYear: number): number =>
  0.409 * Math.sin(((2 * Math.PI) / 365) * dayOfYear - 1.39) // FAO-56 eq. 24

/**
 * Strength of sunlight on a day relative to the yearly mean, from the distance to the sun.
 *
 * @param dayOfYear 1 to 366.
 * @returns inverse relative distance earth-sun [-], 0.967 to 1.033.
 *
 * FAO-56 eq. 23. NaN in, NaN out.
 * Checked: FAO-56 example 8 to the printed digit.
 */
export const inverseSunDistance = (dayOfYear: number): number => 1 + 0.033 * Math.cos(((2 * Math.PI) / 365) * dayOfYear) // FAO-56 eq. 23

/**
 * Hour angle at sunset.
 *
 * @param latDeg latitude [deg], -90 to 90.
 * @param dayOfYear 1 to 366.
 * @returns [rad]: 0 in polar night, pi in polar day.
 *
 * FAO-56 eq. 25, for the centre of the sun without refraction. NaN outside the range.
 * Checked: FAO-56 example 8 to the printed digit.
 */
export function sunsetHourAngleRad(latDeg: number, dayOfYear: number): number {
  if (!isLatitude(latDeg)) return Number.NaN
  const cosine = -Math.tan(latDeg * RAD_PER_DEG) * Math.tan(solarDeclinationRad(dayOfYear))
  return Math.acos(Math.min(1, Math.max(-1, cosine))) // FAO-56 eq. 25
}

/**
 * Seasonal shift of solar time against clock time.
 *
 * @param dayOfYear 1 to 366.
 * @returns [h], -0.25 to 0.28.
 *
 * FAO-56 eqs. 32 and 33. NaN in, NaN out.
 * Checked: Meeus example 28.b within 1.1 min; example 19 through the hourly sunlight.
 */
export function seasonalCorrectionH(dayOfYear: number): number {
  const b = (2 * Math.PI * (dayOfYear - 81)) / 364 // FAO-56 eq. 33
  return 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b) // FAO-56 eq. 32
}

/**
 * Length of the day.
 *
 * @param latDeg latitude [deg], -90 to 90.
 * @param dayOfYear 1 to 366.
 * @returns [h], 0 in polar night, 24 in polar day.
 *
 * FAO-56 eq. 34. NaN outside the range.
 * Checked: FAO-56 examples 9, 10 and 18 to the printed digit. For sunrise and sunset proper see `sun/daylight.ts`.
 */
export const daylightHours = (latDeg: number, dayOfYear: number): number =>
  (HOURS_PER_DAY / Math.PI) * sunsetHourAngleRad(latDeg, dayOfYear) // FAO-56 eq. 34

/** Integral of the sine of the sun's height from one hour angle to the other [rad]. Bracket of FAO-56 eq. 28. */
function heightIntegral(latDeg: number, dayOfYear: number, fromRad: number, toRad: number): number {
  const lat = latDeg * RAD_PER_DEG
  const tilt = solarDeclinationRad(dayOfYear)
  return (
    (toRad - fromRad) * Math.sin(lat) * Math.sin(tilt) +
    Math.cos(lat) * Math.cos(tilt) * (Math.sin(toRad) - Math.sin(fromRad))
  )
}

/**
 * Sunlight above the atmosphere on level ground, sum of a day.
 *
 * @param latDeg latitude [deg], -90 to 90.
 * @param dayOfYear 1 to 366.
 * @returns [MJ/m2/d], 0 in polar night.
 *
 * FAO-56 eq. 21. NaN outside the range.
 * Checked: FAO-56 examples 8, 10, 17, 18 and 20 to the printed digit. Against the sun heights of suncalc it is 3 to 4 %
 * low at 40 deg N in October and November, within 1 % from April to August (see `solarDeclinationRad`).
 */
export function extraterrestrialMJPerDay(latDeg: number, dayOfYear: number): number {
  const sunset = sunsetHourAngleRad(latDeg, dayOfYear)
  const sunlight = heightIntegral(latDeg, dayOfYear, -sunset, sunset)
  return (
    ((MIN_PER_DAY * SOLAR_CONSTANT_MJ_PER_MIN) / (2 * Math.PI)) * inverseSunDistance(dayOfYear) * Math.max(0, sunlight)
  ) // FAO-56 eq. 21
}

/**
 * Sunlight above the atmosphere on level ground, mean of one hour.
 *
 * @param latDeg latitude [deg], -90 to 90.
 * @param lonDeg longitude, east positive [deg], -180 to 180.
 * @param epochHour start of the hour, hours since the Unix epoch (UTC) [h].
 * @returns [W/m2], 0 at night.
 *
 * FAO-56 eqs. 28 to 33 with the hour cut at sunrise and sunset, so an hour that is part night counts its lit part
 * only. Day of the year is that of the solar day at the place. NaN outside the range.
 * Checked: FAO-56 example 19 (from memory) to the printed digit; suncalc sun heights within 40 W/m2 to 60 deg latitude.
 */
export function extraterrestrialWm2(latDeg: number, lonDeg: number, epochHour: number): number {
  if (!(Math.abs(lonDeg) <= 180) || !Number.isFinite(epochHour)) return Number.NaN
  const meanSolarH = epochHour + 0.5 + lonDeg / DEG_PER_HOUR
  const day = Math.floor(meanSolarH / HOURS_PER_DAY)
  const dayOfYear = EPOCH.add({ days: day }).dayOfYear
  const solarH = meanSolarH - day * HOURS_PER_DAY + seasonalCorrectionH(dayOfYear)
  const middle = RAD_PER_HOUR * (solarH - 12) // FAO-56 eq. 31
  const start = middle - RAD_PER_HOUR / 2 // FAO-56 eq. 29
  const end = middle + RAD_PER_HOUR / 2 // FAO-56 eq. 30
  const sunset = sunsetHourAngleRad(latDeg, dayOfYear)
  let sunlight = 0
  for (const turn of [-2 * Math.PI, 0, 2 * Math.PI]) {
    const from = Math.max(start, turn - sunset)
    const to = Math.min(end, turn + sunset)
    if (!(to <= from)) sunlight += heightIntegral(latDeg, dayOfYear, from, to)
  }
  return (SOLAR_CONSTANT_WM2 / RAD_PER_HOUR) * inverseSunDistance(dayOfYear) * Math.max(0, sunlight) // FAO-56 eq. 28
}

/**
 * Sunlight on the ground under a clear sky.
 *
 * @param extraterrestrial sunlight above the atmosphere [W/m2] (or [MJ/m2/d]).
 * @param elevationM height above the sea [m], -500 to 9000.
 * @returns in the unit of the first argument.
 *
 * FAO-56 eq. 37: 75 % passes at sea level. Too bright in the first and last hour of the day. NaN outside the range.
 * Checked: FAO-56 examples 17 to 19 to the printed digit.
 */
export function clearSkyWm2(extraterrestrial: number, elevationM: number): number {
  if (!(extraterrestrial >= 0) || !(elevationM >= LOWEST_LAND_M && elevationM <= HIGHEST_LAND_M)) return Number.NaN
  return (0.75 + 2e-5 * elevationM) * extraterrestrial // FAO-56 eq. 37
}

/**
 * Sunlight on the ground under a part-clouded sky.
 *
 * @param clearSky sunlight under a clear sky [W/m2], 0 or more.
 * @param cloudFraction share of the sky that is clouded [0-1].
 * @returns [W/m2]: all of it when clear, a quarter when overcast.
 *
 * Kasten F., Czeplak G. 1980, Solar Energy 24:177-189, doi:10.1016/0038-092X(80)90391-6: G = G0 (1 - 0.75 N^3.4).
 * Fitted to ten years at Hamburg; single hours scatter widely. NaN outside the range.
 * Checked: the form against public programs that cite it; the paper itself was not opened.
 */
export function solarFromCloudWm2(clearSky: number, cloudFraction: number): number {
  if (!(clearSky >= 0) || !(cloudFraction >= 0 && cloudFraction <= 1)) return Number.NaN
  return clearSky * (1 - 0.75 * cloudFraction ** 3.4)
}

/**
 * Sunlight of a day from the span of its temperatures.
 *
 * @param extraterrestrialMJ sunlight above the atmosphere [MJ/m2/d], 0 or more.
 * @param tempMaxC highest temperature of the day [deg C].
 * @param tempMinC lowest temperature of the day [deg C], not above the highest.
 * @param factor 0.16 inland, 0.19 at a coast [1/deg C^0.5].
 * @returns [MJ/m2/d], at most what comes in above the atmosphere.
 *
 * FAO-56 eq. 50 (Hargreaves). NaN outside the range.
 * Checked: FAO-56 examples 15 and 20 to the printed digit.
 */
export function solarFromTempRange(
  extraterrestrialMJ: number,
  tempMaxC: number,
  tempMinC: number,
  factor = 0.16,
): number {
  if (!(extraterrestrialMJ >= 0) || !(tempMaxC >= tempMinC)) return Number.NaN
  return Math.min(1, factor * Math.sqrt(tempMaxC - tempMinC)) * extraterrestrialMJ // FAO-56 eq. 50
}

/** @returns net loss of heat rays per sigma T^4 [-]. Vapour and cloud terms of FAO-56 eq. 39, neither below 0. */
function longwaveShare(vapourKPa: number, clearness: number): number {
  const cloud = 1.35 * Math.min(1, Math.max(LEAST_CLEARNESS, clearness)) - 0.35
  return Math.max(0, 0.34 - 0.14 * Math.sqrt(vapourKPa)) * cloud
}

/**
 * Net radiation of the reference grass, sum of one hour.
 *
 * @param airTempC mean air temperature [deg C], -50 to 55.
 * @param vapourKPa vapour pressure of the air [kPa], 0 or more.
 * @param solarWm2 mean sunlight on the ground [W/m2], 0 or more.
 * @param clearness sunlight over clear-sky sunlight, Rs/Rso [0-1]; at night that of the last high sun.
 * @returns [MJ/m2/h], below zero at night.
 *
 * FAO-56 eqs. 38 to 40, sigma divided by 24. Clearness is held to 0.3-1 and the vapour term to 0 or more (it would
 * turn negative above 5.9 kPa, which no weather reaches). NaN outside the range.
 * Checked: FAO-56 example 19 (from memory), 1.749 by day and -0.100 by night, to the printed digit.
 */
export function netRadiationMJPerH(airTempC: number, vapourKPa: number, solarWm2: number, clearness: number): number {
  if (!(solarWm2 >= 0)) return Number.NaN
  const glow = (STEFAN_BOLTZMANN_MJ_PER_DAY / HOURS_PER_DAY) * (airTempC + ZERO_CELSIUS_K) ** 4
  return (1 - GRASS_ALBEDO) * solarWm2 * MJ_PER_WM2_HOUR - glow * longwaveShare(vapourKPa, clearness) // FAO-56 eq. 40
}

/**
 * Net radiation of the reference grass, sum of a day.
 *
 * @param tempMaxC highest temperature of the day [deg C].
 * @param tempMinC lowest temperature of the day [deg C].
 * @param vapourKPa mean vapour pressure of the day [kPa], 0 or more.
 * @param solarMJ sunlight on the ground [MJ/m2/d], 0 or more.
 * @param clearSkyMJ sunlight under a clear sky [MJ/m2/d]; 0 (polar night) counts as clear.
 * @returns [MJ/m2/d].
 *
 * FAO-56 eqs. 38 to 40. Clamps as in the hourly form. NaN outside the range.
 * Checked: FAO-56 examples 12, 17 and 18 to the printed digit.
 */
export function netRadiationMJPerDay(
  tempMaxC: number,
  tempMinC: number,
  vapourKPa: number,
  solarMJ: number,
  clearSkyMJ: number,
): number {
  if (!(solarMJ >= 0) || !(clearSkyMJ >= 0) || !(tempMaxC >= tempMinC)) return Number.NaN
  const clearness = clearSkyMJ > 0 ? solarMJ / clearSkyMJ : 1
  const glow = (STEFAN_BOLTZMANN_MJ_PER_DAY * ((tempMaxC + ZERO_CELSIUS_K) ** 4 + (tempMinC + ZERO_CELSIUS_K) ** 4)) / 2
  return (1 - GRASS_ALBEDO) * solarMJ - glow * longwaveShare(vapourKPa, clearness) // FAO-56 eqs. 38-40
}
