import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { noonWeather, standardOffsetH, sunOffsetH } from '#core/science/fire/noon-weather.ts'
import { epochHourOf } from '#core/units/time.ts'
import { weatherOf } from './weather-of.ts'

const START = epochHourOf(Temporal.Instant.from('2010-09-25T00:00Z'))
const dates = (days: { dates: readonly Temporal.PlainDate[] }) => days.dates.map(String)

describe('standard offset of a zone', () => {
  // Standard time by law or custom, summer time left out; common knowledge.
  it.each([
    ['America/Chicago', -6],
    ['America/Winnipeg', -6],
    ['America/Regina', -6],
    ['Australia/Adelaide', 9.5],
    ['Europe/Dublin', 0],
    ['Asia/Kolkata', 5.5],
    ['America/Sao_Paulo', -3],
    ['UTC', 0],
  ])('%s is %d h', (zone, offset) => {
    expect(standardOffsetH(zone, 2026)).toBe(offset)
  })

  it('goes by the sun where asked', () => {
    expect(sunOffsetH(-90)).toBe(-6)
    expect(sunOffsetH(135)).toBe(9)
  })
})

describe('noon weather', () => {
  it('reads between the two hours around noon standard time, also in summer', () => {
    // Noon CST is 18:00 UTC; a straight line in time is read at its very value.
    const weather = weatherOf(START, 72, {
      airTempC: (h) => h + 0.5,
      relHumidity: (h) => (h + 0.5) / 100,
      windMs: (h) => (h + 0.5) / 10,
      rainMm: () => 0.5,
    })
    const days = noonWeather(weather, 0, -6)
    expect(dates(days)).toEqual(['2010-09-26', '2010-09-27'])
    expect(Array.from(days.airTempC)).toEqual([42, 66])
    expect(days.relHumidity[0]).toBeCloseTo(0.42, 6)
    expect(days.windMs[1]).toBeCloseTo(6.6, 6)
    expect(Array.from(days.rainMm)).toEqual([12, 12])
  })

  it('takes the one hour that is centred on noon where the offset is a half hour', () => {
    // Noon at +5:30 is 06:30 UTC, the middle of the hour from 06:00.
    const weather = weatherOf(START, 48, {
      airTempC: (h) => (h === 30 ? 25 : Number.NaN),
      relHumidity: () => 0.5,
      windMs: () => 1,
      rainMm: () => 0,
    })
    const days = noonWeather(weather, 0, 5.5)
    expect(dates(days)).toEqual(['2010-09-26'])
    expect(days.airTempC[0]).toBe(25)
  })

  it('counts the rain of the 24 hours that end at noon, and no other', () => {
    const weather = weatherOf(START, 72, {
      airTempC: () => 20,
      relHumidity: () => 0.5,
      windMs: () => 1,
      rainMm: (h) => (h === 18 ? 1 : h === 41 ? 2 : h === 42 ? 4 : 0),
    })
    expect(Array.from(noonWeather(weather, 0, -6).rainMm)).toEqual([3, 4])
  })

  it('reads the member asked for', () => {
    const weather = weatherOf(
      START,
      48,
      { airTempC: (_, m) => 10 * m, relHumidity: () => 0.5, windMs: () => 1, rainMm: () => 0 },
      3,
    )
    expect(noonWeather(weather, 2, -6).airTempC[0]).toBe(20)
  })

  it('leaves unknown what is unknown', () => {
    const weather = weatherOf(START, 72, {
      airTempC: (h) => (h === 41 ? Number.NaN : 20),
      relHumidity: () => 0.5,
      windMs: () => 1,
      rainMm: (h) => (h === 50 ? Number.NaN : 0),
    })
    const days = noonWeather(weather, 0, -6)
    expect(Array.from(days.airTempC)).toEqual([Number.NaN, 20])
    expect(Array.from(days.relHumidity)).toEqual([0.5, 0.5])
    expect(Array.from(days.rainMm)).toEqual([0, Number.NaN])
  })

  it('gives days in a row, each with its noon and the 24 h before inside the series', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 200 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: -56, max: 56 }),
        (hours, shift, quarters) => {
          const weather = weatherOf(START + shift, hours, {
            airTempC: () => 20,
            relHumidity: () => 0.5,
            windMs: () => 1,
            rainMm: () => 1,
          })
          const days = noonWeather(weather, 0, quarters / 4)
          expect(days.dates.length).toBeGreaterThanOrEqual(Math.floor((hours - 25) / 24))
          expect(days.dates.length).toBeLessThanOrEqual(Math.max(0, hours / 24))
          days.dates.forEach((date, d) => {
            expect(days.airTempC[d]).toBe(20)
            expect(days.rainMm[d]).toBe(24)
            if (d > 0) expect(date.equals(days.dates[d - 1]!.add({ days: 1 }))).toBe(true)
          })
        },
      ),
    )
  })
})
