import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fillGaps, LONGEST_BRIDGE_H } from '#core/field/gaps.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const withGap = (from: number, length: number, hours = 240) =>
  plainWeather({
    startEpochH: 0,
    hours,
    set: { airTempC: (_, h) => (h >= from && h < from + length ? Number.NaN : 10 + (h % 24)) },
  })

describe('short gaps', () => {
  it('are bridged in a straight line', () => {
    const { weather, filled } = fillGaps(withGap(100, 3))
    expect([...weather.airTempC.slice(99, 104)]).toEqual([13, 14, 15, 16, 17])
    expect(filled).toBe(3)
  })

  it('never leave the range of their neighbours', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: LONGEST_BRIDGE_H }), (from, length) => {
        const { weather } = fillGaps(withGap(from, length))
        const [a, b] = [weather.airTempC[from - 1]!, weather.airTempC[from + length]!]
        const inside = [...weather.airTempC.slice(from, from + length)]
        expect(Math.min(...inside)).toBeGreaterThanOrEqual(Math.min(a, b))
        expect(Math.max(...inside)).toBeLessThanOrEqual(Math.max(a, b))
      }),
    )
  })
})

describe('longer gaps', () => {
  it('of a day are taken from the day before, hour by hour, not drawn in a line', () => {
    const { weather } = fillGaps(withGap(96, 24))
    for (let h = 96; h < 120; h++) expect(weather.airTempC[h]).toBe(10 + (h % 24))
  })

  it('of ten days keep a middle that is not known, and that is told', () => {
    const { weather, unknownHours } = fillGaps(withGap(240, 240, 720))
    expect(weather.airTempC[360]).toBeNaN()
    expect(unknownHours).toBeGreaterThan(0)
  })
})

describe('what is known', () => {
  it('is never touched, and nothing is filled where nothing is missing', () => {
    const weather = withGap(0, 0)
    const filled = fillGaps(weather)
    expect(filled.filled).toBe(0)
    expect(filled.unknownHours).toBe(0)
    expect([...filled.weather.airTempC]).toEqual([...weather.airTempC])
  })

  it('the series handed in is left as it was', () => {
    const weather = withGap(100, 3)
    fillGaps(weather)
    expect(weather.airTempC[101]).toBeNaN()
  })

  it('several members are refused: a gap is one of measurement', () => {
    expect(() => fillGaps(plainWeather({ startEpochH: 0, hours: 24, members: 2 }))).toThrow(RangeError)
  })

  it('weather without any known hour stays unknown', () => {
    const nothing = plainWeather({ startEpochH: 0, hours: 48, set: { airTempC: Number.NaN, relHumidity: Number.NaN } })
    const { weather, unknownHours } = fillGaps(nothing)
    expect(weather.airTempC.every(Number.isNaN)).toBe(true)
    expect(unknownHours).toBe(48)
  })
})
