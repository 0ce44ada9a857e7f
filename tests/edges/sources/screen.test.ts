import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { screened, screenedChances } from '#edges/sources/screen.ts'
import { outOfRange } from './support/out-of-range.ts'
import { plainWeather as weather } from './support/plain-weather.ts'

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

describe('the chances', () => {
  it('keep what is possible and in order', () => {
    const of = (...values: number[]) => Float32Array.from(values)
    const clean = screenedChances({
      popPct: of(0, 100, 101, -1, Number.NaN),
      airTempP10C: of(10, 21, 10, -99, 10),
      airTempP90C: of(20, 20, 20, 20, 99),
      rainMaxMm: of(1, 2, 400, 0, 0),
    })
    const gone = Number.NaN
    expect(Array.from(clean.popPct!)).toEqual([0, 100, gone, gone, gone])
    expect(Array.from(clean.airTempP10C!)).toEqual([10, gone, 10, gone, 10])
    expect(Array.from(clean.airTempP90C!)).toEqual([20, gone, 20, 20, gone])
    expect(Array.from(clean.rainMaxMm!)).toEqual([1, 2, gone, 0, 0])
    expect(Object.keys(clean).sort()).toEqual(['airTempP10C', 'airTempP90C', 'popPct', 'rainMaxMm'])
  })
})
