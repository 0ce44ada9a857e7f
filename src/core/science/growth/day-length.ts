const toRad = (deg: number): number => (deg * Math.PI) / 180

/**
 * Time from sunrise to sunset with the sun's centre on a flat horizon, as photoperiod models use it.
 *
 * @param latDeg [deg], -90 to 90. @param dayOfYear 1-366.
 * @returns [h], 0-24; NaN if unknown or off the globe.
 *
 * FAO-56 (Allen, Pereira, Raes & Smith 1998) eqs. 24, 25 and 34. About 0.15 h shorter at mid-latitudes than the
 * almanac, which counts refraction and the sun's upper edge. Checked: FAO-56 example 9 (20 deg S, 3 September: 11.7 h).
 */
export function dayLengthH(latDeg: number, dayOfYear: number): number {
  if (!(Math.abs(latDeg) <= 90)) return Number.NaN
  const declinationRad = 0.409 * Math.sin((2 * Math.PI * dayOfYear) / 365 - 1.39) // eq. 24
  const cosSunset = -Math.tan(toRad(latDeg)) * Math.tan(declinationRad) // eq. 25
  return (24 / Math.PI) * Math.acos(Math.min(1, Math.max(-1, cosSunset))) // eq. 34
}
