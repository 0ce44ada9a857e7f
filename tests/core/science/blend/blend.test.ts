import { describe, expect, it } from 'vitest'
import { blend, type Candidate } from '#core/science/blend/blend.ts'
import { emptySkill, learn } from '#core/science/blend/skill.ts'
import { growMembers } from '#core/science/spread/grow-members.ts'
import type { Weather } from '#core/units/weather.ts'
import { CHAMPAIGN_YEARS } from '#tests/support/champaign.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { trialForecast } from '#tests/support/trial-forecasts.ts'

const candidate = (id: string, weather: Weather): Candidate => ({ id, weather, chances: {}, skill: emptySkill() })
const issued = (weather: Weather, issuedAtEpochH: number): Weather => ({
  ...weather,
  provenance: { ...weather.provenance, issuedAtEpochH, source: `issued ${issuedAtEpochH}` },
})
const plain = (tempC: number, hours = 120, startEpochH = 1000) =>
  issued(plainWeather({ startEpochH, hours, set: { airTempC: tempC } }), startEpochH)

describe('one source', () => {
  it('stays as it is', () => {
    const { forecast } = trialForecast(2009, 2000, 120, 1)
    const { weather, shares } = blend([candidate('a', forecast)], forecast.startEpochH)
    for (const name of ['airTempC', 'relHumidity', 'windMs', 'rainMm', 'solarWm2'] as const)
      for (let h = 0; h < 120; h++) expect(weather[name][h], `${name} ${h}`).toBeCloseTo(forecast[name][h]!, 3)
    expect(shares).toEqual([{ id: 'a', share: 1 }])
  })
})

describe('two sources', () => {
  it('of one age share evenly, an older one counts less', () => {
    const even = blend([candidate('a', plain(10)), candidate('b', plain(20))], 1000)
    expect(even.weather.airTempC[24]).toBeCloseTo(15, 4)
    const older = issued(plain(20), 1000 - 72)
    const uneven = blend([candidate('a', plain(10)), candidate('b', older)], 1000)
    expect(uneven.weather.airTempC[24]).toBeLessThan(14)
    expect(uneven.shares[0]!.share).toBeGreaterThan(0.6)
  })

  it('that do not end together leave no step', () => {
    const { weather } = blend([candidate('a', plain(10, 60)), candidate('b', plain(20, 120))], 1000)
    expect(weather.hours).toBe(120)
    for (let h = 1; h < 120; h++) expect(Math.abs(weather.airTempC[h]! - weather.airTempC[h - 1]!)).toBeLessThan(1.2)
    expect(weather.airTempC[119]).toBeCloseTo(20, 4)
  })

  it('rain and sunlight come from one of them, the first of the farm unless the other is much fresher', () => {
    const wet = issued(plainWeather({ startEpochH: 1000, hours: 48, set: { rainMm: 2, solarWm2: 50 } }), 1000)
    const dry = issued(plainWeather({ startEpochH: 1000, hours: 48 }), 1000)
    expect(blend([candidate('a', wet), candidate('b', dry)], 1000).weather.rainMm[5]).toBe(2)
    expect(blend([candidate('a', issued(wet, 985)), candidate('b', dry)], 1000).weather.rainMm[5]).toBe(0)
    expect(blend([candidate('a', issued(wet, 985)), candidate('b', dry)], 1000).weather.solarWm2[5]).toBe(300)
  })

  it('what one lacks the other gives', () => {
    const bare = issued(
      plainWeather({ startEpochH: 1000, hours: 48, set: { gustMs: Number.NaN, windFromDeg: Number.NaN } }),
      1000,
    )
    const { weather } = blend([candidate('a', bare), candidate('b', plain(20))], 1000)
    expect(weather.gustMs[3]).toBe(6)
    expect(weather.windFromDeg[3]).toBe(225)
  })
})

describe('members', () => {
  it('are kept and moved as a whole, their rain with them', () => {
    const { forecast } = trialForecast(2011, 2000, 120, 3)
    const ensemble = growMembers(forecast, { members: 20, seed: 1, usualRainDayShare: 0.29, ageH: 0 })
    const other = { ...forecast, airTempC: forecast.airTempC.map((tempC) => tempC + 4) }
    const { weather } = blend([candidate('ens', ensemble), candidate('single', other)], forecast.startEpochH)
    expect(weather.members).toBe(20)
    expect(weather.provenance.spread).toBe('ensemble')
    expect(weather.rainMm).toEqual(ensemble.rainMm)
    const meanAt = (values: Float32Array, h: number) => {
      let sum = 0
      for (let m = 0; m < 20; m++) sum += values[m * 120 + h]!
      return sum / 20
    }
    const shift = meanAt(weather.airTempC, 30) - meanAt(ensemble.airTempC, 30)
    expect(shift).toBeGreaterThan(1)
    expect(shift).toBeLessThan(3)
    for (let m = 0; m < 20; m++)
      expect(weather.airTempC[m * 120 + 30]! - ensemble.airTempC[m * 120 + 30]!).toBeCloseTo(shift, 3)
  })
})

describe('chances', () => {
  it('of rain come from the source that gives them, hour for hour', () => {
    const popPct = Float32Array.from({ length: 120 }, (_, h) => h)
    const said: Candidate = {
      ...candidate('b', plain(20)),
      chances: { popPct, popBlockH: new Float32Array(120).fill(6) },
    }
    const { chances } = blend([candidate('a', plain(10)), said], 1010)
    expect(chances.popPct![0]).toBe(10)
    expect(chances.airTempP10C).toBeUndefined()
  })
})

it('on 28 autumns the blend of two services is better than either', () => {
  const squares = { a: 0, b: 0, both: 0 }
  for (const year of CHAMPAIGN_YEARS)
    for (const day of [70, 90, 110]) {
      const a = trialForecast(year, day * 24, 168, year * 7 + day)
      const b = trialForecast(year, day * 24, 168, year * 11 + day)
      const { weather } = blend([candidate('a', a.forecast), candidate('b', b.forecast)], a.forecast.startEpochH)
      for (let h = 0; h < 168; h += 3) {
        const came = a.truth.airTempC[h]!
        if (Number.isNaN(came)) continue
        squares.a += (a.forecast.airTempC[h]! - came) ** 2
        squares.b += (b.forecast.airTempC[h]! - came) ** 2
        squares.both += (weather.airTempC[h]! - came) ** 2
      }
    }
  expect(squares.both).toBeLessThan(0.95 * Math.min(squares.a, squares.b))
})

it('a source that did badly of late counts less', () => {
  const seen = plainWeather({ startEpochH: 0, hours: 240 })
  let bad = emptySkill()
  for (let n = 0; n < 40; n++) {
    const noisy = plainWeather({
      startEpochH: 0,
      hours: 240,
      set: { airTempC: (_, h) => 20 + ((h + n) % 2 === 0 ? 6 : -6) },
    })
    bad = learn(bad, issued(noisy, 0), seen, 0, 240)
  }
  const { weather, errorScale } = blend([candidate('a', plain(10)), { ...candidate('b', plain(20)), skill: bad }], 1000)
  expect(weather.airTempC[24]).toBeLessThan(13)
  expect(errorScale.airTempC).toBeGreaterThan(0.9)
})
