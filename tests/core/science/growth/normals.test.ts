import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { climateNormal } from '#core/science/growth/normals.ts'
import { CHAMPAIGN_MONTHS } from '#tests/truth/growth.ts'

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
