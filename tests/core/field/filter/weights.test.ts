import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { effectiveSize, normalise, systematicResample } from '#core/field/filter/weights.ts'

const logs = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 1, maxLength: 60 })

describe('weights', () => {
  it('add up to one and keep their ratios', () => {
    const weights = Float64Array.of(Math.log(1), Math.log(3), Number.NaN, Number.NEGATIVE_INFINITY)
    expect(normalise(weights)).toBe(true)
    expect([...weights].map((w) => Math.round(w * 1e12) / 1e12)).toEqual([0.25, 0.75, 0, 0])
  })

  it('are equal, and it is told, where no particle has any', () => {
    const weights = Float64Array.of(Number.NaN, Number.NEGATIVE_INFINITY)
    expect(normalise(weights)).toBe(false)
    expect([...weights]).toEqual([0.5, 0.5])
  })

  it('have an effective size of N when equal and 1 when one has all, as Kong, Liu & Wong 1994 define it', () => {
    expect(effectiveSize(new Float64Array(8).fill(1 / 8))).toBeCloseTo(8, 12)
    expect(effectiveSize(Float64Array.of(0, 1, 0))).toBe(1)
  })

  it('take each particle floor(N w) or ceil(N w) times, as Kitagawa 1996 says of systematic resampling', () => {
    fc.assert(
      fc.property(
        logs,
        fc.integer({ min: 1, max: 200 }),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (log, n, u) => {
          const weights = Float64Array.from(log)
          normalise(weights)
          const taken = systematicResample(weights, n, u)
          expect(taken.length).toBe(n)
          for (let p = 0; p < weights.length; p++) {
            const times = taken.filter((index) => index === p).length
            expect(times).toBeGreaterThanOrEqual(Math.floor(n * weights[p]! - 1e-9))
            expect(times).toBeLessThanOrEqual(Math.ceil(n * weights[p]! + 1e-9))
          }
        },
      ),
    )
  })
})
