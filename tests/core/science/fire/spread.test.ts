import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { buildUp, dailySeverity, fireWeather, initialSpread } from '#core/science/fire/spread.ts'
import { MS_PER_KMH } from '#core/units/convert.ts'
import { BUILD_UP_ROWS, FIRE_WEATHER_ROWS, SINGLE_CALLS } from '#tests/truth/fire-weather-index.ts'

const positive = fc.double({ min: 0, max: 1000, noNaN: true })

describe('initial spread', () => {
  it('gives the published single call to all digits', () => {
    // NOR-X-424, printed in public copies.
    expect(initialSpread(SINGLE_CALLS.fineFuel, 25 * MS_PER_KMH)).toBeCloseTo(SINGLE_CALLS.initialSpread, 10)
  })

  it('grows with wind and with dry fuel', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 39, noNaN: true }),
        (code, windMs) => {
          expect(initialSpread(code, windMs + 1)).toBeGreaterThan(initialSpread(code, windMs))
          expect(initialSpread(code + 1, windMs)).toBeGreaterThan(initialSpread(code, windMs))
        },
      ),
    )
  })

  it('knows nothing from an unknown input', () => {
    expect(initialSpread(Number.NaN, 3)).toBeNaN()
    expect(initialSpread(85, Number.NaN)).toBeNaN()
    expect(initialSpread(85, -1)).toBeNaN()
  })
})

describe('build-up', () => {
  it('gives the published single call to all digits', () => {
    expect(buildUp(8.545051136, 19.014)).toBeCloseTo(SINGLE_CALLS.buildUp, 10)
  })

  it.each(BUILD_UP_ROWS)('of duff %d and drought %d', (duff, drought, expected) => {
    // Canadian Forest Service test data.
    expect(buildUp(duff, drought)).toBeCloseTo(expected, 9)
  })

  it('is at least 0, at most twice the duff code, and nothing without duff', () => {
    fc.assert(
      fc.property(positive, positive, (duff, drought) => {
        const u = buildUp(duff, drought)
        expect(u).toBeGreaterThanOrEqual(0)
        expect(u).toBeLessThanOrEqual(2 * duff + 1e-9)
        expect(buildUp(0, drought)).toBe(0)
      }),
    )
  })

  it('knows nothing from an unknown input', () => {
    expect(buildUp(Number.NaN, 10)).toBeNaN()
    expect(buildUp(0, Number.NaN)).toBeNaN()
    expect(buildUp(10, Number.NaN)).toBeNaN()
  })
})

describe('fire weather index', () => {
  it('gives the published single call to all digits', () => {
    expect(fireWeather(10.853661073655068, 8.4904265358371838)).toBeCloseTo(SINGLE_CALLS.fireWeather, 10)
  })

  it.each(FIRE_WEATHER_ROWS)('of spread %d and build-up %d', (spread, build, expected) => {
    // Canadian Forest Service test data.
    expect(fireWeather(spread, build)).toBeCloseTo(expected, 9)
  })

  it('grows with spread', () => {
    fc.assert(
      fc.property(positive, positive, (spread, build) => {
        expect(fireWeather(spread + 0.1, build)).toBeGreaterThan(fireWeather(spread, build))
      }),
    )
  })

  it('knows nothing from an unknown input', () => {
    expect(fireWeather(Number.NaN, 10)).toBeNaN()
    expect(fireWeather(10, Number.NaN)).toBeNaN()
  })
})

describe('daily severity', () => {
  // Van Wagner 1987, eq 31, worked by logarithms: 10^1.77 = 58.884; 50^1.77 = 10^(1.77 x 1.69897) = 1016.7.
  it.each([
    [0, 0, 0],
    [1, 0.0272, 1e-9],
    [10, 1.60165, 1e-4],
    [50, 27.654, 0.01],
  ])('of index %d is %d', (index, expected, within) => {
    expect(Math.abs(dailySeverity(index) - expected)).toBeLessThanOrEqual(within)
  })

  it('grows with the index and knows nothing from an unknown one', () => {
    fc.assert(
      fc.property(positive, (index) => {
        expect(dailySeverity(index + 1)).toBeGreaterThan(dailySeverity(index))
      }),
    )
    expect(dailySeverity(Number.NaN)).toBeNaN()
  })
})
