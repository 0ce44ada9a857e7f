import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { CROPS } from '#core/science/crop.ts'
import { estimateMaturity, type MaturityInput } from '#core/science/growth/maturity.ts'
import { climateNormal } from '#core/science/growth/normals.ts'
import { dateOfEpochDay, epochDayOf } from '#core/science/growth/season.ts'

const date = (text: string): Temporal.PlainDate => Temporal.PlainDate.from(text)
const START = date('2025-04-01')
const NORMAL = climateNormal(40)

/** The normal climate as if measured, from 1 April on. */
function measured(days: number, warmerC = 0): Pick<MaturityInput, 'dailyStart' | 'dailyMaxC' | 'dailyMinC'> {
  const start = epochDayOf(START)
  const of = (key: 'maxC' | 'minC') =>
    Float32Array.from({ length: days }, (_, i) => NORMAL(dateOfEpochDay(start + i).dayOfYear)[key] + warmerC)
  return { dailyStart: START, dailyMaxC: of('maxC'), dailyMinC: of('minC') }
}

const field = (over: Partial<MaturityInput>): MaturityInput => ({
  crop: 'soybean',
  plantedOn: date('2025-05-10'),
  latDeg: 40,
  maturityGroup: 3.1,
  relativeMaturity: 108,
  followsWheat: false,
  normalC: NORMAL,
  ...measured(0),
  ...over,
})

describe('an estimate of maturity', () => {
  test.each(CROPS)('of %s has a date, a spread, a moisture and a reason', (crop) => {
    const estimate = estimateMaturity(field({ crop, plantedOn: date('2025-05-05') }))
    expect(estimate.matureEpochDay).toBeGreaterThan(epochDayOf(date('2025-06-15')))
    expect(estimate.matureEpochDay).toBeLessThan(epochDayOf(date('2025-10-20')))
    expect(estimate.matureOn.equals(dateOfEpochDay(estimate.matureEpochDay))).toBe(true)
    expect(estimate.sdDays).toBeGreaterThan(2)
    expect(estimate.sdDays).toBeLessThanOrEqual(30)
    expect(estimate.moistureWb).toBeGreaterThanOrEqual(28)
    expect(estimate.moistureWb).toBeLessThanOrEqual(65)
    expect(estimate.basis.length).toBeGreaterThan(10)
  })

  test.each([
    // R7 55-65 (Iowa State), about 50 (Kansas State).
    ['soybean', 50, 65],
    // 30-32 usual (NDSU), 35 (Abendroth et al. 2011).
    ['corn', 30, 35],
    // 37 (Thomason, Virginia Tech 2006); 35 (Alberta Agriculture).
    ['wheat-soft', 35, 37],
    ['barley', 35, 37],
  ] as const)('%s is at %i to %i %% moisture', (crop, low, high) => {
    const { moistureWb } = estimateMaturity(field({ crop }))
    expect(moistureWb).toBeGreaterThanOrEqual(low)
    expect(moistureWb).toBeLessThanOrEqual(high)
  })

  test('what was seen in the field outranks the model', () => {
    const estimate = estimateMaturity(field({ maturitySeenOn: date('2025-09-03') }))
    expect(estimate.matureOn.toString()).toBe('2025-09-03')
    expect(estimate.sdDays).toBe(2)
  })

  test('measured days narrow the spread, the more the better, and do not move the date when they are usual', () => {
    for (const crop of ['soybean', 'corn', 'sunflower'] as const) {
      const none = estimateMaturity(field({ crop }))
      const half = estimateMaturity(field({ crop, ...measured(100) }))
      const all = estimateMaturity(field({ crop, ...measured(260) }))
      expect(half.matureEpochDay).toBeCloseTo(none.matureEpochDay, 2)
      expect(all.matureEpochDay).toBeCloseTo(none.matureEpochDay, 2)
      expect(half.sdDays).toBeLessThan(none.sdDays)
      expect(all.sdDays).toBeLessThan(half.sdDays)
      expect(none.remarks.some((remark) => remark.includes('usual weather'))).toBe(true)
      expect(all.remarks).toEqual([])
    }
  })

  test('a gap is filled: NaN days weigh as days beyond the series', () => {
    const gap = measured(200)
    gap.dailyMaxC.fill(Number.NaN, 60, 80)
    const estimate = estimateMaturity(field(gap))
    expect(estimate.matureEpochDay).toBeCloseTo(estimateMaturity(field(measured(200))).matureEpochDay, 2)
    expect(estimate.remarks.join()).toContain('20 of the days')
  })

  test('a warmer season ripens sooner, a later planting later', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CROPS),
        fc.double({ min: 0.5, max: 2, noNaN: true }),
        fc.integer({ min: 1, max: 25 }),
        (crop, warmer, delay) => {
          const usual = estimateMaturity(field({ crop, ...measured(260) }))
          const warm = estimateMaturity(field({ crop, ...measured(260, warmer) }))
          const late = estimateMaturity(
            field({ crop, ...measured(260), plantedOn: date('2025-05-10').add({ days: delay }) }),
          )
          expect(warm.matureEpochDay).toBeLessThan(usual.matureEpochDay)
          expect(late.matureEpochDay).toBeGreaterThan(usual.matureEpochDay)
        },
      ),
      { numRuns: 40 },
    )
  })

  test('a killing freeze ends growth, with wetter grain and a remark', () => {
    const cold = measured(260)
    const frost = epochDayOf(date('2025-08-25')) - epochDayOf(START)
    cold.dailyMinC[frost] = -4
    const estimate = estimateMaturity(field(cold))
    const usual = estimateMaturity(field(measured(260)))
    expect(estimate.matureOn.toString()).toBe('2025-08-25')
    expect(estimate.moistureWb).toBeGreaterThan(usual.moistureWb)
    expect(estimate.sdDays).toBeGreaterThan(usual.sdDays)
    expect(estimate.remarks.join()).toContain('freeze')
  })

  test('a frost in May does not count as the end of the season, nor any frost for wheat', () => {
    const cold = measured(260)
    cold.dailyMinC[60] = -4
    expect(estimateMaturity(field(cold)).remarks).toEqual([])
    cold.dailyMinC[100] = -4
    expect(estimateMaturity(field({ ...cold, crop: 'wheat-hard' })).remarks.join()).not.toContain('freeze')
  })

  test('the southern half ripens in its own autumn', () => {
    const estimate = estimateMaturity(
      field({ latDeg: -33.9, maturityGroup: 4.5, plantedOn: date('2025-11-10'), normalC: climateNormal(-33.9) }),
    )
    // Usual pampas maturity of first soybean: March. Common practice, no source.
    expect(estimate.matureEpochDay).toBeGreaterThan(epochDayOf(date('2026-02-20')))
    expect(estimate.matureEpochDay).toBeLessThan(epochDayOf(date('2026-04-05')))
  })

  test('a variety outside the model has no date, and says so', () => {
    for (const over of [
      { maturityGroup: 12 },
      { crop: 'corn', relativeMaturity: 200 },
      { latDeg: Number.NaN },
    ] as const) {
      const estimate = estimateMaturity(field({ ...measured(0), normalC: climateNormal(40), ...over }))
      expect(estimate.matureEpochDay).toBeNaN()
      expect(estimate.sdDays).toBeNaN()
      expect(estimate.remarks.join()).toContain('No date')
    }
  })
})
