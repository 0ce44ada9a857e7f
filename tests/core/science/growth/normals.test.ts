import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { climateNormal, fillErrorSdC } from '#core/science/growth/normals.ts'
import { CHAMPAIGN_MONTHS, CHAMPAIGN_SPANS } from '#tests/truth/growth.ts'

describe('climate normal', () => {
  test.each(CHAMPAIGN_MONTHS)('month $month at Champaign within 1.5 deg C', ({ dayOfYear, meanC }) => {
    const { maxC, minC } = climateNormal(40.06)(dayOfYear)
    expect(Math.abs((maxC + minC) / 2 - meanC)).toBeLessThanOrEqual(1.5)
  })

  test('summer is warmer than winter on either side of the equator', () => {
    fc.assert(
      fc.property(fc.double({ min: 25, max: 60, noNaN: true }), (lat) => {
        expect(climateNormal(lat)(200).maxC).toBeGreaterThan(climateNormal(lat)(15).maxC)
        expect(climateNormal(-lat)(15).maxC).toBeGreaterThan(climateNormal(-lat)(200).maxC)
      }),
    )
  })

  test('stays within what the air can be, the night below the day, everywhere', () => {
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), fc.integer({ min: 1, max: 366 }), (lat, day) => {
        const { maxC, minC } = climateNormal(lat)(day)
        expect(minC).toBeGreaterThan(-50)
        expect(maxC).toBeLessThan(45)
        expect(maxC).toBeGreaterThan(minC)
      }),
    )
  })

  test('an unknown place has no normal', () => {
    expect(climateNormal(Number.NaN)(100).maxC).toBeNaN()
  })
})

describe('error of filled days', () => {
  test.each(CHAMPAIGN_SPANS)('$days days: the spread at Champaign, the place aside', ({ days, sdC }) => {
    // The crude normal's own error for a place, 1 deg C, is not in the measured spread between years.
    const betweenYearsC = Math.sqrt(fillErrorSdC(days) ** 2 - 1)
    // Fitted to these spans: 0.06 off from 5 days up, 0.43 for a single day.
    expect(Math.abs(betweenYearsC - sdC)).toBeLessThanOrEqual(days === 1 ? 0.45 : 0.1)
  })

  test('falls with the number of days and is not known for an unknown number', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 }), (days) => {
        expect(fillErrorSdC(days + 1)).toBeLessThan(fillErrorSdC(days))
        expect(fillErrorSdC(days)).toBeGreaterThan(1)
      }),
    )
    expect(fillErrorSdC(Number.NaN)).toBeNaN()
    expect(fillErrorSdC(-1)).toBeNaN()
  })
})
