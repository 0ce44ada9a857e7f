import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROP_ISOTHERM } from '#core/science/grain/equilibrium.ts'
import { type Isotherm, isothermMoistureDb, isothermRelHumidity } from '#core/science/grain/isotherm.ts'
import { wetBasisFromDry } from '#core/science/grain/moisture-basis.ts'
import { celsiusFromFahrenheit } from '#core/units/convert.ts'
import {
  GRAIN_TABLE_TEMPS_F,
  RICE_ISOTHERM,
  RICE_ROWS,
  THOMPSON_CORN_ISOTHERM,
  THOMPSON_CORN_TABLE,
} from '#tests/truth/equilibrium.ts'

const wetAt = (isotherm: Isotherm, tempF: number, rhPct: number) =>
  wetBasisFromDry(isothermMoistureDb(isotherm, celsiusFromFahrenheit(tempF), rhPct / 100))

describe('isotherm forms against tables with constants of their own', () => {
  it('shelled corn, Henderson-Thompson, all cells within rounding', () => {
    for (const { tempF, moistureWb } of THOMPSON_CORN_TABLE)
      for (const [i, published] of moistureWb.entries())
        expect(Math.abs(wetAt(THOMPSON_CORN_ISOTHERM, tempF, 10 * (i + 1)) - published)).toBeLessThan(0.1)
  })

  it('long grain rice, Henderson, all cells within rounding', () => {
    for (const { rhPct, moistureWb } of RICE_ROWS)
      for (const [i, published] of moistureWb.entries())
        expect(Math.abs(wetAt(RICE_ISOTHERM, GRAIN_TABLE_TEMPS_F[i]!, rhPct) - published)).toBeLessThan(0.1)
  })
})

describe('isotherm forms', () => {
  const isotherms = fc.constantFrom(...Object.values(CROP_ISOTHERM))
  const temps = fc.double({ min: 0, max: 60, noNaN: true })

  it('humidity of the moisture of a humidity is that humidity', () => {
    fc.assert(
      fc.property(isotherms, temps, fc.double({ min: 0.1, max: 0.99, noNaN: true }), (isotherm, tempC, rh) => {
        expect(isothermRelHumidity(isotherm, tempC, isothermMoistureDb(isotherm, tempC, rh))).toBeCloseTo(rh, 6)
      }),
    )
  })

  it('rises with humidity', () => {
    const rhs = fc.double({ min: 0, max: 0.98, noNaN: true })
    fc.assert(
      fc.property(isotherms, temps, rhs, (isotherm, tempC, rh) => {
        const here = isothermMoistureDb(isotherm, tempC, rh)
        expect(here).toBeGreaterThanOrEqual(0)
        expect(isothermMoistureDb(isotherm, tempC, rh + 0.01)).toBeGreaterThanOrEqual(here)
      }),
    )
  })

  it('is NaN outside its domain', () => {
    for (const isotherm of Object.values(CROP_ISOTHERM)) {
      for (const rh of [-0.1, 1.1, Number.NaN]) expect(isothermMoistureDb(isotherm, 20, rh)).toBeNaN()
      expect(isothermMoistureDb(isotherm, Number.NaN, 0.5)).toBeNaN()
      expect(isothermRelHumidity(isotherm, 20, -1)).toBeNaN()
      expect(isothermRelHumidity(isotherm, Number.NaN, 10)).toBeNaN()
    }
  })
})
