import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  criticalWindMs,
  grassIndexMark3,
  grassIndexMark4,
  grassIndexMark5,
  grassMoistureMark5,
  grassSpreadMs,
  HARVEST_CODE_STOP_INDEX,
  logGrassIndexMark4,
} from '#core/science/fire/grass.ts'
import { MS_PER_KMH } from '#core/units/convert.ts'
import { INDEX_ROWS, SPREAD_TABLE, STOP_CELL, STOP_HUMIDITIES, STOP_WINDS } from '#tests/truth/grass-fire.ts'

const temp = fc.double({ min: -50, max: 55, noNaN: true })
const share = fc.double({ min: 0, max: 1, noNaN: true })
const cured = fc.double({ min: 0.01, max: 1, noNaN: true })
const wind = fc.double({ min: 0, max: 40, noNaN: true })

describe('grain harvest stop', () => {
  it('stops at 26 km/h at 35 deg C and 10 %, as the code prints', () => {
    // South Australian Country Fire Service; the equation gives 25.8.
    const windMs = criticalWindMs(STOP_CELL.airTempC, STOP_CELL.columnHumidity / 100)
    expect(Math.round(windMs / MS_PER_KMH)).toBe(STOP_CELL.windKmh)
    expect(HARVEST_CODE_STOP_INDEX).toBe(STOP_CELL.index)
  })

  it('would miss that cell with the standard pasture of other meters', () => {
    // So the code's table is Mark 4 at 4.5 t/ha, not Mark 3, and not Mark 4 at 4 t/ha (27.8 km/h).
    expect(Math.round(criticalWindMs(35, 0.1, 35, 1, 4) / MS_PER_KMH)).toBe(28)
    expect(grassIndexMark3(35, 0.1, 24.3 * MS_PER_KMH)).toBeCloseTo(35, 0)
  })

  it.each(STOP_WINDS)('meets the row of %d deg C', (airTempC, winds) => {
    winds.forEach((kmh, i) => {
      const ours = criticalWindMs(airTempC, STOP_HUMIDITIES[i]! / 100) / MS_PER_KMH
      expect(Math.abs(ours - kmh)).toBeLessThanOrEqual(0.051)
    })
  })

  it('is the wind at which the index is met', () => {
    fc.assert(
      fc.property(temp, share, fc.double({ min: 0.5, max: 100, noNaN: true }), cured, (t, h, index, c) => {
        const windMs = criticalWindMs(t, h, index, c)
        expect(windMs).toBeGreaterThanOrEqual(0)
        const reached = grassIndexMark4(t, h, windMs, c)
        if (windMs > 0) expect(Math.abs(reached / index - 1)).toBeLessThan(1e-9)
        else expect(reached).toBeGreaterThanOrEqual(index * (1 - 1e-9))
      }),
    )
  })
})

describe('indices', () => {
  it.each(INDEX_ROWS)('at %d deg C, %d %%, %d km/h, %d %% cured', (t, h, kmh, c, mark3, mark4, moisture, mark5) => {
    const air = [t, h / 100, kmh * MS_PER_KMH, c / 100] as const
    expect(Math.abs(grassIndexMark3(...air) - mark3)).toBeLessThanOrEqual(0.0051)
    expect(Math.abs(grassIndexMark4(...air) - mark4)).toBeLessThanOrEqual(0.0051)
    expect(Math.abs(grassMoistureMark5(t, h / 100, c / 100) - moisture)).toBeLessThanOrEqual(0.0051)
    expect(Math.abs(grassIndexMark5(...air) - mark5)).toBeLessThanOrEqual(0.0051)
    expect(10 ** logGrassIndexMark4(...air)).toBe(grassIndexMark4(...air))
  })

  it.each([
    ['Mark 3', grassIndexMark3, -50],
    ['Mark 4', grassIndexMark4, -50],
    ['Mark 5', grassIndexMark5, -5],
  ] as const)('%s rises with heat, wind and curing, falls with damp air, stays finite', (_, index, coldest) => {
    fc.assert(
      fc.property(fc.double({ min: coldest, max: 54, noNaN: true }), share, wind, cured, (t, h, w, c) => {
        const here = index(t, h, w, c)
        expect(Number.isFinite(here)).toBe(true)
        expect(here).toBeGreaterThanOrEqual(0)
        expect(index(t + 1, h, w, c)).toBeGreaterThanOrEqual(here)
        expect(index(t, h, w + 1, c)).toBeGreaterThanOrEqual(here)
        expect(index(t, h, w, Math.min(1, c + 0.01))).toBeGreaterThanOrEqual(here)
        expect(index(t, Math.max(0, h - 0.05), w, c)).toBeGreaterThanOrEqual(here)
      }),
    )
  })

  it('has no fire above 30 % moisture and a small step at 18.8 % in Mark 5', () => {
    // Noble et al. 1980: two fitted pieces.
    expect(grassMoistureMark5(15, 0.9, 0.7)).toBeGreaterThan(30)
    expect(grassIndexMark5(15, 0.9, 5, 0.7)).toBe(0)
    const low = 3.35 * Math.exp(-0.0897 * 18.8)
    const high = 0.299 * Math.exp(-1.686) * (30 - 18.8)
    expect(Math.abs(high / low - 1)).toBeLessThan(0.01)
  })

  it('knows nothing from an unknown or impossible input', () => {
    const good = [30, 0.3, 5, 1] as const
    for (const index of [grassIndexMark3, grassIndexMark4, grassIndexMark5]) {
      for (let i = 0; i < good.length; i++) {
        expect(index(...(good.map((v, j) => (j === i ? Number.NaN : v)) as unknown as typeof good))).toBeNaN()
      }
      expect(index(30, 30, 5)).toBeNaN()
      expect(index(30, 0.3, -5)).toBeNaN()
      expect(index(30, 0.3, 5, 100)).toBeNaN()
    }
    expect(grassIndexMark4(30, 0.3, 5, 1, 0)).toBeNaN()
    expect(grassIndexMark5(-20, 0.3, 5)).toBeNaN()
    expect(criticalWindMs(Number.NaN, 0.3)).toBeNaN()
    expect(criticalWindMs(30, 0.3, 0)).toBeNaN()
    expect(criticalWindMs(30, 0.3, Number.NaN)).toBeNaN()
  })
})

describe('spread', () => {
  it.each(SPREAD_TABLE)('of index %d is %d km/h', (index, kmh) => {
    // South Australian table at one decimal. At 5 the equation gives 0.65 where 0.6 is printed, at 50 it gives 6.5 where
    // 6.4 is printed; the other four round to the print.
    expect(Math.abs(grassSpreadMs(index) / MS_PER_KMH - kmh)).toBeLessThanOrEqual(0.1 + 1e-9)
  })

  it('knows nothing of an unknown index', () => {
    expect(grassSpreadMs(Number.NaN)).toBeNaN()
    expect(grassSpreadMs(-1)).toBeNaN()
  })
})
