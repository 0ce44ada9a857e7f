/** Distances on the earth taken as a sphere. */
interface Point {
  readonly latDeg: number
  readonly lonDeg: number
}

/** Mean radius of the earth, (2a + b) / 3 of the ellipsoid [km] (IUGG; Moritz 2000, doi:10.1007/s001900050278). */
export const EARTH_RADIUS_KM = 6371.0088
const RAD_PER_DEG = Math.PI / 180

/**
 * Great-circle distance between two places.
 *
 * @param from  Place: latitude -90..90, longitude [deg].
 * @param to    Place likewise; longitudes may differ by whole turns.
 * @returns     Distance [km], 0 to half the way round; NaN where a coordinate is not known.
 *
 * Form: haversine (Sinnott 1984, "Virtues of the Haversine", Sky and Telescope 68(2), 159; from memory).
 * Validity: a sphere is up to 0.6 % off the ellipsoid, which is enough for fields, roads and weather stations.
 * Checked: closed forms to 1e-6 km, and tests/truth/moving.ts (degrees by the nautical mile, within 0.2 km).
 */
export function distanceKm(from: Point, to: Point): number {
  const sinLat = Math.sin(((to.latDeg - from.latDeg) * RAD_PER_DEG) / 2)
  const sinLon = Math.sin(((to.lonDeg - from.lonDeg) * RAD_PER_DEG) / 2)
  const half = sinLat ** 2 + Math.cos(from.latDeg * RAD_PER_DEG) * Math.cos(to.latDeg * RAD_PER_DEG) * sinLon ** 2
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(half)))
}
