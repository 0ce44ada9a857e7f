import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DRY_WIND_NO,
  DRY_WIND_UNKNOWN,
  DRY_WIND_YES,
  dryWindHours,
  isDryWind,
  PUBLISHED_DRY_WIND,
} from '#core/science/fire/dry-wind.ts'
import { MS_PER_MPH } from '#core/units/convert.ts'
import { RED_FLAG } from '#tests/truth/fire-measures.ts'
import { weatherOf } from './weather-of.ts'

const either = { relHumidity: 0.2, windMs: 9, gustMs: 11, lastsH: 3 }

describe('published criteria', () => {
  // US National Weather Service offices, see tests/truth/fire-measures.ts.
  it.each(Object.entries(RED_FLAG))('%s', (place, row) => {
    const ours = PUBLISHED_DRY_WIND[place as keyof typeof PUBLISHED_DRY_WIND]
    expect(ours.relHumidity).toBeCloseTo(row.humidity / 100, 12)
    expect(ours.lastsH).toBe(row.hours)
    if ('gustMph' in row) expect(ours.gustMs).toBeCloseTo(row.gustMph * MS_PER_MPH, 12)
    if ('windMph' in row && 'windMs' in ours) expect(ours.windMs).toBeCloseTo(row.windMph * MS_PER_MPH, 12)
    // Wind at 20 ft is 0.886 of that at 10 m (Lindley et al. 2011).
    if ('windMph20ft' in row && 'windMs' in ours) {
      expect(ours.windMs).toBeCloseTo((row.windMph20ft * MS_PER_MPH) / 0.886, 12)
      expect(ours.gustMs).toBeCloseTo((row.gustMph20ft * MS_PER_MPH) / 0.886, 12)
    }
  })
})

describe('one hour', () => {
  it('needs dry air and one of the winds', () => {
    expect(isDryWind(0.2, 9, 0, either)).toBe(DRY_WIND_YES)
    expect(isDryWind(0.2, 8.9, 11, either)).toBe(DRY_WIND_YES)
    expect(isDryWind(0.2, 8.9, 10.9, either)).toBe(DRY_WIND_NO)
    expect(isDryWind(0.21, 20, 30, either)).toBe(DRY_WIND_NO)
  })

  it('takes a figure as met though stored with 32 bits', () => {
    for (const criteria of Object.values(PUBLISHED_DRY_WIND)) {
      const humidity = Math.fround(criteria.relHumidity)
      expect(isDryWind(humidity, 0, Math.fround(criteria.gustMs), criteria)).toBe(DRY_WIND_YES)
    }
  })

  it('is unknown only where the unknown value could decide', () => {
    expect(isDryWind(Number.NaN, 20, 30, either)).toBe(DRY_WIND_UNKNOWN)
    expect(isDryWind(Number.NaN, 2, 3, either)).toBe(DRY_WIND_NO)
    expect(isDryWind(0.1, 20, Number.NaN, either)).toBe(DRY_WIND_YES)
    expect(isDryWind(0.1, 2, Number.NaN, either)).toBe(DRY_WIND_UNKNOWN)
    expect(isDryWind(0.5, Number.NaN, Number.NaN, either)).toBe(DRY_WIND_NO)
    expect(isDryWind(0.1, Number.NaN, 2, PUBLISHED_DRY_WIND['western-kansas'])).toBe(DRY_WIND_NO)
  })
})

describe('hours in a row', () => {
  const hours = (gusts: readonly number[]) =>
    Array.from(
      dryWindHours(
        weatherOf(0, gusts.length, { relHumidity: () => 0.1, windMs: () => 1, gustMs: (h) => gusts[h]! }),
        0,
        either,
      ),
    )

  it('counts runs that last', () => {
    expect(hours([12, 12, 0, 12, 12, 12, 0])).toEqual([0, 0, 0, 1, 1, 1, 0])
  })

  it('calls a run unknown if unknown hours could make it last', () => {
    expect(hours([12, Number.NaN, 12, 0, 12, 12, 0])).toEqual([2, 2, 2, 0, 0, 0, 0])
    expect(hours([12, 12, 12, Number.NaN, 0])).toEqual([1, 1, 1, 2, 0])
  })

  it('never says yes where the single hour does not', () => {
    const gust = fc.oneof(fc.constant(Number.NaN), fc.double({ min: 0, max: 30, noNaN: true }))
    fc.assert(
      fc.property(fc.array(gust, { maxLength: 40 }), (gusts) => {
        hours(gusts).forEach((code, h) => {
          const single = isDryWind(0.1, 1, Math.fround(gusts[h]!), either)
          if (single === DRY_WIND_NO) expect(code).toBe(DRY_WIND_NO)
          if (code === DRY_WIND_YES) expect(single).toBe(DRY_WIND_YES)
        })
      }),
    )
  })
})
