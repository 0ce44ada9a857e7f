import { describe, expect, it } from 'vitest'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { hoursBetween, joinPast, lastKnownEpochH } from '#work/weather-past.ts'

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
    const joined = joinPast(station, analysis)!
    expect(joined.startEpochH).toBe(103)
    expect([...joined.airTempC.slice(0, 9)]).toEqual([22, 22, 11, 11, 11, 11, 11, 22, 11])
    expect(joined.solarWm2[4]).toBe(400)
    expect(joined.provenance.remarks.at(-1)).toMatch(/^20 h of the past/)
    expect(joined.provenance.spread).toBe('observed')
  })

  it('of stations alone borrows nothing; of nobody is nothing', () => {
    expect(joinPast(analysis, undefined)!.provenance.remarks).toEqual(analysis.provenance.remarks)
    expect(joinPast(undefined, undefined)).toBeUndefined()
  })

  it('cut to hours keeps them in their place', () => {
    const part = hoursBetween(analysis, 105, 110)!
    expect([part.startEpochH, part.hours, part.airTempC.length]).toEqual([105, 5, 5])
    expect(hoursBetween(analysis, 130, 140)).toBeUndefined()
    expect(hoursBetween(analysis, 90, 104)!.hours).toBe(4)
  })

  it('knows its last known hour', () => {
    expect(lastKnownEpochH(station)).toBe(119)
    expect(lastKnownEpochH(plainWeather({ startEpochH: 0, hours: 3, set: { airTempC: Number.NaN } }))).toBeNaN()
    expect(lastKnownEpochH(undefined)).toBeNaN()
  })
})
