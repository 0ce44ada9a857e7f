/** Time to move an outfit from one part to the next. */
import type { FieldPart } from '#core/field/parts.ts'

/** Heads on trailers behind the combines: road speed of a convoy (common practice, no source) [km/h]. */
const CONVOY_KMH = 24
/** Heads off, on the road, heads on (common practice, no source) [h]. */
const SET_UP_H = 0.4
/** Roads run along section lines: longer than the crow flies by this factor on average (4/pi). */
const ROAD_FACTOR = 4 / Math.PI
const EARTH_RADIUS_KM = 6371

export function moveHours(from: FieldPart | undefined, to: FieldPart): number {
  if (!from || from.field.id === to.field.id) return 0
  return SET_UP_H + (ROAD_FACTOR * distanceKm(from.field.centre, to.field.centre)) / CONVOY_KMH
}

interface Point {
  readonly latDeg: number
  readonly lonDeg: number
}

/** Great-circle distance [km] (haversine form, sphere of 6371 km). */
export function distanceKm(a: Point, b: Point): number {
  const rad = Math.PI / 180
  const half =
    Math.sin(((b.latDeg - a.latDeg) * rad) / 2) ** 2 +
    Math.cos(a.latDeg * rad) * Math.cos(b.latDeg * rad) * Math.sin(((b.lonDeg - a.lonDeg) * rad) / 2) ** 2
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(half)))
}
