import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { FORECAST_NEED, refuseIfThin, screened } from '#edges/sources/screen.ts'
import { SourceTooThin } from '#work/failures.ts'
import { outOfRange } from './support/out-of-range.ts'

function weather(hours: number, members = 1): Weather {
  const arrays = unknownWeatherArrays(members, hours)
  for (let i = 0; i < members * hours; i++) {
    arrays.airTempC[i] = 15 + (i % 24) / 2
    arrays.relHumidity[i] = 0.4 + (i % 20) / 50
    arrays.rainMm[i] = 0
    arrays.windMs[i] = 3 + (i % 7) / 2
    arrays.gustMs[i] = 8
    arrays.windFromDeg[i] = (i * 10) % 360
    arrays.solarWm2[i] = 30 * (i % 24)
  }
  return {
    place: { latDeg: 41, lonDeg: -96, elevationM: 300 },
    startEpochH: 440_000,
    hours,
    members,
    ...arrays,
    provenance: {
      source: 'S',
      attribution: '',
      licence: '',
      issuedAtEpochH: 440_000,
      spread: 'single',
      remarks: ['first'],
    },
  }
}

describe('the screen', () => {
  it('leaves good weather as it is', () => {
    expect(screened(weather(72), 'observed')).toEqual(weather(72))
  })

  it.each([
    ['airTempC', 57.1, 'temperature', 'not possible'],
    ['airTempC', -60.5, 'temperature', 'not possible'],
    ['relHumidity', 0.007, 'humidity', 'not possible'],
    ['relHumidity', 1.2, 'humidity', 'not possible'],
    ['rainMm', -0.1, 'rain', 'not possible'],
    ['rainMm', 400, 'rain', 'not possible'],
    ['windMs', 90, 'wind', 'not possible'],
    ['gustMs', 150, 'gusts', 'not possible'],
    ['windFromDeg', 361, 'wind direction', 'not possible'],
    ['solarWm2', 1500, 'sunlight', 'not possible'],
    ['airTempC', Number.POSITIVE_INFINITY, 'temperature', 'not possible'],
    ['airTempC', 45, 'temperature', 'jumped'],
    ['windMs', 60, 'wind', 'jumped'],
  ] as const)('drops %s of %d and says so', (variable, value, spoken, why) => {
    const spoiled = weather(72)
    spoiled[variable][30] = value
    const clean = screened(spoiled, 'forecast')
    expect(clean[variable][30]).toBeNaN()
    expect(clean[variable].filter(Number.isNaN)).toHaveLength(1)
    expect(clean.provenance.remarks).toEqual(['first', `1 h of ${spoken} left out: ${why}.`])
    expect(spoiled[variable][30]).toBe(Math.fround(value))
  })

  it('drops both sides of a step that no weather makes', () => {
    const spoiled = weather(72)
    for (let h = 30; h < 72; h++) spoiled.airTempC[h]! -= 40
    expect(
      Array.from(screened(spoiled, 'observed').airTempC, Number.isNaN).flatMap((gone, h) => (gone ? [h] : [])),
    ).toEqual([29, 30])
  })

  it('takes no step across members for a jump', () => {
    const two = weather(48, 2)
    for (let i = 0; i < 48; i++) two.airTempC[i] = -20 + i / 100
    expect(screened(two, 'forecast').airTempC.some(Number.isNaN)).toBe(false)
  })

  it('drops a stuck sensor, but not saturated air, calm, or what a forecast repeats', () => {
    const stuck = (from: number, to: number, variable: 'airTempC' | 'relHumidity' | 'windMs', value: number) => {
      const w = weather(72)
      w[variable].fill(value, from, to)
      return w
    }
    const lost = (w: Weather, kind: 'observed' | 'forecast', variable: 'airTempC' | 'relHumidity' | 'windMs') =>
      screened(w, kind)[variable].filter(Number.isNaN).length
    expect(lost(stuck(10, 23, 'airTempC', 20.1), 'observed', 'airTempC')).toBe(13)
    expect(lost(stuck(10, 22, 'airTempC', 20.1), 'observed', 'airTempC')).toBe(0)
    expect(lost(stuck(10, 23, 'airTempC', 20.1), 'forecast', 'airTempC')).toBe(0)
    expect(lost(stuck(0, 72, 'airTempC', 20.1), 'forecast', 'airTempC')).toBe(72)
    expect(lost(stuck(10, 50, 'relHumidity', 0.61), 'observed', 'relHumidity')).toBe(40)
    expect(lost(stuck(10, 50, 'relHumidity', 1), 'observed', 'relHumidity')).toBe(0)
    expect(lost(stuck(0, 72, 'windMs', 0), 'observed', 'windMs')).toBe(0)
    expect(lost(stuck(0, 30, 'windMs', 2.5), 'observed', 'windMs')).toBe(30)
  })

  it('settles the small overshoots of rounding', () => {
    const w = weather(24)
    w.relHumidity[0] = 1.01
    w.solarWm2[0] = -2
    w.gustMs[0] = 1
    w.windFromDeg[0] = 360
    const clean = screened(w, 'observed')
    expect([clean.relHumidity[0], clean.solarWm2[0], clean.gustMs[0], clean.windFromDeg[0]]).toEqual([
      1,
      0,
      w.windMs[0],
      0,
    ])
  })

  it('lets nothing impossible through, whatever comes in', () => {
    const wild = fc.oneof(fc.double(), fc.double({ min: -100, max: 400, noNaN: true }), fc.constant(Number.NaN))
    fc.assert(
      fc.property(
        fc.array(wild, { minLength: 24, maxLength: 24 }),
        fc.constantFrom('observed', 'forecast'),
        (values, kind) => {
          const w = weather(24)
          for (const variable of WEATHER_VARIABLES) w[variable].set(values)
          const clean = screened(w, kind)
          expect(outOfRange(clean)).toEqual([])
        },
      ),
      { numRuns: 300 },
    )
  })
})

describe('too thin', () => {
  it.each([
    ['a quarter missing', 12, false],
    ['more than a quarter missing', 13, true],
  ])('%s of the next two days', (_, missing, refused) => {
    const w = weather(120)
    w.rainMm.fill(Number.NaN, 0, missing)
    const run = () => refuseIfThin(w, FORECAST_NEED, 'here')
    if (refused) expect(run).toThrow(SourceTooThin)
    else expect(run()).toBe(w)
  })

  it('is not what is missing after two days', () => {
    const w = weather(120)
    w.airTempC.fill(Number.NaN, 48)
    expect(refuseIfThin(w, FORECAST_NEED, 'here')).toBe(w)
  })

  it('is a series of few hours', () => {
    expect(() => refuseIfThin(weather(10), FORECAST_NEED, 'here')).toThrow(/41 % of the hours/)
    expect(refuseIfThin(weather(24), FORECAST_NEED, 'here').hours).toBe(24)
  })

  it('counts all members', () => {
    const w = weather(48, 4)
    w.windMs.fill(Number.NaN, 0, 2 * 48)
    expect(() => refuseIfThin(w, FORECAST_NEED, 'here')).toThrow(/wind is known in only 50 %/)
  })
})
