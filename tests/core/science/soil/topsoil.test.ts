import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { SOIL_TEXTURES } from '#core/science/soil/textures.ts'
import {
  drainTopsoil,
  dryTopsoil,
  relativeTopsoilWater,
  stepTopsoil,
  type Topsoil,
  topsoilOf,
  wetTopsoil,
} from '#core/science/soil/topsoil.ts'
import { FAO56_DRYING, FIELD_CAPACITY_AFTER_D } from '#tests/truth/soil.ts'

const DRAINAGES = ['well', 'tiled', 'moderate', 'poor'] as const
const soilArb = fc
  .tuple(fc.constantFrom(...SOIL_TEXTURES), fc.constantFrom(...DRAINAGES), fc.double({ min: 0, max: 1, noNaN: true }))
  .map(([texture, drainage, cover]) => topsoilOf(texture, drainage, cover))
const rainArb = fc.double({ min: 0, max: 80, noNaN: true })
const etArb = fc.double({ min: 0, max: 1.5, noNaN: true })
const placed = fc.tuple(soilArb, fc.double({ min: 0, max: 1, noNaN: true })).map(([soil, share]) => ({
  soil,
  depletionMm: soil.floodedMm + share * (soil.tewMm - soil.floodedMm),
}))

const bare = (rewMm: number, tewMm: number, evaporationRatio: number): Topsoil => ({
  ...topsoilOf('loamy-sand', 'well'),
  rewMm,
  tewMm,
  perSecondStage: 1 / (tewMm - rewMm),
  evaporationRatio,
})

/** FAO-56 stage 2 solved exactly: dD/dt = E (TEW - D) / (TEW - REW). */
const exactAfter = (demandMm: number, rewMm: number, tewMm: number): number =>
  demandMm <= rewMm ? demandMm : tewMm - (tewMm - rewMm) * Math.exp(-(demandMm - rewMm) / (tewMm - rewMm))

describe('drying', () => {
  const { rewMm, tewMm, ke, etoMm, firstDayMm } = FAO56_DRYING

  test('the first day of the FAO-56 loamy sand loses 4.73 mm', () => {
    expect(dryTopsoil(0, etoMm, bare(rewMm, tewMm, ke))).toBeCloseTo(firstDayMm, 2)
  })

  test('six days, hour by hour, follow the exact solution of the FAO-56 equations', () => {
    const soil = bare(rewMm, tewMm, ke)
    let depletionMm = 0
    for (let hour = 1; hour <= 144; hour++) {
      depletionMm = dryTopsoil(depletionMm, etoMm / 24, soil)
      expect(Math.abs(depletionMm - exactAfter((hour * ke * etoMm) / 24, rewMm, tewMm))).toBeLessThan(1e-5)
    }
  })

  test('whole days at 7.2 mm of demand stay within 0.05 mm of the exact solution', () => {
    const soil = bare(9.5, 21.5, 1.2)
    let depletionMm = 0
    for (let day = 1; day <= 7; day++) {
      depletionMm = dryTopsoil(depletionMm, 6, soil)
      expect(Math.abs(depletionMm - exactAfter(day * 7.2, 9.5, 21.5))).toBeLessThan(0.05)
    }
  })

  test('crossing from one stage to the next in one step or in a hundred is the same', () => {
    const soil = bare(9.5, 21.5, 1.2)
    let fine = 5
    for (let i = 0; i < 100; i++) fine = dryTopsoil(fine, 0.06, soil)
    expect(Math.abs(dryTopsoil(5, 6, soil) - fine)).toBeLessThan(0.005)
  })

  test('never wets, never passes TEW, never takes more than the demand', () => {
    fc.assert(
      fc.property(placed, fc.double({ min: 0, max: 30, noNaN: true }), ({ soil, depletionMm }, et) => {
        const after = dryTopsoil(depletionMm, et, soil)
        expect(after).toBeGreaterThanOrEqual(depletionMm - 1e-9)
        expect(after).toBeLessThanOrEqual(soil.tewMm + 1e-9)
        expect(after - depletionMm).toBeLessThanOrEqual(et * soil.evaporationRatio + 1e-9)
      }),
    )
  })

  test('dew in the reference evaporation does not wet the soil', () => {
    expect(dryTopsoil(3, -0.2, topsoilOf('loam', 'well'))).toBe(3)
  })
})

