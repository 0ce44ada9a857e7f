/** Distances on the earth, to a fraction of a per cent: enough to choose a weather station. */
interface Point {
  readonly latDeg: number
  readonly lonDeg: number
}

/** Mean radius of the earth [km] (IUGG). */
const EARTH_RADIUS_KM = 6371.0088
const RAD_PER_DEG = Math.PI / 180

/** @returns great-circle distance [km], by the haversine formula. */
export function distanceKm(from: Point, to: Point): number {
  const lat = Math.sin(((to.latDeg - from.latDeg) * RAD_PER_DEG) / 2)
  const lon = Math.sin(((to.lonDeg - from.lonDeg) * RAD_PER_DEG) / 2)
  const half = lat ** 2 + Math.cos(from.latDeg * RAD_PER_DEG) * Math.cos(to.latDeg * RAD_PER_DEG) * lon ** 2
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(half)))
}
