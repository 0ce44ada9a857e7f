import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { saturationSlopeKPaPerC, vapourPressureDeficitKPa } from '#core/science/air/vapour.ts'
import {
  AIR_HEAT_CAPACITY,
  airResistanceSPerM,
  canopyWindMs,
  LEAF_PSYCHROMETER_HPA_PER_K,
  MM_PER_H_PER_WM2,
  wetSurfaceLatentHeatWm2,
} from '#core/science/wetness/dew.ts'
import { isothermalNetRadiationWm2, radiativeConductanceWm2K } from '#core/science/wetness/sky.ts'
import { HIGH_DEWFALL_MM_PER_H, SATURATED_SHARE } from '#tests/truth/dew.ts'

const temp = fc.double({ min: -50, max: 55, noNaN: true })
const share = fc.double({ min: 0, max: 1, noNaN: true })
const wind = fc.double({ min: 0, max: 60, noNaN: true })
const height = fc.double({ min: 0.1, max: 4, noNaN: true })
const net = fc.double({ min: -150, max: 1000, noNaN: true })

describe('heat of evaporation and dew', () => {
  it('into saturated air it takes the published share of the net radiation, within 0.02', () => {
    for (const row of SATURATED_SHARE)
      expect(Math.abs(wetSurfaceLatentHeatWm2(row.airTempC, 1, 100, 100, 0) / 100 - row.share)).toBeLessThan(0.02)
  })

  it('clear nights of any warmth, dampness and wind form dew no faster than the published high rate', () => {
    let most = 0
    for (let airTempC = -10; airTempC <= 30; airTempC += 2)
      for (const windMs of [0, 1, 2, 3, 5, 8])
        for (const relHumidity of [0.8, 0.9, 0.95, 1]) {
          const flux = wetSurfaceLatentHeatWm2(
            airTempC,
            relHumidity,
            isothermalNetRadiationWm2(airTempC, relHumidity, 0, 1),
            airResistanceSPerM(windMs, 0.9),
            radiativeConductanceWm2K(airTempC),
          )
          most = Math.max(most, -MM_PER_H_PER_WM2 * flux)
        }
    expect(most).toBeLessThanOrEqual(HIGH_DEWFALL_MM_PER_H)
    expect(most).toBeGreaterThan(HIGH_DEWFALL_MM_PER_H / 2) // and it reaches that order
  })

  it('balances: radiation in equals heat to the air plus heat of evaporation, at the surface it implies', () => {
    fc.assert(
      fc.property(temp, share, net, wind, height, (airTempC, relHumidity, netWm2, windMs, heightM) => {
        const resistance = airResistanceSPerM(windMs, heightM)
        const radiative = radiativeConductanceWm2K(airTempC)
        const latent = wetSurfaceLatentHeatWm2(airTempC, relHumidity, netWm2, resistance, radiative)
        const air = AIR_HEAT_CAPACITY / resistance
        const warmerC = (netWm2 - latent) / (air + radiative)
        const vapourGap =
          10 * (vapourPressureDeficitKPa(airTempC, relHumidity) + saturationSlopeKPaPerC(airTempC) * warmerC)
        const again = (air * vapourGap) / LEAF_PSYCHROMETER_HPA_PER_K
        expect(Math.abs(again - latent)).toBeLessThan(1e-6 * (1 + Math.abs(latent) + Math.abs(netWm2)))
      }),
    )
  })

  it('grows with radiation and with dryness', () => {
    fc.assert(
      fc.property(temp, share, net, wind, (airTempC, relHumidity, netWm2, windMs) => {
        const at = (rh: number, radiation: number) =>
          wetSurfaceLatentHeatWm2(airTempC, rh, radiation, airResistanceSPerM(windMs, 0.9), 5)
        expect(at(relHumidity, netWm2 + 10)).toBeGreaterThan(at(relHumidity, netWm2))
        expect(at(relHumidity / 2, netWm2)).toBeGreaterThanOrEqual(at(relHumidity, netWm2))
      }),
    )
  })
})

describe('wind and resistance at the crop', () => {
  it('the wind at the crop is below that at 10 m, in a logarithmic profile', () => {
    // u(h)/u(10) = ln(0.333 h / 0.123 h) / ln((10 - 0.667 h) / 0.123 h), worked by hand for 0.9 m: 0.997 / 4.441
    expect(canopyWindMs(4, 0.9) / 4).toBeCloseTo(0.2245, 3)
    fc.assert(
      fc.property(wind, height, (u, h) => {
        expect(canopyWindMs(u, h)).toBeLessThan(Math.max(u, 0.67))
      }),
    )
  })

  it('leaf layer: 307 sqrt(0.07 / u) as published, the rest is the air above', () => {
    const u = 3
    const leaf = 307 * Math.sqrt(0.07 / canopyWindMs(u, 0.9))
    // (ln(9.4 / 0.1107) ln(9.4 / 0.3)) / (0.41^2 x 3), worked by hand: 4.4416 x 3.4446 / 0.5043
    expect(airResistanceSPerM(u, 0.9) - leaf).toBeCloseTo(30.34, 1)
  })

  it('falls with wind and stays finite from calm to storm', () => {
    fc.assert(
      fc.property(wind, height, (u, h) => {
        const still = airResistanceSPerM(u, h)
        expect(still).toBeGreaterThan(0)
        expect(still).toBeLessThan(2000)
        expect(airResistanceSPerM(u + 1, h)).toBeLessThan(still)
      }),
    )
  })

  it('not known stays not known', () => {
    expect(canopyWindMs(Number.NaN, 0.9)).toBeNaN()
    expect(airResistanceSPerM(-1, 0.9)).toBeNaN()
    expect(wetSurfaceLatentHeatWm2(Number.NaN, 0.9, 0, 100, 0)).toBeNaN()
    expect(wetSurfaceLatentHeatWm2(10, Number.NaN, 0, 100, 0)).toBeNaN()
    expect(wetSurfaceLatentHeatWm2(10, 0.9, Number.NaN, 100, 0)).toBeNaN()
  })
})
