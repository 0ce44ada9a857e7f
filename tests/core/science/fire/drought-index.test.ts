import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DRIEST_MM,
  dailyDryingHundredthsIn,
  dailyDryingMm,
  droughtIndexMm,
  hundredthsInFromMm,
  mmFromHundredthsIn,
  netRainMm,
} from '#core/science/fire/drought-index.ts'
import { celsiusFromFahrenheit, MM_PER_IN } from '#core/units/convert.ts'
import {
  DRYING_IMPERIAL,
  DRYING_METRIC,
  HAND_CALCULATED,
  HAND_CALCULATED_DAYS,
  SEASON_TRACE,
} from '#tests/truth/drought-index.ts'

const days = fc.array(
  fc.record({
    rainMm: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 200, noNaN: true })),
    maxTempC: fc.double({ min: -50, max: 55, noNaN: true }),
  }),
  { minLength: 1, maxLength: 60 },
)
const series = (list: readonly { rainMm: number; maxTempC: number }[]) => ({
  rainMm: list.map((day) => day.rainMm),
  maxTempC: list.map((day) => day.maxTempC),
})

describe('rise in a dry day', () => {
  it.each(DRYING_IMPERIAL)('imperial from %d at %d deg F with %d in a year', (index, f, rain, rise) => {
    expect(Math.abs(dailyDryingHundredthsIn(index, f, rain) - rise)).toBeLessThanOrEqual(0.0006)
  })

  it.each(DRYING_METRIC)('metric from %d at %d deg C with %d mm a year', (index, c, rain, rise) => {
    expect(Math.abs(dailyDryingMm(index, c, rain) - rise)).toBeLessThanOrEqual(0.0006)
  })

  it('has both forms agree within 0.3 % and 0.01 mm', () => {
    // The metric print rounds its coefficients: 0.0875 for 0.0486 x 1.8 = 0.08748, 0.001736 for 0.0441 / 25.4.
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 800, noNaN: true }),
        fc.double({ min: 51, max: 125, noNaN: true }),
        fc.double({ min: 0, max: 120, noNaN: true }),
        (index, f, rainIn) => {
          const imperial = mmFromHundredthsIn(dailyDryingHundredthsIn(index, f, rainIn))
          const metric = dailyDryingMm(mmFromHundredthsIn(index), celsiusFromFahrenheit(f), rainIn * MM_PER_IN)
          expect(Math.abs(metric - imperial)).toBeLessThan(0.01 + 0.003 * imperial)
        },
      ),
    )
  })

  it('dries nothing at 50 deg F or less', () => {
    // Table of SE-38, from memory.
    expect(dailyDryingHundredthsIn(100, 50, 40)).toBe(0)
    expect(dailyDryingHundredthsIn(100, -40, 40)).toBe(0)
    expect(dailyDryingMm(100, 10, 1000)).toBe(0)
    expect(dailyDryingMm(100, 8, 1000, 'finkele')).toBeGreaterThan(0)
    expect(dailyDryingMm(100, 6, 1000, 'finkele')).toBe(0)
  })

  it('knows nothing from an unknown or impossible input', () => {
    for (const [index, temp, rain] of [
      [Number.NaN, 30, 1000],
      [-1, 30, 1000],
      [204, 30, 1000],
      [100, Number.NaN, 1000],
      [100, 300, 1000],
      [100, 30, Number.NaN],
      [100, 30, -1],
    ] as const) {
      expect(dailyDryingMm(index, temp, rain)).toBeNaN()
      expect(dailyDryingMm(index, temp, rain, 'finkele')).toBeNaN()
    }
    expect(dailyDryingHundredthsIn(Number.NaN, 80, 40)).toBeNaN()
    expect(dailyDryingHundredthsIn(801, 80, 40)).toBeNaN()
    expect(dailyDryingHundredthsIn(100, Number.NaN, 40)).toBeNaN()
    expect(dailyDryingHundredthsIn(100, 80, -1)).toBeNaN()
  })
})

