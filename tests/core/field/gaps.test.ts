import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { afterLastGap, fillAhead, fillGaps, LONGEST_BRIDGE_H } from '#core/field/gaps.ts'
import { windAt2m } from '#core/science/air/evapotranspiration.ts'
import { champaignAutumn } from '#tests/support/champaign.ts'
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

describe('sunlight that nobody measured', () => {
  const dark = (year: number) => {
    const autumn = champaignAutumn(year)
    return { ...autumn, solarWm2: new Float32Array(autumn.hours).fill(Number.NaN) }
  }

  it('is estimated for every hour and counted; nights are dark', () => {
    const { weather, sunHours } = fillGaps(dark(2009))
    expect(weather.solarWm2.some(Number.isNaN)).toBe(false)
    // July to November at 40 degrees north: about 12.5 h of daylight, each end counted as an hour.
    expect(sunHours / 153).toBeGreaterThan(12)
    expect(sunHours / 153).toBeLessThan(14.5)
    const midnight = 24
    expect(weather.solarWm2[midnight]).toBe(0)
  })

  it('is right in the mean and tells dull days from bright ones', () => {
    // Measured at Champaign (photon flux): daily sums of four autumns against the estimate from temperature alone.
    const real: number[] = []
    const estimated: number[] = []
    for (const year of [1999, 2005, 2011, 2017]) {
      const autumn = champaignAutumn(year)
      const { weather } = fillGaps(dark(year))
      for (let day = 0; day < 152; day++) {
        const sum = (values: Float32Array) =>
          values.subarray(day * 24 + 1, day * 24 + 25).reduce((a, b) => a + b, 0) / 24
        if (Number.isNaN(sum(autumn.solarWm2))) continue
        real.push(sum(autumn.solarWm2))
        estimated.push(sum(weather.solarWm2))
      }
    }
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length
    const [mr, me] = [mean(real), mean(estimated)]
    const spread = (values: readonly number[], m: number) => Math.sqrt(mean(values.map((v) => (v - m) ** 2)))
    const together =
      mean(real.map((v, i) => (v - mr) * (estimated[i]! - me))) / spread(real, mr) / spread(estimated, me)
    expect(Math.abs(me / mr - 1)).toBeLessThan(0.12)
    expect(together).toBeGreaterThan(0.75)
  })

  it('of a few hours takes the clearness of the hours around', () => {
    const autumn = champaignAutumn(2010)
    const solarWm2 = autumn.solarWm2.slice()
    const noon = 40 * 24 + 12
    solarWm2.fill(Number.NaN, noon - 1, noon + 2)
    const { weather, sunHours } = fillGaps({ ...autumn, solarWm2 })
    expect(sunHours).toBe(3)
    for (let h = noon - 1; h < noon + 2; h++)
      expect(Math.abs(weather.solarWm2[h]! / autumn.solarWm2[h]! - 1)).toBeLessThan(0.35)
  })
})

describe('wind that nobody measured', () => {
  it('is the usual one of FAO-56, and counted', () => {
    const { weather, windHours } = fillGaps(plainWeather({ startEpochH: 0, hours: 200, set: { windMs: Number.NaN } }))
    expect(windHours).toBe(200)
    // FAO-56 eq. 47: 2 m/s at 2 m is 2.67 m/s at 10 m.
    expect(windAt2m(weather.windMs[50]!, 10)).toBeCloseTo(2, 1)
  })
})

describe('the stretch that leads to now', () => {
  it('starts after the last long gap', () => {
    const { weather } = fillGaps(withGap(240, 240, 720))
    const led = afterLastGap(weather)
    expect(led.airTempC.some(Number.isNaN)).toBe(false)
    expect(led.startEpochH + led.hours).toBe(weather.startEpochH + weather.hours)
    expect(weather.airTempC[led.startEpochH - 1]).toBeNaN()
  })

  it('is all of it without a gap, and nothing where the end is not known', () => {
    const whole = withGap(0, 0)
    expect(afterLastGap(whole)).toBe(whole)
    expect(afterLastGap(withGap(200, 40)).hours).toBe(0)
  })
})

describe('gaps of a forecast', () => {
  const forecast = plainWeather({
    startEpochH: 0,
    hours: 60,
    members: 2,
    set: {
      airTempC: (m, h) => (m === 1 && h >= 10 && h < 13 ? Number.NaN : 10 + h),
      relHumidity: (m, h) => (m === 0 && h >= 20 && h < 40 ? Number.NaN : 0.6),
      rainMm: (_, h) => (h === 5 ? Number.NaN : 0),
      solarWm2: Number.NaN,
    },
  })
  const filled = fillAhead(forecast)

  it('are bridged when short, in their own member, and left when long', () => {
    expect([...filled.airTempC.slice(60 + 10, 60 + 13)]).toEqual([20, 21, 22])
    expect([...filled.airTempC.slice(0, 60)]).toEqual([...forecast.airTempC.slice(0, 60)])
    expect(filled.relHumidity[30]).toBeNaN()
  })

  it('never become dry hours, and sunlight is estimated', () => {
    expect(filled.rainMm[5]).toBeNaN()
    expect(filled.solarWm2.some(Number.isNaN)).toBe(false)
  })
})
