import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  isWetByDepression,
  isWetByHumidity,
  isWetByTree,
  lightWindDiscriminant,
} from '#core/science/wetness/threshold.ts'
import { COMPUTED_TREE } from '#tests/truth/dew.ts'

const share = fc.double({ min: 0, max: 1, noNaN: true })
const depression = fc.double({ min: 0, max: 30, noNaN: true })

describe('rules of wet and dry', () => {
  it('humidity: wet from 90 % (Sentelhas et al. 2008)', () => {
    expect([0.89, 0.9, 1].map(isWetByHumidity)).toEqual([false, true, true])
  })

  it('depression: begins under 2.0, ends over 3.8 deg C (Gillespie et al. 1993, from memory)', () => {
    expect([1.9, 2.0, 3.8].map((d) => isWetByDepression(d, false))).toEqual([true, false, false])
    expect([1.9, 3.8, 3.9].map((d) => isWetByDepression(d, true))).toEqual([true, true, false])
  })

  it('tree, light winds: the rows computed from the equation', () => {
    for (const { airTempC, rhPct, windMs, depressionC, a, wet } of COMPUTED_TREE) {
      expect(lightWindDiscriminant(airTempC, rhPct / 100, windMs, depressionC)).toBeCloseTo(a, 3)
      expect(isWetByTree(airTempC, rhPct / 100, windMs, depressionC)).toBe(wet)
    }
  })

  it('tree, wind of 2.5 m/s and more: 90 % decides, as the printed branch can never be wet', () => {
    fc.assert(
      fc.property(share, fc.double({ min: 2.5, max: 20, noNaN: true }), (rh, wind) => {
        expect(isWetByTree(15, rh, wind, 1)).toBe(rh >= 0.9)
      }),
    )
  })

  it('damper air is never called drier', () => {
    fc.assert(
      fc.property(depression, share, (d, rh) => {
        if (isWetByHumidity(rh)) expect(isWetByHumidity(Math.min(1, rh + 0.01))).toBe(true)
        for (const was of [true, false]) if (isWetByDepression(d, was)) expect(isWetByDepression(d / 2, was)).toBe(true)
        if (isWetByDepression(d, false)) expect(isWetByDepression(d, true)).toBe(true)
      }),
    )
  })

  it('not known is neither wet nor dry', () => {
    expect(isWetByHumidity(Number.NaN)).toBeNull()
    expect(isWetByDepression(Number.NaN, true)).toBeNull()
    for (let i = 0; i < 4; i++) {
      const given: [number, number, number, number] = [15, 0.95, 1, 1]
      given[i] = Number.NaN
      expect(isWetByTree(...given)).toBeNull()
    }
  })
})