describe('index over days', () => {
  it.each(HAND_CALCULATED)('meets the hand calculation from $startMm mm: $tenthDayMm mm', (row) => {
    // Hand-calculated by the xclim project, Finkele form, mean rain 1 mm.
    const index = droughtIndexMm(row, row.startMm, 1, 'finkele')
    expect(Math.abs(index[9]! - row.tenthDayMm)).toBeLessThan(0.00001)
  })

  it('meets the first of them day by day', () => {
    const index = droughtIndexMm(HAND_CALCULATED[0], 0, 1, 'finkele')
    HAND_CALCULATED_DAYS.forEach((mm, d) => {
      expect(Math.abs(index[d]! - mm)).toBeLessThan(0.00001)
    })
  })

  it('follows the season trace, with one loss for the spell of two days', () => {
    const index = droughtIndexMm(
      {
        rainMm: SEASON_TRACE.map((row) => row[0] * MM_PER_IN),
        maxTempC: SEASON_TRACE.map((row) => celsiusFromFahrenheit(row[1])),
      },
      mmFromHundredthsIn(300),
      40 * MM_PER_IN,
    )
    // The trace is imperial; rounding in the metric coefficients leaves up to 0.05 hundredths of an inch.
    SEASON_TRACE.forEach((row, d) => {
      expect(Math.abs(hundredthsInFromMm(index[d]!) - row[2])).toBeLessThan(0.06)
    })
  })

  it('stays between 0 and 203.2 mm, and never above what a drier course gives', () => {
    fc.assert(
      fc.property(days, fc.double({ min: 0, max: DRIEST_MM, noNaN: true }), fc.boolean(), (list, start, finkele) => {
        const form = finkele ? 'finkele' : 'keetch-byram'
        const wet = droughtIndexMm(series(list), start, 800, form)
        const dry = droughtIndexMm(series(list.map((day) => ({ ...day, rainMm: 0 }))), start, 800, form)
        wet.forEach((mm, d) => {
          expect(mm).toBeGreaterThanOrEqual(0)
          expect(mm).toBeLessThanOrEqual(DRIEST_MM)
          expect(mm).toBeLessThanOrEqual(dry[d]! + 1e-9)
        })
      }),
    )
  })

  it('stays unknown after an unknown day', () => {
    const index = droughtIndexMm({ rainMm: [0, Number.NaN, 0], maxTempC: [30, 30, 30] }, 50, 800)
    expect(index[0]).not.toBeNaN()
    expect(index[1]).toBeNaN()
    expect(index[2]).toBeNaN()
    expect(droughtIndexMm({ rainMm: [0], maxTempC: [30] }, Number.NaN, 800)[0]).toBeNaN()
  })
})

describe('net rain', () => {
  it('loses the first 0.20 in of each spell once', () => {
    // Keetch & Byram 1968.
    const net = netRainMm([3, 0, 3, 3, 10, 0, 6], 5)
    expect(Array.from(net)).toEqual([0, 0, 0, 1, 10, 0, 1])
  })

  it('loses per spell what fell, at most the loss', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 100, noNaN: true }), { minLength: 1, maxLength: 10 }),
        (spell) => {
          const fell = spell.reduce((sum, mm) => sum + mm, 0)
          const net = netRainMm(spell, 5).reduce((sum, mm) => sum + mm, 0)
          expect(net).toBeCloseTo(Math.max(0, fell - 5), 9)
        },
      ),
    )
  })

  it('is unknown until a dry day ends the spell', () => {
    const net = netRainMm([2, Number.NaN, 4, 0, 6], 5)
    expect(net[0]).toBe(0)
    expect(net[1]).toBeNaN()
    expect(net[2]).toBeNaN()
    expect(net[3]).toBe(0)
    expect(net[4]).toBe(1)
  })
})
