import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROPS } from '#core/science/crop.ts'
import { dryBasisFromWet } from '#core/science/grain/moisture-basis.ts'
import { canopyWater } from '#core/science/wetness/canopy-water.ts'
import {
  cuttingState,
  SOAKED_STRAW_WB,
  STRAW_LIMITS,
  strawEquilibriumWb,
  strawToughness,
  withGreenStems,
} from '#core/science/wetness/cutting.ts'
import { STOVER_MOISTURE_DB } from '#tests/truth/dew.ts'
import { dayWeather } from './day-weather.ts'

const share = fc.double({ min: 0, max: 1, noNaN: true })

describe('straw at rest with the air', () => {
  it('damp end: within 1 point of measured corn stover (published 19.6, ours 20.0 % dry basis)', () => {
    const { rhPct, airTempC, db } = STOVER_MOISTURE_DB.wet
    expect(Math.abs(dryBasisFromWet(strawEquilibriumWb(airTempC, rhPct / 100)) - db)).toBeLessThan(1)
  })

  // Published 8.0 % dry basis, ours 2.8-3.3: the fit is for wood. Nothing this dry is tough, so no answer turns on it.
  it('dry end: the disagreement with stover stays where no crop is tough', () => {
    const { rhPct, db } = STOVER_MOISTURE_DB.dry
    const ours = dryBasisFromWet(strawEquilibriumWb(20, rhPct / 100))
    expect(ours).toBeLessThan(db)
    for (const crop of CROPS) expect(dryBasisFromWet(STRAW_LIMITS[crop].freeWb)).toBeGreaterThan(db)
  })

  it('stays between bone dry and soaked, damper in damper air but for the small steps of the fit', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 55, noNaN: true }), share, (airTempC, rh) => {
        const wb = strawEquilibriumWb(airTempC, rh)
        expect(wb).toBeGreaterThanOrEqual(0)
        expect(wb).toBeLessThanOrEqual(SOAKED_STRAW_WB)
        expect(strawEquilibriumWb(airTempC, Math.min(1, rh + 0.1))).toBeGreaterThanOrEqual(wb)
      }),
    )
    expect(strawEquilibriumWb(Number.NaN, 0.5)).toBeNaN()
    expect(strawEquilibriumWb(20, 1.2)).toBeNaN()
  })
})

describe('toughness through a day', () => {
  const weather = dayWeather({ days: 3 })
  const { waterMm } = canopyWater(weather, 'soybean')
  const degree = strawToughness(weather, 'soybean', waterMm)

  it('beans are tough at a dewy dawn, free in a dry afternoon (common practice, no source)', () => {
    expect(cuttingState(degree[54]!)).toBe('tough')
    expect(cuttingState(degree[63]!)).toBe('free')
  })

  it('the straw dries after the dew is off, not with it', () => {
    const dewOff = waterMm.findIndex((mm, h) => h > 54 && mm < 0.015)
    const free = degree.findIndex((d, h) => h > 54 && d < 1 / 3)
    expect(free).toBeGreaterThan(dewOff)
    expect(free - dewOff).toBeLessThan(5)
  })

  it('straw closes 63 % of its gap in one time lag', () => {
    const steady = {
      ...dayWeather(),
      airTempC: new Float32Array(48).fill(20),
      relHumidity: new Float32Array(48).fill(0.8).fill(0.4, 0, 1),
    }
    const { freeWb, toughWb, timeLagH } = STRAW_LIMITS.canola
    const from = strawEquilibriumWb(20, Math.fround(0.4))
    const to = strawEquilibriumWb(20, Math.fround(0.8))
    const wb = to + (from - to) * Math.exp(-1 / timeLagH)
    const [, second] = strawToughness(steady, 'canola', new Float32Array(48))
    expect(second).toBeCloseTo(Math.max(0, (wb - freeWb) / (toughWb - freeWb)), 4)
  })

  it('is a share, never less with water on the plants', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CROPS), share, (crop, rh) => {
        const day = dayWeather({ dewPointRelHumidityAtLow: rh })
        const dry = strawToughness(day, crop, new Float32Array(48))
        const wet = strawToughness(day, crop, new Float32Array(48).fill(0.2))
        for (let h = 0; h < 48; h++) {
          expect(dry[h]).toBeGreaterThanOrEqual(0)
          expect(wet[h]).toBeLessThanOrEqual(1)
          expect(wet[h]).toBeGreaterThanOrEqual(dry[h]!)
        }
      }),
      { numRuns: 30 },
    )
  })

  it('unknown water or air is unknown, and known again some time lags later', () => {
    const gap = waterMm.map((mm, h) => (h >= 33 && h < 36 ? Number.NaN : mm))
    const after = strawToughness(weather, 'soybean', gap)
    expect(after[32]).toBe(degree[32])
    for (let h = 33; h < 36; h++) expect(after[h]).toBeNaN()
    expect(after[45]).toBeCloseTo(degree[45]!, 1)
    const blind = { ...weather, airTempC: weather.airTempC.map(() => Number.NaN) }
    expect(strawToughness(blind, 'soybean', new Float32Array(72)).every(Number.isNaN)).toBe(true)
  })
})

describe('green stems and words', () => {
  it('a third of green stems is tough by itself, a few change nothing (common practice, no source)', () => {
    expect(cuttingState(withGreenStems(0, 0.34))).toBe('tough')
    expect(cuttingState(withGreenStems(0, 0.05))).toBe('free')
    fc.assert(
      fc.property(share, share, (degree, green) => {
        expect(withGreenStems(degree, green)).toBeGreaterThanOrEqual(degree)
        expect(withGreenStems(degree, green)).toBeLessThanOrEqual(1)
      }),
    )
  })

  it('not known has no word', () => {
    expect(cuttingState(Number.NaN)).toBeNull()
    expect(withGreenStems(0.5, Number.NaN)).toBeNaN()
    expect([0, 0.32, 0.34, 0.99, 1].map(cuttingState)).toEqual(['free', 'free', 'slow', 'slow', 'tough'])
  })
})
