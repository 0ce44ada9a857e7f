import { describe, expect, it } from 'vitest'
import { dailyExtremes } from '#core/field/daily-temps.ts'
import { epochHoursOf, zonedAt } from '#core/units/time.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const days = (values: Float32Array) => [...values].map((v) => Math.round(v * 100) / 100)

/** Temperature that tells its own hour: date x 100 + hour of the local clock. */
const told = (startEpochH: number, count: number, zone: string) =>
  plainWeather({
    startEpochH,
    hours: count,
    set: {
      airTempC: (_, h) => {
        const local = zonedAt(startEpochH + h, zone)
        return local.day + local.hour / 100
      },
    },
  })

describe('extremes of local days', () => {
  it('stay on their own side of midnight, on days of 23 and 25 hours too', () => {
    for (const [zone, start] of [
      ['America/Chicago', '2010-11-06T05:00Z'],
      ['America/Chicago', '2010-03-13T06:00Z'],
      ['Asia/Kolkata', '2010-11-05T19:00Z'],
      ['Australia/Adelaide', '2010-10-01T15:00Z'],
    ] as const) {
      const weather = told(hours(start), 73, zone)
      const { dailyStart, dailyMaxC, dailyMinC } = dailyExtremes([weather], zone)
      for (let d = 0; d < 3; d++) {
        const { day } = dailyStart.add({ days: d })
        if (Number.isNaN(dailyMaxC[d]!)) continue
        expect(Math.floor(dailyMaxC[d]!), `${zone} day ${d}`).toBe(day)
        expect(Math.floor(dailyMinC[d]!), `${zone} day ${d}`).toBe(day)
      }
      expect(days(dailyMaxC.slice(0, 3)).every(Number.isFinite)).toBe(true)
    }
  })

  it('run on over several stretches, and a day of which too little is known is not known', () => {
    const start = hours('2010-09-01T05:00Z')
    const past = plainWeather({ startEpochH: start, hours: 36, set: { airTempC: (_, h) => (h < 5 ? Number.NaN : h) } })
    const ahead = plainWeather({ startEpochH: start + 36, hours: 20, set: { airTempC: (_, h) => 36 + h } })
    const { dailyStart, dailyMaxC, dailyMinC } = dailyExtremes([past, ahead], 'America/Chicago')
    expect(dailyStart.toString()).toBe('2010-09-01')
    expect(days(dailyMaxC)).toEqual([Number.NaN, 47, Number.NaN])
    expect(days(dailyMinC)).toEqual([Number.NaN, 24, Number.NaN])
  })

  it('uses the first member of an ensemble, and refuses no weather at all', () => {
    const start = hours('2010-09-01T05:00Z')
    const two = plainWeather({ startEpochH: start, hours: 24, members: 2, set: { airTempC: (m, h) => 100 * m + h } })
    expect(days(dailyExtremes([two], 'America/Chicago').dailyMaxC)).toEqual([23])
    expect(() => dailyExtremes([], 'America/Chicago')).toThrow(RangeError)
  })
})
