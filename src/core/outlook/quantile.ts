/**
 * Sample quantile by linear interpolation of order statistics (Hyndman & Fan 1996, type 7, doi:10.2307/2684934).
 * @param sorted ascending values without NaN. @param share 0-1. @returns NaN for an empty sample.
 */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  const last = sorted.length - 1
  if (last < 0) return Number.NaN
  const position = Math.min(Math.max(share, 0), 1) * last
  const below = Math.floor(position)
  const above = Math.min(below + 1, last)
  return sorted[below]! + (position - below) * (sorted[above]! - sorted[below]!)
}

/** @param values without NaN; they are put in order. @returns NaN for none. */
export const medianOf = (values: number[]): number =>
  quantileOfSorted(
    values.sort((a, b) => a - b),
    0.5,
  )

/** Fills `into[hour]` with the given quantiles across courses; an hour unknown in any course is NaN. */
export function quantilesAcrossCourses(
  values: Float32Array,
  courses: number,
  hours: number,
  shares: readonly number[],
): Float32Array[] {
  const out = shares.map(() => new Float32Array(hours))
  const column = new Float32Array(courses)
  for (let h = 0; h < hours; h++) {
    let known = true
    for (let c = 0; c < courses; c++) {
      const value = values[c * hours + h]!
      column[c] = value
      if (Number.isNaN(value)) known = false
    }
    column.sort()
    for (let q = 0; q < shares.length; q++) out[q]![h] = known ? quantileOfSorted(column, shares[q]!) : Number.NaN
  }
  return out
}
