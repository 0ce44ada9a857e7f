import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { classOf, correction, emptySkill, expectedSquare, learn, usualSquare } from '#core/science/blend/skill.ts'
import type { Weather } from '#core/units/weather.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { trialForecast } from '#tests/support/trial-forecasts.ts'

const issued = (weather: Weather, issuedAtEpochH: number): Weather => ({
  ...weather,
  provenance: { ...weather.provenance, issuedAtEpochH },
})
const seen = plainWeather({ startEpochH: 1000, hours: 240 })
const off = (byC: number) => issued(plainWeather({ startEpochH: 1000, hours: 240, set: { airTempC: 20 + byC } }), 1000)

describe('learning', () => {
  it('finds a steady error, by half after 120 hours and nearly all in the end, and takes it off with its sign', () => {
    let skill = emptySkill()
    for (let day = 0; day < 30; day++) skill = learn(skill, off(1.5), seen, 1000, 1012)
    const night = correction(skill, 'airTempC', classOf(3, false))
    const day = correction(skill, 'airTempC', classOf(3, true))
    expect(Math.max(night, day)).toBeGreaterThan(0.9)
    expect(Math.max(night, day)).toBeLessThan(1.5)
    const once = learn(emptySkill(), off(1.5), seen, 1000, 1006)
    expect(Math.abs(correction(once, 'airTempC', classOf(3, true)))).toBeLessThan(0.1)
  })

  it('never corrects beyond its bounds, whatever was seen', () => {
    fc.assert(
      fc.property(fc.double({ min: -80, max: 80, noNaN: true }), fc.integer({ min: 1, max: 40 }), (byC, rounds) => {
        let skill = emptySkill()
        for (let n = 0; n < rounds; n++) skill = learn(skill, off(byC), seen, 1000, 1240)
        for (let k = 0; k < 10; k++) {
          expect(Math.abs(correction(skill, 'airTempC', k))).toBeLessThanOrEqual(3)
          expect(Math.abs(correction(skill, 'dewPointC', k))).toBeLessThanOrEqual(3)
          expect(Math.abs(correction(skill, 'logWind', k))).toBeLessThanOrEqual(0.45)
          expect(expectedSquare(skill, 'airTempC', k, 12)).toBeGreaterThanOrEqual(0)
        }
      }),
      { numRuns: 30 },
    )
  })

  it('passes over what is not known', () => {
    const unknown = plainWeather({ startEpochH: 1000, hours: 240, set: { airTempC: Number.NaN, windMs: Number.NaN } })
    const skill = learn(emptySkill(), off(2), unknown, 1000, 1240)
    expect(skill.airTempC.every(({ count }) => count === 0)).toBe(true)
    expect(learn(emptySkill(), off(2), seen, 5000, 6000)).toEqual(emptySkill())
  })

  it('without anything seen expects the usual error and corrects nothing', () => {
    expect(correction(emptySkill(), 'airTempC', 0)).toBe(0)
    expect(expectedSquare(emptySkill(), 'airTempC', 4, 60)).toBeCloseTo(usualSquare('airTempC', 60), 9)
  })
})

it('on real autumns, a source that runs 2 deg C warm comes out better after three weeks of learning', () => {
  const warm = (weather: Weather): Weather => ({ ...weather, airTempC: weather.airTempC.map((tempC) => tempC + 2) })
  let skill = emptySkill()
  for (let day = 70; day < 91; day++) {
    const { forecast, truth } = trialForecast(2012, day * 24, 120, day)
    skill = learn(skill, warm(forecast), truth, truth.startEpochH, truth.startEpochH + truth.hours)
  }
  let before = 0
  let after = 0
  let hours = 0
  for (let day = 91; day < 111; day++) {
    const { forecast, truth } = trialForecast(2012, day * 24, 120, day)
    const said = warm(forecast)
    for (let h = 0; h < 72; h++) {
      const error = said.airTempC[h]! - truth.airTempC[h]!
      if (Number.isNaN(error)) continue
      const isDay = truth.solarWm2[h]! > 0
      before += error ** 2
      after += (error - correction(skill, 'airTempC', classOf(h, isDay))) ** 2
      hours++
    }
  }
  expect(Math.sqrt(after / hours)).toBeLessThan(Math.sqrt(before / hours) * 0.85)
})
