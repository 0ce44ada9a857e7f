/**
 * What is published on the daily swing and the wetting of ripe standing grain. Typed 2026-11-25.
 * Confirmed by look-up unless marked otherwise.
 */

/**
 * Soybean loads as delivered, by whole percent: University of Nebraska-Lincoln CropWatch 2016. 115 loads, of which the
 * page lists these 112; the other three are taken as wetter. Farmers choose when to cut, so their loads vary less than
 * all dry afternoons do.
 */
export const SOYBEAN_LOADS = [
  { belowWb: 9, loads: 5 },
  { belowWb: 10, loads: 14 },
  { belowWb: 11, loads: 28 },
  { belowWb: 12, loads: 27 },
  { belowWb: 13, loads: 29 },
  { belowWb: 14, loads: 9 },
  { belowWb: 15, loads: 3 },
] as const

/** Late afternoon to dawn, ripe soybeans without rain [points]: common practice; "several points" (NDSU 2022). */
export const SOYBEAN_SWING_POINTS = [3, 5] as const
/** From 15 to 10 % within 24 hours on a drying day: an Iowa State University agronomist, 2025. */
export const SOYBEAN_DRYING_DAY_POINTS = 5
/**
 * A farm trial of 2014: 9.9-11.2 % in the evening at 85 F, 14.5 % next morning at 55 F, overcast, no dew.
 * The humidity of that night is not given.
 */
export const SOYBEAN_NIGHT_WITHOUT_DEW = { eveningWb: 10.5, morningWb: 14.5, eveningF: 85, morningF: 55, hours: 13 }

/** Standing rice: dew raises moisture by up to 4 points overnight, rain by up to 6: Lu & Siebenmorgen 1994. */
export const RICE_WETTING_POINTS = { dew: 4, rain: 6 } as const

/**
 * First-order exchange worked by hand with exp: 13 % towards 22 % with a time constant of 20 h for 8 h gives 15.97 %,
 * then towards 7 % for 9 h 12.72 %.
 */
export const FIRST_ORDER = [
  { fromWb: 13, towardsWb: 22, hours: 8, endWb: 15.97 },
  { fromWb: 15.97, towardsWb: 7, hours: 9, endWb: 12.72 },
] as const
