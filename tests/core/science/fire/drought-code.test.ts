import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { droughtCode } from '#core/science/fire/drought-code.ts'
import { DROUGHT_JANUARY, SINGLE_CALLS } from '#tests/truth/fire-weather-index.ts'

describe('drought code', () => {
  it('gives the published single call to all digits', () => {
    // NOR-X-424, printed in public copies.
    expect(droughtCode(15, 17, 0, 4, 46)).toBeCloseTo(SINGLE_CALLS.drought, 10)
  })

  it.each(DROUGHT_JANUARY)('from %d at %d deg C, %d mm, latitude %d', (before, t, mm, lat, expected) => {
    expect(droughtCode(before, t, mm, 1, lat)).toBeCloseTo(expected, 9)
  })

  it('rises or stays on a dry day, falls or stays with more rain, is never negative', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1500, noNaN: true }),
        fc.double({ min: -50, max: 55, noNaN: true }),
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (before, t, r, month, lat) => {
          const dry = droughtCode(before, t, 0, month, lat)
          const wet = droughtCode(before, t, r, month, lat)
          expect(dry).toBeGreaterThanOrEqual(before)
          expect(wet).toBeLessThanOrEqual(dry + 1e-9)
          expect(wet).toBeGreaterThanOrEqual(0)
        },
      ),
    )
  })

  it('knows nothing from an unknown or impossible input', () => {
    expect(droughtCode(Number.NaN, 20, 0, 6, 45)).toBeNaN()
    expect(droughtCode(-1, 20, 0, 6, 45)).toBeNaN()
    expect(droughtCode(20, Number.NaN, 0, 6, 45)).toBeNaN()
    expect(droughtCode(20, 20, Number.NaN, 6, 45)).toBeNaN()
    expect(droughtCode(20, 20, 0, 0, 45)).toBeNaN()
    expect(droughtCode(20, 20, 0, 6, Number.NaN)).toBeNaN()
  })
})
