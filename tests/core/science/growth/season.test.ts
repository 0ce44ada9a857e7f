import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { climateNormal } from '#core/science/growth/normals.ts'
import {
  type DailySeries,
  dailyTemps,
  dateOfEpochDay,
  dayOfYearOf,
  epochDayOf,
  firstKillingFreeze,
  isKnownDay,
  whenReached,
} from '#core/science/growth/season.ts'

const START = Temporal.PlainDate.from('2025-05-01')
const series = (maxC: number[], minC: number[], latDeg = 40): DailySeries => ({
  dailyStart: START,
  dailyMaxC: new Float32Array(maxC),
  dailyMinC: new Float32Array(minC),
  normalC: climateNormal(latDeg),
})

describe('days of a season', () => {
  test('epoch days go there and back; 1 January 2000 is day 10957', () => {
    // ISO 8601 / Unix epoch: 10,957 days from 1970-01-01 to 2000-01-01.
    expect(epochDayOf(Temporal.PlainDate.from('2000-01-01'))).toBe(10_957)
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000 }), fc.double({ min: 0, max: 0.999, noNaN: true }), (day, part) => {
        expect(epochDayOf(dateOfEpochDay(day + part))).toBe(day)
      }),
    )
  })

  test('the day of the year is the calendar one', () => {
    fc.assert(
      fc.property(fc.integer({ min: -25_567, max: 47_846 }), (day) => {
        expect(dayOfYearOf(day)).toBe(dateOfEpochDay(day).dayOfYear)
      }),
      { numRuns: 1000 },
    )
    for (const [text, day] of [
      ['2024-12-31', 366],
      ['2025-12-31', 365],
      ['2025-01-01', 1],
      ['2000-03-01', 61],
      ['1970-01-01', 1],
    ] as const) {
      expect(dayOfYearOf(epochDayOf(Temporal.PlainDate.from(text)))).toBe(day)
    }
  })

  test('known days are kept, unknown ones filled, half-known ones filled whole', () => {
    const known = series([30, Number.NaN, 28], [15, 14, Number.NaN])
    const start = epochDayOf(START)
    const normal = (offset: number) => known.normalC(dateOfEpochDay(start + offset).dayOfYear)
    const temps = dailyTemps(known, 2)
    expect(temps(start)).toEqual({ maxC: 30, minC: 15 })
    for (const offset of [1, 2, 3, 100, -1]) {
      expect(isKnownDay(known, start + offset)).toBe(false)
      expect(temps(start + offset).maxC).toBeCloseTo(normal(offset).maxC + 2, 10)
      expect(temps(start + offset).minC).toBeCloseTo(normal(offset).minC + 2, 10)
    }
  })

  test('a sum is reached when the arithmetic says', () => {
    const temps = () => ({ maxC: 0, minC: 0 })
    expect(whenReached(100, 25, temps, () => 10)).toBe(102.5)
    expect(whenReached(100.5, 25, temps, () => 10)).toBe(103)
    expect(whenReached(100, 25, temps, () => 0)).toBeNaN()
    expect(whenReached(100, 25, temps, () => Number.NaN)).toBeNaN()
    expect(whenReached(Number.NaN, 25, temps, () => 1)).toBeNaN()
  })

  test('in two stages or in one, the end is the same', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        (first, second) => {
          const temps = dailyTemps(series([], []))
          const progress = ({ maxC }: { maxC: number }) => Math.max(0, maxC)
          const half = whenReached(20_000, first, temps, progress)
          expect(whenReached(half, second, temps, progress)).toBeCloseTo(
            whenReached(20_000, first + second, temps, progress),
            6,
          )
        },
      ),
    )
  })

  test('a measured freeze is found, a cool normal night before autumn is not', () => {
    const start = epochDayOf(START)
    const frozen = series([10, 10, 10], [3, 3, -3])
    expect(firstKillingFreeze(frozen, start, start + 100)).toBe(start + 2)
    expect(firstKillingFreeze(frozen, start + 30, start + 100)).toBeUndefined()
  })

  test('half of the years have had their freeze by mid-October in Iowa', () => {
    // Median date of the first 28 F at Ames: about 12 October. From memory.
    const start = epochDayOf(START)
    const day = firstKillingFreeze(series([], [], 42), start + 60, start + 300) ?? Number.NaN
    expect(Math.abs(day - epochDayOf(Temporal.PlainDate.from('2025-10-12')))).toBeLessThanOrEqual(7)
  })
})
