/** One corner of a broken line: the value `y` at `x`. Corners are listed with `x` rising. */
export type Corner = readonly [x: number, y: number]

/**
 * Value of a broken line through the corners, level beyond the first and the last.
 *
 * @param corners at least one, `x` strictly rising.
 * @param x any number.
 * @returns the value at `x`; NaN when `x` is NaN.
 * Form: linear interpolation. Checked against its own corners and a hand-worked midpoint.
 */
export function alongCorners(corners: readonly Corner[], x: number): number {
  if (Number.isNaN(x)) return Number.NaN
  let [x0, y0] = corners[0]!
  if (x <= x0) return y0
  for (let i = 1; i < corners.length; i++) {
    const [x1, y1] = corners[i]!
    if (x <= x1) return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0)
    x0 = x1
    y0 = y1
  }
  return y0
}
