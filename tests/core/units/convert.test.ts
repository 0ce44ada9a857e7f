import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  buPerAcreFromTPerHa,
  celsiusFromFahrenheit,
  fahrenheitFromCelsius,
  HA_PER_ACRE,
  KG_PER_LB,
  KM_PER_MI,
  kgPerBushel,
  L_PER_BUSHEL,
  M_PER_FT,
  MM_PER_IN,
  MS_PER_KMH,
  MS_PER_MPH,
  perAcreFromPerHa,
  tPerHaFromBuPerAcre,
} from '#core/units/convert.ts'
import { BUSHELS_PER_TONNE, KG_HA_PER_BU_ACRE, YIELD_ROUNDING } from '#tests/truth/grain-conversions.ts'
import { DEFINED, FIXED_POINTS, PRINTED } from '#tests/truth/units.ts'

const relative = (a: number, b: number) => Math.abs(a / b - 1)

describe('factors', () => {
  it('are what the definitions give', () => {
    const ours = {
      mPerFt: M_PER_FT,
      kmPerMi: KM_PER_MI,
      mmPerIn: MM_PER_IN,
      kgPerLb: KG_PER_LB,
      haPerAcre: HA_PER_ACRE,
      msPerMph: MS_PER_MPH,
      litresPerBushel: L_PER_BUSHEL,
    }
    for (const [name, value] of Object.entries(DEFINED)) {
      expect(relative(ours[name as keyof typeof ours], value), name).toBeLessThan(1e-14)
    }
    expect(MS_PER_KMH * 3600).toBeCloseTo(1000, 10)
  })

  it('are what tables print', () => {
    expect(HA_PER_ACRE).toBe(PRINTED.haPerAcre)
    expect(L_PER_BUSHEL).toBeCloseTo(PRINTED.litresPerBushel, 5)
    expect(MS_PER_MPH).toBe(PRINTED.msPerMph)
    expect(KM_PER_MI).toBe(PRINTED.kmPerMi)
  })
})

describe('temperature', () => {
  it.each(FIXED_POINTS)('$tempC C is $tempF F', ({ tempC, tempF }) => {
    expect(fahrenheitFromCelsius(tempC)).toBeCloseTo(tempF, 12)
    expect(celsiusFromFahrenheit(tempF)).toBeCloseTo(tempC, 12)
  })

  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: -60, max: 60, noNaN: true }), (tempC) => {
        expect(celsiusFromFahrenheit(fahrenheitFromCelsius(tempC))).toBeCloseTo(tempC, 10)
      }),
    )
  })
})

describe('yield', () => {
  it.each([
    ['soybean', 60],
    ['corn', 56],
  ] as const)('%s agrees with printed factors', (crop, lbPerBu) => {
    expect(relative(tPerHaFromBuPerAcre(1, lbPerBu) * 1000, KG_HA_PER_BU_ACRE[crop])).toBeLessThan(YIELD_ROUNDING)
    expect(relative(1000 / kgPerBushel(lbPerBu), BUSHELS_PER_TONNE[crop])).toBeLessThan(YIELD_ROUNDING)
  })

  it('goes there and back, and not known stays not known', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 400, noNaN: true }),
        fc.double({ min: 20, max: 70, noNaN: true }),
        (bu, lb) => {
          expect(buPerAcreFromTPerHa(tPerHaFromBuPerAcre(bu, lb), lb)).toBeCloseTo(bu, 9)
        },
      ),
    )
    expect(tPerHaFromBuPerAcre(Number.NaN, 60)).toBeNaN()
    expect(buPerAcreFromTPerHa(Number.NaN, 60)).toBeNaN()
  })

  it('money per hectare is more than per acre, by the acre in a hectare', () => {
    expect(perAcreFromPerHa(1 / PRINTED.haPerAcre)).toBeCloseTo(1, 12)
  })
})
