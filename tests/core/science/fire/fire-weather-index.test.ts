import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type FireWeatherConstants,
  type FireWeatherDays,
  FULL_CONSTANTS,
  fireWeatherDays,
  PRINTED_CONSTANTS,
  START_UP,
} from '#core/science/fire/fire-weather-index.ts'
import type { NoonDays } from '#core/science/fire/noon-weather.ts'
import { MS_PER_KMH } from '#core/units/convert.ts'
import { type Outputs, TEST_SEASON } from '#tests/truth/fire-weather-index.ts'

/** The table for the northern day length. */
const LAT_DEG = 46

const season: NoonDays = {
  dates: TEST_SEASON.map((day) => Temporal.PlainDate.from(day.date)),
  airTempC: TEST_SEASON.map((day) => day.noon[0]),
  relHumidity: TEST_SEASON.map((day) => day.noon[1] / 100),
  windMs: TEST_SEASON.map((day) => day.noon[2] * MS_PER_KMH),
  rainMm: TEST_SEASON.map((day) => day.noon[3]),
}

const outputsOf = (out: FireWeatherDays, d: number): Outputs => [
  out.fineFuel[d]!,
  out.duff[d]!,
  out.drought[d]!,
  out.initialSpread[d]!,
  out.buildUp[d]!,
  out.fireWeather[d]!,
]
const run = (constants: FireWeatherConstants) => fireWeatherDays(season, LAT_DEG, { constants })
const worst = (constants: FireWeatherConstants, column: 'printed' | 'full', round = (x: number) => x): number => {
  const out = run(constants)
  return Math.max(
    ...TEST_SEASON.flatMap((day, d) => outputsOf(out, d).map((value, i) => Math.abs(value - round(day[column][i]!)))),
  )
}

describe('1985 test season, 24 days by 6 outputs', () => {
  // Van Wagner & Pickett 1985, For. Tech. Rep. 33; see tests/truth/fire-weather-index.ts.
  it('agrees to the two decimals with the printed constants', () => {
    expect(worst(PRINTED_CONSTANTS, 'printed')).toBeLessThanOrEqual(0.0051)
  })

  it('agrees within 0.06 with the values at one decimal, as the 1985 report prints them', () => {
    expect(worst(PRINTED_CONSTANTS, 'printed', (x) => Math.round(x * 10) / 10)).toBeLessThanOrEqual(0.06)
  })

  it('agrees to the one decimal with the constants at full length', () => {
    expect(worst(FULL_CONSTANTS, 'full')).toBeLessThanOrEqual(0.0501)
  })

  it('shows how far the two sets of constants lie apart: up to 0.22', () => {
    expect(worst(PRINTED_CONSTANTS, 'full')).toBeLessThan(0.22)
    expect(worst(PRINTED_CONSTANTS, 'full')).toBeGreaterThan(0.1)
  })

  it('takes the printed constants and the start-up codes unless told', () => {
    expect(fireWeatherDays(season, LAT_DEG)).toEqual(run(PRINTED_CONSTANTS))
    expect(START_UP).toEqual({ fineFuel: 85, duff: 6, drought: 15 })
  })
})

describe('unknown days', () => {
  const withHole = (hole: number): NoonDays => ({
    ...season,
    airTempC: TEST_SEASON.map((day, d) => (d === hole ? Number.NaN : day.noon[0])),
  })

  it('makes all days from an unknown one on unknown', () => {
    const out = fireWeatherDays(withHole(5), LAT_DEG)
    expect(out.fireWeather[4]).not.toBeNaN()
    for (let d = 5; d < TEST_SEASON.length; d++) expect(outputsOf(out, d)).toEqual(Array(6).fill(Number.NaN))
  })

  it('waits over an unknown day where allowed, and leaves that day unknown', () => {
    const out = fireWeatherDays(withHole(5), LAT_DEG, { waitDays: 1 })
    expect(out.severity[5]).toBeNaN()
    const before = { fineFuel: out.fineFuel[4]!, duff: out.duff[4]!, drought: out.drought[4]! }
    const rest: NoonDays = {
      dates: season.dates.slice(6),
      airTempC: Array.from(season.airTempC).slice(6),
      relHumidity: Array.from(season.relHumidity).slice(6),
      windMs: Array.from(season.windMs).slice(6),
      rainMm: Array.from(season.rainMm).slice(6),
    }
    const resumed = fireWeatherDays(rest, LAT_DEG, { start: before })
    expect(Array.from(out.fireWeather.slice(6))).toEqual(Array.from(resumed.fireWeather))
  })

  it('knows nothing from unknown start codes or latitude', () => {
    const start = { ...START_UP, drought: Number.NaN }
    expect(fireWeatherDays(season, LAT_DEG, { start }).fineFuel.every(Number.isNaN)).toBe(true)
    expect(fireWeatherDays(season, Number.NaN).fireWeather.every(Number.isNaN)).toBe(true)
  })
})

describe('any season', () => {
  const day = fc.record({
    airTempC: fc.double({ min: -50, max: 55, noNaN: true }),
    relHumidity: fc.double({ min: 0, max: 1, noNaN: true }),
    windMs: fc.double({ min: 0, max: 40, noNaN: true }),
    rainMm: fc.double({ min: 0, max: 300, noNaN: true }),
  })

  it('stays finite and in bounds in any weather', () => {
    fc.assert(
      fc.property(
        fc.array(day, { minLength: 1, maxLength: 40 }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.boolean(),
        (days, latDeg, full) => {
          const first = Temporal.PlainDate.from('2010-06-01')
          const out = fireWeatherDays(
            {
              dates: days.map((_, d) => first.add({ days: d })),
              airTempC: days.map((x) => x.airTempC),
              relHumidity: days.map((x) => x.relHumidity),
              windMs: days.map((x) => x.windMs),
              rainMm: days.map((x) => x.rainMm),
            },
            latDeg,
            { constants: full ? FULL_CONSTANTS : PRINTED_CONSTANTS },
          )
          for (const series of Object.values(out)) {
            for (const value of series) {
              expect(Number.isFinite(value)).toBe(true)
              expect(value).toBeGreaterThanOrEqual(0)
            }
          }
          for (const value of out.fineFuel) expect(value).toBeLessThanOrEqual(101)
        },
      ),
      { numRuns: 100 },
    )
  })
})
