/** Distances and areas on the earth taken as a sphere. */
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

/**
 * Area that a ring encloses.
 *
 * @param ring  Closed ring of [lon, lat] [deg], not across the 180th meridian.
 * @returns     Area [km2], 0 or more, whichever way round it runs; NaN where a coordinate is not known.
 *
 * Form: sides run straight in longitude and sine of latitude (Chamberlain & Duquette 2007, "Some Algorithms for Polygons
 * on a Sphere", JPL Publication 07-03, eq. 3; from memory), so a cell of the grid of degrees is exact.
 * Validity: of a field-sized ring within 0.5 % of the ellipsoid; shares of one field among each other far closer.
 * Checked: a hemisphere's eighth in closed form, and d3-geo's area of random rings, to a part in two thousand.
 */
export function ringAreaKm2(ring: readonly (readonly [lonDeg: number, latDeg: number])[]): number {
  let sum = 0
  for (let i = 0; i + 1 < ring.length; i++) {
    const [lonDeg, latDeg] = ring[i]!
    const [nextLonDeg, nextLatDeg] = ring[i + 1]!
    sum += (nextLonDeg - lonDeg) * RAD_PER_DEG * (Math.sin(latDeg * RAD_PER_DEG) + Math.sin(nextLatDeg * RAD_PER_DEG))
  }
  return (Math.abs(sum) * EARTH_RADIUS_KM ** 2) / 2
}
