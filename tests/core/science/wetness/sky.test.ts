import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  fillClearness,
  isothermalNetRadiationWm2,
  radiativeConductanceWm2K,
  skyEmissivity,
} from '#core/science/wetness/sky.ts'
import { FAO_EXAMPLE_19 } from '#tests/truth/dew.ts'

const MJ_PER_WM2_HOUR = 0.0036
const temp = fc.double({ min: -50, max: 55, noNaN: true })
const share = fc.double({ min: 0, max: 1, noNaN: true })

describe('loss to the sky', () => {
  // Published 0.100 and 0.137 MJ/m2, ours 0.120 and 0.162: two published sky formulas, a fifth apart.
  it('FAO-56 example 19, net longwave of a night and a day hour: ours loses 15-25 % more', () => {
    for (const { airTempC, relHumidity, clearness, lossMJ } of FAO_EXAMPLE_19) {
      const ours = -MJ_PER_WM2_HOUR * isothermalNetRadiationWm2(airTempC, relHumidity, 0, clearness)
      expect(ours / lossMJ).toBeGreaterThan(1.15)
      expect(ours / lossMJ).toBeLessThan(1.25)
    }
  })

  it('the sky is between nothing and black; cloud, warmth and vapour make it warmer', () => {
    fc.assert(
      fc.property(temp, share, share, (airTempC, relHumidity, clearness) => {
        const sky = skyEmissivity(airTempC, relHumidity, clearness)
        expect(sky).toBeGreaterThanOrEqual(0)
        expect(sky).toBeLessThanOrEqual(1)
        expect(skyEmissivity(airTempC, relHumidity, clearness / 2)).toBeGreaterThanOrEqual(sky)
        expect(skyEmissivity(airTempC, relHumidity / 2, clearness)).toBeLessThanOrEqual(sky)
        expect(isothermalNetRadiationWm2(airTempC, relHumidity, 0, clearness)).toBeLessThanOrEqual(0)
        expect(radiativeConductanceWm2K(airTempC)).toBeGreaterThan(0)
      }),
    )
  })

  it('not known stays not known', () => {
    expect(skyEmissivity(Number.NaN, 0.5, 1)).toBeNaN()
    expect(skyEmissivity(10, 1.5, 1)).toBeNaN()
    expect(isothermalNetRadiationWm2(10, 0.5, Number.NaN, 1)).toBeNaN()
    expect(isothermalNetRadiationWm2(10, 0.5, 0, Number.NaN)).toBeNaN()
    expect(radiativeConductanceWm2K(Number.NaN)).toBeNaN()
  })
})

describe('clearness', () => {
  const clearSky = Float32Array.from([0, 0, 400, 800, 400, 0, 0, 0, 400, 0])
  const clearnessOf = (solar: readonly number[]) => {
    const out = new Float32Array(clearSky.length)
    fillClearness(Float32Array.from(solar), 0, clearSky, out)
    return [...out].map((value) => Math.round(1000 * value) / 1000)
  }

  it('is measured by day, drawn through the night, held at the ends', () => {
    expect(clearnessOf([0, 0, 200, 800, 400, 0, 0, 0, 80, 0])).toEqual([0.5, 0.5, 0.5, 1, 1, 0.8, 0.6, 0.4, 0.2, 0.2])
  })

  it('passes over unknown sunlight and caps bright hours', () => {
    const out = clearnessOf([0, 0, Number.NaN, 900, Number.NaN, 0, 0, 0, 400, 0])
    expect(out).toEqual(Array(10).fill(1))
  })

  it('takes 0.7 where there is no daylight at all', () => {
    expect(clearnessOf(Array(10).fill(Number.NaN))).toEqual(Array(10).fill(0.7))
  })

  it('reads the member it is given', () => {
    const out = new Float32Array(2)
    fillClearness(Float32Array.from([400, 400, 100, 100]), 2, Float32Array.from([400, 400]), out)
    expect([...out]).toEqual([0.25, 0.25])
  })
})
