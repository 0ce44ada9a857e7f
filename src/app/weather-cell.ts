/** Places near enough to share one weather. */
import type { Place } from '#core/units/weather.ts'

/** About 5 km north to south: finer than any service tells apart in open farmland. */
const CELL_DEG = 0.05

/** @returns the name of the cell: its centre, such as `40.05,-88.20`. */
export function cellOf({ latDeg, lonDeg }: Place): string {
  const centre = (deg: number) => (Math.round(deg / CELL_DEG) * CELL_DEG || 0).toFixed(2)
  return `${centre(latDeg)},${centre(lonDeg)}`
}