describe('draining', () => {
  test.each(Object.entries(FIELD_CAPACITY_AFTER_D))(
    'soaked %s is within 5 %% of its free water of field capacity after the conventional time',
    (texture, [fromDays, toDays]) => {
      const soil = topsoilOf(texture as 'sand' | 'loam' | 'silt-loam', 'well')
      let depletionMm = soil.saturatedMm
      let hours = 0
      while (depletionMm < 0.05 * soil.saturatedMm) {
        depletionMm = drainTopsoil(depletionMm, soil)
        hours++
      }
      expect(hours / 24).toBeGreaterThanOrEqual(fromDays)
      expect(hours / 24).toBeLessThanOrEqual(toDays)
    },
  )

  test('after one time constant 37 % of the free water is left', () => {
    // 1/e: the definition of the exponential the model names.
    const soil = topsoilOf('silt-loam', 'moderate')
    let depletionMm = -10
    for (let hour = 0; hour < 36; hour++) depletionMm = drainTopsoil(depletionMm, soil)
    expect(depletionMm).toBeCloseTo(-10 / Math.E, 10)
  })

  test('worse drainage keeps water longer', () => {
    for (const texture of SOIL_TEXTURES) {
      const left = DRAINAGES.map((drainage) => -drainTopsoil(-10, topsoilOf(texture, drainage)))
      expect(left).toEqual(left.toSorted((a, b) => a - b))
    }
  })

  test('stops at field capacity', () => {
    expect(drainTopsoil(2, topsoilOf('clay', 'poor'))).toBe(2)
  })
})

describe('the step', () => {
  test('conserves water: what goes in is in the soil, ran off, drained or evaporated', () => {
    fc.assert(
      fc.property(placed, rainArb, etArb, ({ soil, depletionMm }, rain, et) => {
        const wetted = wetTopsoil(depletionMm, rain, soil)
        const drained = drainTopsoil(wetted, soil)
        const dried = dryTopsoil(drained, et, soil)
        const ranOffMm = wetted - (depletionMm - rain)
        const drainedMm = drained - wetted
        const evaporatedMm = dried - drained
        for (const lost of [ranOffMm, drainedMm, evaporatedMm]) expect(lost).toBeGreaterThanOrEqual(-1e-9)
        const storedMm = depletionMm - stepTopsoil(depletionMm, rain, et, soil)
        expect(storedMm).toBeCloseTo(rain - ranOffMm - drainedMm - evaporatedMm, 9)
        // Runoff only from flooded ground, drainage only of free water.
        if (ranOffMm > 1e-9) expect(wetted).toBe(soil.floodedMm)
        if (drainedMm > 1e-9) expect(wetted).toBeLessThan(0)
      }),
    )
  })

  test('stays between flooded and dry', () => {
    fc.assert(
      fc.property(placed, fc.array(fc.tuple(rainArb, etArb), { maxLength: 100 }), ({ soil, depletionMm }, weather) => {
        let state = depletionMm
        for (const [rain, et] of weather) {
          state = stepTopsoil(state, rain, et, soil)
          expect(state).toBeGreaterThanOrEqual(soil.floodedMm)
          expect(state).toBeLessThanOrEqual(soil.tewMm + 1e-9)
        }
      }),
      { numRuns: 50 },
    )
  })

  test('more rain never leaves drier ground, more evaporation never wetter ground', () => {
    fc.assert(
      fc.property(placed, rainArb, rainArb, etArb, etArb, ({ soil, depletionMm }, rain, more, et, thirst) => {
        const after = stepTopsoil(depletionMm, rain, et, soil)
        expect(stepTopsoil(depletionMm, rain + more, et, soil)).toBeLessThanOrEqual(after + 1e-9)
        expect(stepTopsoil(depletionMm, rain, et + thirst, soil)).toBeGreaterThanOrEqual(after - 1e-9)
      }),
    )
  })

  test('unknown stays unknown', () => {
    const soil = topsoilOf('silt-loam', 'tiled')
    expect(stepTopsoil(Number.NaN, 0, 0.2, soil)).toBeNaN()
    expect(stepTopsoil(0, Number.NaN, 0.2, soil)).toBeNaN()
    expect(stepTopsoil(0, 0, Number.NaN, soil)).toBeNaN()
  })

  test('relative water is 1 at field capacity and above it when wetter', () => {
    const soil = topsoilOf('silt-loam', 'well')
    expect(relativeTopsoilWater(0, soil)).toBeCloseTo(1, 12)
    expect(relativeTopsoilWater(-5, soil)).toBeGreaterThan(1)
  })
})
