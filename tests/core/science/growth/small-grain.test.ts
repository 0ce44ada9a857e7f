import { describe, expect, test } from 'vitest'
import { climateNormal } from '#core/science/growth/normals.ts'
import { dailyTemps, epochDayOf } from '#core/science/growth/season.ts'
import { type SmallGrain, SPRING_NEED_C, smallGrainClock } from '#core/science/growth/small-grain.ts'
import { SPRING_CEREALS_C } from '#tests/truth/growth.ts'

const day = (date: string): number => epochDayOf(Temporal.PlainDate.from(date))
function matureOn(crop: SmallGrain, latDeg: number, plantedOn: string): number {
  const temps = dailyTemps({
    dailyStart: Temporal.PlainDate.from('2025-01-01'),
    dailyMaxC: new Float32Array(0),
    dailyMinC: new Float32Array(0),
    normalC: climateNormal(latDeg),
  })
  return smallGrainClock(crop, day(plantedOn), latDeg).matureOn(temps, 1)
}

describe('small grains', () => {
  test('spring-sown needs lie in the published ranges and near the rough 1500', () => {
    const [wheatLow, wheatHigh] = SPRING_CEREALS_C.wheat
    for (const crop of ['wheat-hard', 'wheat-soft', 'wheat-durum'] as const) {
      expect(SPRING_NEED_C[crop]).toBeGreaterThanOrEqual(wheatLow)
      expect(SPRING_NEED_C[crop]).toBeLessThanOrEqual(wheatHigh)
    }
    expect(SPRING_NEED_C.barley).toBeGreaterThanOrEqual(SPRING_CEREALS_C.barley[0])
    expect(SPRING_NEED_C.barley).toBeLessThanOrEqual(SPRING_CEREALS_C.barley[1])
    for (const need of Object.values(SPRING_NEED_C)) {
      expect(Math.abs(need / SPRING_CEREALS_C.rough - 1)).toBeLessThanOrEqual(0.1)
    }
  })

  // Usual seasons, common practice, no source: maturity a week or two before the combines roll.
  test.each([
    ['wheat-hard', 36.7, '2024-10-01', '2025-05-28', '2025-06-15'],
    ['wheat-hard', 39.2, '2024-10-01', '2025-06-10', '2025-06-28'],
    ['wheat-soft', 40, '2024-10-05', '2025-06-12', '2025-07-01'],
    ['wheat-hard', 47, '2025-05-01', '2025-07-22', '2025-08-10'],
    ['barley', 47, '2025-05-01', '2025-07-15', '2025-08-05'],
    ['oats', 43, '2025-04-15', '2025-07-01', '2025-07-25'],
  ] as const)('%s at %f deg sown %s is mature between %s and %s', (crop, lat, sown, from, to) => {
    const mature = matureOn(crop, lat, sown)
    expect(mature).toBeGreaterThanOrEqual(day(from))
    expect(mature).toBeLessThanOrEqual(day(to))
  })

  test('autumn-sown grain counts from the turn of the winter: the sowing date does not matter', () => {
    expect(matureOn('wheat-soft', 40, '2024-10-20')).toBe(matureOn('wheat-soft', 40, '2024-09-20'))
    expect(matureOn('wheat-soft', 40, '2025-01-01')).toBe(matureOn('wheat-soft', 40, '2024-09-20'))
  })

  test('wheat sown in June on the pampas is mature by the turn of the year', () => {
    // Usual Argentine harvest: November to early January. Common practice, no source.
    const mature = matureOn('wheat-hard', -34, '2025-06-15')
    expect(mature).toBeGreaterThan(day('2025-10-10'))
    expect(mature).toBeLessThan(day('2025-12-25'))
  })

  test('barley is before wheat, and grain sown later in spring is mature later', () => {
    expect(matureOn('barley', 47, '2025-05-01')).toBeLessThan(matureOn('wheat-hard', 47, '2025-05-01'))
    expect(matureOn('oats', 47, '2025-05-15')).toBeGreaterThan(matureOn('oats', 47, '2025-05-01'))
  })
})
