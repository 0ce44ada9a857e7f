/** Time to move an outfit from one part to the next. */
import type { FieldPart } from '#core/field/parts.ts'
import { distanceKm } from '#core/units/sphere.ts'

/** Heads on trailers behind the combines: road speed of a convoy (common practice, no source) [km/h]. */
const CONVOY_KMH = 24
/** Heads off, on the road, heads on (common practice, no source) [h]. */
const SET_UP_H = 0.4
/** Roads run along section lines: longer than the crow flies by this factor on average (4/pi). */
const ROAD_FACTOR = 4 / Math.PI

export function moveHours(from: FieldPart | undefined, to: FieldPart): number {
  if (!from || from.field.id === to.field.id) return 0
  return SET_UP_H + (ROAD_FACTOR * distanceKm(from.field.centre, to.field.centre)) / CONVOY_KMH
}
