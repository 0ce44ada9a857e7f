import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dayLengthH } from '#core/science/growth/day-length.ts'
import { FAO56_EXAMPLE_9 } from '#tests/truth/growth.ts'

describe('day length', () => {
  test('FAO-56 example 9', () => {
    const { latDeg, dayOfYear } = FAO56_EXAMPLE_9
    expect(Math.abs(dayLengthH(latDeg, dayOfYear) - FAO56_EXAMPLE_9.dayLengthH)).toBeLessThanOrEqual(0.05)
  })

  test('north and south share the day, and it stays in 0-24', () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), fc.integer({ min: 1, max: 366 }), (lat, day) => {
        const hours = dayLengthH(lat, day)
        expect(hours).toBeGreaterThanOrEqual(0)
        expect(hours).toBeLessThanOrEqual(24)
        expect(hours + dayLengthH(-lat, day)).toBeCloseTo(24, 6)
      }),
    )
  })

  test('unknown or off the globe stays unknown', () => {
    expect(dayLengthH(Number.NaN, 100)).toBeNaN()
    expect(dayLengthH(95, 100)).toBeNaN()
    expect(dayLengthH(40, Number.NaN)).toBeNaN()
  })
})
