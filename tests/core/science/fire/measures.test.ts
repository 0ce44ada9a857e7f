import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fosbergDamping, fosbergIndex, hotDryWindy, woodEquilibriumDb } from '#core/science/fire/measures.ts'
import { celsiusFromFahrenheit, MS_PER_MPH } from '#core/units/convert.ts'
import { FOSBERG_ROWS, HOT_DRY_WINDY } from '#tests/truth/fire-measures.ts'

const temp = fc.double({ min: -50, max: 55, noNaN: true })
const share = fc.double({ min: 0, max: 1, noNaN: true })
const wind = fc.double({ min: 0, max: 40, noNaN: true })

describe('hot-dry-windy at the ground', () => {
  it.each(HOT_DRY_WINDY)('at %d deg C, %d %%, %d m/s', (t, h, w, deficit, product) => {
    expect(Math.abs(hotDryWindy(t, h / 100, 1) - deficit)).toBeLessThanOrEqual(0.0051)
    expect(Math.abs(hotDryWindy(t, h / 100, w) - product)).toBeLessThanOrEqual(0.06)
  })

  it('is nothing in calm or saturated air, rises with heat, dryness and wind', () => {
    fc.assert(
      fc.property(temp, share, wind, (t, h, w) => {
        const here = hotDryWindy(t, h, w)
        expect(here).toBeGreaterThanOrEqual(0)
        expect(hotDryWindy(t + 1, h, w)).toBeGreaterThanOrEqual(here)
        expect(hotDryWindy(t, h / 2, w)).toBeGreaterThanOrEqual(here)
        expect(hotDryWindy(t, h, w + 1)).toBeGreaterThanOrEqual(here)
        expect(hotDryWindy(t, h, 0)).toBe(0)
        expect(hotDryWindy(t, 1, w)).toBe(0)
      }),
    )
  })
})

describe('Fosberg index', () => {
  it.each(FOSBERG_ROWS)('at %d deg F, %d %%, %d mph', (f, h, mph, moisture, damping, index) => {
    const ours = woodEquilibriumDb(celsiusFromFahrenheit(f), h / 100)
    expect(Math.abs(ours - moisture)).toBeLessThanOrEqual(0.0006)
    expect(Math.abs(fosbergDamping(ours) - damping)).toBeLessThanOrEqual(0.00006)
    expect(Math.abs(fosbergIndex(celsiusFromFahrenheit(f), h / 100, mph * MS_PER_MPH) - index)).toBeLessThanOrEqual(
      0.006,
    )
  })

  it('is 100 at 30 mph on bone-dry fuel', () => {
    // The definition of the scale: sqrt(1 + 30^2) / 0.3002.
    expect(Math.abs((fosbergDamping(0) * Math.sqrt(901)) / 0.3002 - 100)).toBeLessThan(0.02)
    expect(fosbergDamping(30)).toBe(0)
    expect(fosbergDamping(80)).toBe(0)
  })

  it('lies between 0 and 100 and rises with wind', () => {
    fc.assert(
      fc.property(temp, share, wind, (t, h, w) => {
        const here = fosbergIndex(t, h, w)
        expect(here).toBeGreaterThanOrEqual(0)
        expect(here).toBeLessThanOrEqual(100)
        expect(fosbergIndex(t, h, w + 1)).toBeGreaterThanOrEqual(here)
        expect(woodEquilibriumDb(t, h)).toBeGreaterThanOrEqual(0)
        expect(woodEquilibriumDb(t, h)).toBeLessThan(35)
      }),
    )
  })

  it('takes the middle equation from 10 up to 50 %, the last from 50 %', () => {
    // Cohen & Deeming 1985, PSW-82, eqs 1a-1c; at 77 deg F the pieces meet within 0.5.
    expect(woodEquilibriumDb(25, 0.5)).toBeCloseTo(21.0606 + 0.005565 * 2500 - 0.00035 * 50 * 77 - 0.483199 * 50, 9)
    expect(woodEquilibriumDb(25, 0.1)).toBeCloseTo(2.22749 + 1.60107 - 0.014784 * 77, 9)
  })
})

it('knows nothing from an unknown or impossible input', () => {
  for (const measure of [hotDryWindy, fosbergIndex]) {
    expect(measure(Number.NaN, 0.3, 3)).toBeNaN()
    expect(measure(30, Number.NaN, 3)).toBeNaN()
    expect(measure(30, 30, 3)).toBeNaN()
    expect(measure(30, 0.3, Number.NaN)).toBeNaN()
    expect(measure(30, 0.3, -1)).toBeNaN()
  }
  expect(fosbergDamping(Number.NaN)).toBeNaN()
  expect(fosbergDamping(-1)).toBeNaN()
})
