/** Published rules of thumb that say wet or dry from humidity alone, for hours without sunlight or wind. */

/** Best single threshold over four climates [0-1]: Sentelhas et al. 2008, Agric. For. Meteorol. 148:392-400. */
export const WET_ABOVE_REL_HUMIDITY = 0.9
/** Dew-point depression below which dew begins [deg C]: Gillespie et al. 1993, from memory. */
export const WET_BELOW_DEPRESSION_C = 2.0
/** Dew-point depression above which plants are dry again [deg C]: Gillespie et al. 1993, from memory. */
export const DRY_ABOVE_DEPRESSION_C = 3.8

/**
 * Wet when the air is humid enough.
 *
 * @param relHumidity relative humidity [0-1]
 * @returns whether plants are wet; null if the humidity is not known
 *
 * Sentelhas et al. 2008: right in 87-92 % of hours over Iowa, Ontario, Florence and Piracicaba.
 */
export function isWetByHumidity(relHumidity: number): boolean | null {
  return Number.isNaN(relHumidity) ? null : relHumidity >= WET_ABOVE_REL_HUMIDITY
}

/**
 * Wet from the hour the dew-point depression falls under 2.0 deg C until it rises over 3.8 deg C.
 *
 * @param depressionC air temperature less dew point [deg C], >= 0
 * @param wasWet whether plants were wet the hour before
 * @returns whether plants are wet; null if the depression is not known
 *
 * Gillespie et al. 1993, from memory.
 */
export function isWetByDepression(depressionC: number, wasWet: boolean): boolean | null {
  if (Number.isNaN(depressionC)) return null
  return wasWet ? depressionC <= DRY_ABOVE_DEPRESSION_C : depressionC < WET_BELOW_DEPRESSION_C
}

/**
 * Wet by the regression tree with a discriminant for light winds (CART/SLD).
 *
 * @param airTempC air temperature [deg C]; under 0 counts as 0 (square root)
 * @param relHumidity relative humidity [0-1]
 * @param windMs wind at 0.3 m in the canopy [m/s]
 * @param depressionC air temperature less dew point [deg C], >= 0
 * @returns whether plants are wet; null if an input is not known
 *
 * Gleason et al. 1994; Kim, Taylor, Gleason & Koehler 2002 (Plant Dis. 86:179-185, doi:10.1094/PDIS.2002.86.2.179).
 * The branch for wind of 2.5 m/s and more can never answer "wet" with the coefficients found in secondary pages (its
 * discriminant must pass 37.0 and reaches 23.6 at most over 0-35 deg C), so it is not used: humidity of 90 % decides.
 */
export function isWetByTree(
  airTempC: number,
  relHumidity: number,
  windMs: number,
  depressionC: number,
): boolean | null {
  if (Number.isNaN(airTempC + relHumidity + windMs + depressionC)) return null
  if (depressionC >= 3.7) return false
  if (windMs >= 2.5) return isWetByHumidity(relHumidity)
  return lightWindDiscriminant(airTempC, relHumidity, windMs, depressionC) > 14.4674
}

/** Discriminant of the light-wind branch of `isWetByTree` [-]; wet above 14.4674. Kim et al. 2002, secondary page. */
export function lightWindDiscriminant(
  airTempC: number,
  relHumidity: number,
  windMs: number,
  depressionC: number,
): number {
  const t = Math.max(0, airTempC)
  const rh = 100 * relHumidity
  return 1.6064 * Math.sqrt(t) + 0.0036 * t * t + 0.1531 * rh - 0.4599 * windMs * depressionC - 0.0035 * t * rh
}
