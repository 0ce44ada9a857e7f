import { describe, expect, test } from 'vitest'
import { climateNormal } from '#core/science/growth/normals.ts'
import { OTHER_NEEDS, type OtherCrop, otherClock } from '#core/science/growth/others.ts'
import { dailyTemps, epochDayOf } from '#core/science/growth/season.ts'
import { CANOLA, SORGHUM_BLACK_LAYER_F, SORGHUM_USDA_C, SUNFLOWER } from '#tests/truth/growth.ts'

const day = (date: string): number => epochDayOf(Temporal.PlainDate.from(date))
function daysToMaturity(crop: OtherCrop, latDeg: number, plantedOn: string): number {
  const temps = dailyTemps({
    dailyStart: Temporal.PlainDate.from('2025-01-01'),
    dailyMaxC: new Float32Array(0),
    dailyMinC: new Float32Array(0),
    normalC: climateNormal(latDeg),
  })
  return otherClock(crop, day(plantedOn)).matureOn(temps, 1) - day(plantedOn)
}

describe('sorghum, canola and sunflower', () => {
  test('needs are the published ones', () => {
    expect(OTHER_NEEDS.sorghum.needed).toBe((SORGHUM_BLACK_LAYER_F.mediumEarly + SORGHUM_BLACK_LAYER_F.mediumLate) / 2)
    expect(OTHER_NEEDS.canola.needed).toBe(CANOLA.toMaturityC)
    expect(OTHER_NEEDS.sunflower.needed).toBe(SUNFLOWER.toMaturityC)
  })

  test('a second source for sorghum: the USDA sums in C stand within 25 % of ours', () => {
    // 1690-1944 deg C d against our 2781 / 1.8 = 1545: the USDA sums are higher; their base temperature is not stated.
    const oursC = OTHER_NEEDS.sorghum.needed / 1.8
    for (const theirs of SORGHUM_USDA_C) expect(Math.abs(oursC / theirs - 1)).toBeLessThan(0.25)
  })

  test('a day counts what the sources say', () => {
    expect(OTHER_NEEDS.sunflower.progress({ maxC: SUNFLOWER.maxC, minC: SUNFLOWER.minC })).toBeCloseTo(10.8, 10)
    expect(OTHER_NEEDS.canola.progress({ maxC: 20, minC: 10 })).toBe(15)
    // Kansas State: 100 F counts no more than 100; (100 + 70) / 2 - 50 = 35.
    expect(OTHER_NEEDS.sorghum.progress({ maxC: 43, minC: (70 - 32) / 1.8 })).toBeCloseTo(35, 6)
  })

  // Usual days from planting to maturity: common practice, no source.
  test.each([
    ['sorghum', 38, '2025-05-25', 95, 125],
    ['canola', 50, '2025-05-12', 80, 105],
    ['sunflower', 46.9, '2025-05-25', 90, 120],
  ] as const)('%s at %f deg planted %s takes %i to %i d', (crop, lat, planted, from, to) => {
    const days = daysToMaturity(crop, lat, planted)
    expect(days).toBeGreaterThanOrEqual(from)
    expect(days).toBeLessThanOrEqual(to)
  })
})
