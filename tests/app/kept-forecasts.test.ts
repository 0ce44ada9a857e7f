import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { forecastsOf } from '#app/kept-forecasts.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'

const part = { key: 'alpha/hole', areaHa: 4, field: { id: 'alpha', crop: 'corn' } } as unknown as FieldPart
const outlookOf = (courses: number, hours: number, value: (course: number, hour: number) => number): Outlook =>
  ({
    part,
    startEpochH: 356_938,
    hours,
    courses,
    moistureWb: Float32Array.from({ length: courses * hours }, (_, i) => value(Math.floor(i / hours), i % hours)),
  }) as unknown as Outlook
const dayWith = (...outlooks: Outlook[]) => ({
  farm: { id: 'larkspur' } as Farm,
  date: Temporal.PlainDate.from('2010-09-20'),
  nowEpochH: 356_938.4,
  partOutlooks: outlooks,
})

describe('a kept forecast', () => {
  it('names farm, part, crop, day and hours', () => {
    const [kept] = forecastsOf(dayWith(outlookOf(5, 3, () => 14)))
    expect({ ...kept, moistureWb: [...kept!.moistureWb] }).toEqual({
      farmId: 'larkspur',
      partKey: 'alpha/hole',
      crop: 'corn',
      madeOn: Temporal.PlainDate.from('2010-09-20'),
      madeAtEpochH: 356_938.4,
      startEpochH: 356_938,
      hours: 3,
      moistureWb: Array.from({ length: 30 }, () => 14),
    })
  })

  it('holds the ten middles of an even spread, hour by hour', () => {
    // 101 courses spread evenly from 10 to 20 %: the share s of them lies below 10 + 10 s.
    const [kept] = forecastsOf(dayWith(outlookOf(101, 2, (course, hour) => 10 + course / 10 + hour)))
    const even = [10.5, 11.5, 12.5, 13.5, 14.5, 15.5, 16.5, 17.5, 18.5, 19.5]
    for (const [i, value] of kept!.moistureWb.entries()) {
      expect(value).toBeCloseTo(even[i % 10]! + Math.floor(i / 10), 4)
    }
  })

  it('rises from value to value and stays within the courses; an hour unknown in one course is unknown', () => {
    const wb = fc.float({ min: 5, max: 60, noNaN: true })
    fc.assert(
      fc.property(fc.array(wb, { minLength: 1, maxLength: 60 }), (values) => {
        const [kept] = forecastsOf(dayWith(outlookOf(values.length, 2, (c, h) => (h === 0 ? values[c]! : Number.NaN))))
        const known = [...kept!.moistureWb.subarray(0, 10)]
        expect(known).toEqual(known.toSorted((a, b) => a - b))
        expect(known[0]).toBeGreaterThanOrEqual(Math.min(...values))
        expect(known[9]).toBeLessThanOrEqual(Math.max(...values))
        expect(kept!.moistureWb.subarray(10).every(Number.isNaN)).toBe(true)
      }),
    )
  })
})
