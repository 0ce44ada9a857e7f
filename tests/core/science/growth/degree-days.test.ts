import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  clippedDegreeDays,
  cornDegreeDaysC,
  cornDegreeDaysF,
  meanDegreeDays,
} from '#core/science/growth/degree-days.ts'
import { celsiusFromFahrenheit } from '#core/units/convert.ts'
import { CANOLA, CORN_DAY, OREGON_WHEAT_WEEK, SUNFLOWER, TWO_READINGS } from '#tests/truth/growth.ts'

const temps = fc
  .tuple(fc.double({ min: -50, max: 55, noNaN: true }), fc.double({ min: 0, max: 30, noNaN: true }))
  .map(([minC, range]) => ({ minC, maxC: minC + range }))

describe('degree days', () => {
  test('corn, 90 and 48 F, counts 18', () => {
    const { maxF, minF, degreeDaysF } = CORN_DAY
    const day = [celsiusFromFahrenheit(maxF), celsiusFromFahrenheit(minF)] as const
    expect(cornDegreeDaysF(...day)).toBeCloseTo(degreeDaysF, 10)
    expect(cornDegreeDaysC(...day) * 1.8).toBeCloseTo(degreeDaysF, 10)
  })

  test('the two readings of McMaster & Wilhelm differ as they say', () => {
    const { maxC, minC, baseC, meanFirst, clippedFirst } = TWO_READINGS
    expect(meanDegreeDays(maxC, minC, baseC)).toBe(meanFirst)
    expect(clippedDegreeDays(maxC, minC, baseC, 40)).toBe(clippedFirst)
  })

  test('a week of Oregon wheat, printed in whole degree days', () => {
    for (const { maxF, minF, degreeDaysC } of OREGON_WHEAT_WEEK) {
      const ours = meanDegreeDays(celsiusFromFahrenheit(maxF), celsiusFromFahrenheit(minF), 0)
      expect(Math.abs(ours - degreeDaysC)).toBeLessThanOrEqual(0.7)
    }
  })

  test('a day of canola and one of sunflower', () => {
    expect(meanDegreeDays(CANOLA.maxC, CANOLA.minC, 0)).toBe(CANOLA.degreeDaysC)
    expect(meanDegreeDays(SUNFLOWER.maxC, SUNFLOWER.minC, 6.7)).toBeCloseTo(SUNFLOWER.degreeDaysC, 10)
  })

  test('stay in their bounds, grow with warmth, and clipping never counts less', () => {
    fc.assert(
      fc.property(temps, fc.double({ min: 0, max: 10, noNaN: true }), ({ maxC, minC }, warmer) => {
        const corn = cornDegreeDaysF(maxC, minC)
        expect(corn).toBeGreaterThanOrEqual(-1e-9)
        expect(corn).toBeLessThanOrEqual(36 + 1e-9)
        expect(cornDegreeDaysF(maxC + warmer, minC + warmer)).toBeGreaterThanOrEqual(corn - 1e-9)
        expect(meanDegreeDays(maxC + warmer, minC, 0)).toBeGreaterThanOrEqual(meanDegreeDays(maxC, minC, 0))
        expect(clippedDegreeDays(maxC, minC, 0, 100)).toBeGreaterThanOrEqual(meanDegreeDays(maxC, minC, 0) - 1e-9)
      }),
    )
  })

  test('unknown stays unknown', () => {
    expect(cornDegreeDaysF(Number.NaN, 10)).toBeNaN()
    expect(cornDegreeDaysC(25, Number.NaN)).toBeNaN()
    expect(meanDegreeDays(Number.NaN, 10, 0)).toBeNaN()
    expect(clippedDegreeDays(20, Number.NaN, 0, 30)).toBeNaN()
  })
})
