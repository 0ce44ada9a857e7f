import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { quantileOfSorted, quantilesAcrossCourses } from '#core/outlook/quantile.ts'
import { TYPE_7 } from '#tests/truth/quantiles.ts'

const sample = fc
  .array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 60 })
  .map((values) => values.map((value) => value + 0).sort((a, b) => a - b))
const share = fc.double({ min: 0, max: 1, noNaN: true })

describe('one quantile', () => {
  it.each(TYPE_7)('at $share of $sorted is $quantile', ({ sorted, share, quantile }) => {
    expect(quantileOfSorted(sorted, share)).toBeCloseTo(quantile, 12)
  })

  it('lies in the sample, rises with its share, and ends at the ends', () => {
    fc.assert(
      fc.property(sample, share, share, (sorted, a, b) => {
        const [low, high] = [quantileOfSorted(sorted, Math.min(a, b)), quantileOfSorted(sorted, Math.max(a, b))]
        expect(low).toBeGreaterThanOrEqual(sorted[0]!)
        expect(high).toBeLessThanOrEqual(sorted.at(-1)! + 1e-9)
        expect(high).toBeGreaterThanOrEqual(low - 1e-9)
        expect(quantileOfSorted(sorted, 0)).toBe(sorted[0])
        expect(quantileOfSorted(sorted, 1)).toBe(sorted.at(-1))
      }),
    )
  })

  it('of nothing is not known', () => {
    expect(quantileOfSorted([], 0.5)).toBeNaN()
  })
})

describe('quantiles across courses', () => {
  it('are those of each hour, and an hour unknown in one course is not known', () => {
    const values = Float32Array.of(3, 10, 1, 20, 2, Number.NaN)
    const [low, median] = quantilesAcrossCourses(values, 3, 2, [0, 0.5])
    expect([...low!]).toEqual([1, Number.NaN])
    expect([...median!]).toEqual([2, Number.NaN])
    expect([...values]).toEqual([3, 10, 1, 20, 2, Number.NaN])
  })
})
