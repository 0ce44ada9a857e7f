import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { duffCode } from '#core/science/fire/duff.ts'
import { DUFF_JANUARY, SINGLE_CALLS } from '#tests/truth/fire-weather-index.ts'

describe('duff moisture code', () => {
  it('gives the published single call to all digits', () => {
    // NOR-X-424, printed in public copies.
    expect(duffCode(6, 17, 0.42, 0, 4, 46)).toBeCloseTo(SINGLE_CALLS.duff, 10)
  })

  it.each(DUFF_JANUARY)('from %d at %d deg C, %d %%, %d mm, latitude %d', (before, t, h, mm, lat, expected) => {
    expect(duffCode(before, t, h / 100, mm, 1, lat, 'full')).toBeCloseTo(expected, 9)
    // The constants as printed in 1987 lie within 0.04 of that.
    expect(Math.abs(duffCode(before, t, h / 100, mm, 1, lat) - expected)).toBeLessThan(0.04)
  })

  it('rises on a dry day, falls or stays with more rain, is never negative', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.double({ min: -50, max: 55, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (before, t, h, r, month, lat) => {
          const dry = duffCode(before, t, h, 0, month, lat)
          const wet = duffCode(before, t, h, r, month, lat)
          expect(dry).toBeGreaterThanOrEqual(before)
          // Going through eqs 12 and 15 and back adds 0.0006 by rounding of the printed constants.
          expect(wet).toBeLessThanOrEqual(dry + 0.001)
          expect(wet).toBeGreaterThanOrEqual(0)
        },
      ),
    )
  })

  it('takes no drying from cold', () => {
    expect(duffCode(20, -1.1, 0.3, 0, 10, 45)).toBe(20)
    expect(duffCode(20, -30, 0.3, 0, 10, 45)).toBe(20)
  })

  it('knows nothing from an unknown or impossible input', () => {
    expect(duffCode(Number.NaN, 20, 0.4, 0, 6, 45)).toBeNaN()
    expect(duffCode(-1, 20, 0.4, 0, 6, 45)).toBeNaN()
    expect(duffCode(20, Number.NaN, 0.4, 0, 6, 45)).toBeNaN()
    expect(duffCode(20, 20, Number.NaN, 0, 6, 45)).toBeNaN()
    expect(duffCode(20, 20, 0.4, Number.NaN, 6, 45)).toBeNaN()
    expect(duffCode(20, 20, 0.4, -1, 6, 45)).toBeNaN()
    expect(duffCode(20, 20, 0.4, 0, 13, 45)).toBeNaN()
    expect(duffCode(20, 20, 0.4, 0, 6, 91)).toBeNaN()
  })
})
