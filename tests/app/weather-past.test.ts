import { describe, expect, it } from 'vitest'
import { joinPast, lastKnownEpochH } from '#app/weather-past.ts'
import type { Weather } from '#core/units/weather.ts'
import { sharedHours } from '#core/units/weather-hours.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const station = plainWeather({
  startEpochH: 100,
  hours: 20,
  set: { airTempC: (_, h) => (h < 5 || h === 10 ? Number.NaN : 11), solarWm2: Number.NaN },
})
const analysis = plainWeather({
  startEpochH: 100,
  hours: 20,
  set: { airTempC: (_, h) => (h < 3 ? Number.NaN : 22), solarWm2: 400 },
})

describe('the past', () => {
  it('is what was measured, and where nothing was the forecast as it passed; that is counted', () => {
    const joined = joinPast({ station, analysis, history: [] })!
    expect(joined.startEpochH).toBe(103)
    expect([...joined.airTempC.slice(0, 9)]).toEqual([22, 22, 11, 11, 11, 11, 11, 22, 11])
    expect(joined.solarWm2[4]).toBe(400)
    expect(joined.provenance.remarks.at(-1)).toMatch(/^20 h of the past/)
    expect(joined.provenance.spread).toBe('observed')
  })

  it('of stations alone borrows nothing; of nobody is nothing', () => {
    expect(joinPast({ station: analysis, analysis: undefined, history: [] })!.provenance.remarks).toEqual(
      analysis.provenance.remarks,
    )
    expect(joinPast({ station: undefined, analysis: undefined, history: [] })).toBeUndefined()
  })

  it('that nobody saw comes from a source of history, the first that knows it, and both are credited', () => {
    const credited = (weather: Weather, source: string): Weather => ({
      ...weather,
      provenance: { ...weather.provenance, source, attribution: `by ${source}`, licence: `of ${source}`, remarks: [] },
    })
    const first = credited(
      plainWeather({ startEpochH: 100, hours: 20, set: { airTempC: (_, h) => (h < 2 ? Number.NaN : 33) } }),
      'first',
    )
    const second = credited(plainWeather({ startEpochH: 100, hours: 20, set: { airTempC: 44 } }), 'second')
    const silent = credited(
      plainWeather({
        startEpochH: 100,
        hours: 20,
        set: {
          airTempC: (_, h) => (h < 5 ? Number.NaN : 11),
          relHumidity: (_, h) => (h < 5 ? Number.NaN : 0.5),
        },
      }),
      'stations',
    )
    const joined = joinPast({ station: silent, analysis: undefined, history: [first, second] })!
    expect(joined.startEpochH).toBe(100)
    expect([...joined.airTempC.slice(0, 7)]).toEqual([44, 44, 33, 33, 33, 11, 11])
    expect(joined.relHumidity[6]).toBe(0.5)
    expect(joined.provenance.remarks).toEqual(['3 h of the past from first', '2 h of the past from second'])
    expect(joined.provenance.attribution).toBe('by stations; by first; by second')
    expect(joined.provenance.licence).toBe('of stations; of first; of second')
    // What is not used is not credited.
    const plenty = joinPast({ station: second, analysis: undefined, history: [first] })!
    expect(plenty.provenance.attribution).toBe('by second')
  })

  it('cut to hours keeps them in their place', () => {
    const part = sharedHours(analysis, 105, 110)!
    expect([part.startEpochH, part.hours, part.airTempC.length]).toEqual([105, 5, 5])
    expect(sharedHours(analysis, 130, 140)).toBeUndefined()
    expect(sharedHours(analysis, 90, 104)!.hours).toBe(4)
  })

  it('knows its last known hour', () => {
    expect(lastKnownEpochH(station)).toBe(119)
    expect(lastKnownEpochH(plainWeather({ startEpochH: 0, hours: 3, set: { airTempC: Number.NaN } }))).toBeNaN()
    expect(lastKnownEpochH(undefined)).toBeNaN()
  })
})
