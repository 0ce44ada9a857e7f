import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { droughtDayLength, duffDayLength } from '#core/science/fire/day-length.ts'

const MONTHS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]

describe('day length of the codes', () => {
  it('holds the northern tables of Van Wagner 1987', () => {
    // April, used by the published single calls, is confirmed through them: duff 12.8, drought 0.9.
    expect(duffDayLength(4, 46)).toBe(12.8)
    expect(droughtDayLength(4, 46)).toBe(0.9)
  })

  it('holds the southern and tropical January values behind the test data of the Canadian Forest Service', () => {
    // Rows at -90 and -17.1 in tests/truth/fire-weather-index.ts work out to these.
    expect(duffDayLength(1, -90)).toBe(11.5)
    expect(duffDayLength(1, -17.1)).toBe(10.1)
    expect(droughtDayLength(1, -90)).toBe(6.4)
    expect(droughtDayLength(1, -17.1)).toBe(1.4)
  })

  it('changes belt where told', () => {
    expect([30, 29.9, 10, 9.9, -9.9, -10, -29.9, -30].map((lat) => duffDayLength(6, lat))).toEqual([
      13.9, 10.2, 10.2, 9, 9, 7.8, 7.8, 6.2,
    ])
    expect([20, 19.9, -19.9, -20].map((lat) => droughtDayLength(7, lat))).toEqual([6.4, 1.4, 1.4, -1.6])
  })

  it('gives the southern drought values half a year after the northern', () => {
    for (const m of MONTHS) expect(droughtDayLength(m, -45)).toBe(droughtDayLength(((m + 5) % 12) + 1, 45))
  })

  it('is longer in summer than in winter outside the tropics', () => {
    fc.assert(
      fc.property(fc.double({ min: 30, max: 90, noNaN: true }), (lat) => {
        expect(duffDayLength(6, lat)).toBeGreaterThan(duffDayLength(12, lat))
        expect(duffDayLength(6, -lat)).toBeLessThan(duffDayLength(12, -lat))
        expect(droughtDayLength(6, lat)).toBeGreaterThan(droughtDayLength(12, lat))
        expect(droughtDayLength(6, -lat)).toBeLessThan(droughtDayLength(12, -lat))
      }),
    )
  })

  it('knows no other month or latitude', () => {
    for (const month of [0, 13, 1.5, Number.NaN]) {
      expect(duffDayLength(month, 45)).toBeNaN()
      expect(droughtDayLength(month, 45)).toBeNaN()
    }
    for (const lat of [91, -91, Number.NaN]) {
      expect(duffDayLength(1, lat)).toBeNaN()
      expect(droughtDayLength(1, lat)).toBeNaN()
    }
  })
})
