import { describe, expect, it } from 'vitest'
import { colour, momentsOf, whiten } from '#core/field/filter/cloud.ts'

/** Textbook example: [[4, 12, -16], [12, 37, -43], [-16, -43, 98]] has the factor below (Cholesky; exact by hand). */
const FACTOR = [2, 0, 0, 6, 1, 0, -8, 5, 3]

/** Six points about (1, 2, 3) whose covariance is that matrix: plus and minus root 3 times each column of the factor. */
const points = Float64Array.from(
  [0, 1, 2].flatMap((k) =>
    [1, -1].flatMap((sign) => [0, 1, 2].map((d) => d + 1 + sign * Math.sqrt(3) * FACTOR[d * 3 + k]!)),
  ),
)
const moments = momentsOf(points, 3, new Float64Array(6).fill(1 / 6))

describe('a cloud', () => {
  it('has the mean and the Cholesky factor worked by hand', () => {
    for (const [d, mean] of [1, 2, 3].entries()) expect(moments.mean[d]!).toBeCloseTo(mean, 9)
    for (const [i, value] of FACTOR.entries()) expect(moments.factor[i]!).toBeCloseTo(value, 6)
  })

  it('is round where it was made round, and comes back', () => {
    const round = new Float64Array(3)
    const back = new Float64Array(3)
    for (let p = 0; p < 6; p++) {
      whiten(moments, points, 3 * p, round)
      expect(round.reduce((sum, x) => sum + x * x, 0)).toBeCloseTo(3, 6)
      colour(moments, round, back)
      for (let d = 0; d < 3; d++) expect(back[d]!).toBeCloseTo(points[3 * p + d]!, 9)
    }
  })

  it('may have collapsed onto a line or a point', () => {
    const flat = momentsOf(Float64Array.of(1, 2, 1, 2), 2, Float64Array.of(0.5, 0.5))
    const round = new Float64Array(2)
    whiten(flat, Float64Array.of(1, 2), 0, round)
    expect([...round]).toEqual([0, 0])
    expect(flat.factor.every(Number.isFinite)).toBe(true)
  })
})
