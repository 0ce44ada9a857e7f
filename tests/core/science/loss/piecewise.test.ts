import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { alongCorners, type Corner } from '#core/science/loss/piecewise.ts'

const ROOF: readonly Corner[] = [
  [0, 1],
  [2, 5],
  [4, 1],
]

describe('a broken line', () => {
  it('goes through its corners and half way between them', () => {
    // Linear interpolation by hand: (1 + 5) / 2 = 3.
    expect([0, 1, 2, 3, 4].map((x) => alongCorners(ROOF, x))).toEqual([1, 3, 5, 3, 1])
  })

  it('is level beyond its ends and unknown where x is', () => {
    expect(alongCorners(ROOF, -9)).toBe(1)
    expect(alongCorners(ROOF, 99)).toBe(1)
    expect(alongCorners(ROOF, Number.NaN)).toBeNaN()
  })

  it('stays between its lowest and highest corner', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true }), (x) => {
        const y = alongCorners(ROOF, x)
        expect(y).toBeGreaterThanOrEqual(1)
        expect(y).toBeLessThanOrEqual(5)
      }),
    )
  })
})
