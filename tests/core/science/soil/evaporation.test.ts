import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { evaporableWaterMm, evaporationReduction, kcMax } from '#core/science/soil/evaporation.ts'
import { SOIL_WATER } from '#core/science/soil/textures.ts'
import { FAO56_DRYING, FAO56_EXAMPLE_SOILS, FAO56_KC_MAX, FAO56_TABLE_19 } from '#tests/truth/soil.ts'

describe('evaporable water', () => {
  test.each(FAO56_EXAMPLE_SOILS)('$name of the FAO-56 examples', ({ fieldCapacity, wiltingPoint, tewMm }) => {
    expect(evaporableWaterMm(fieldCapacity, wiltingPoint, 0.1)).toBeCloseTo(tewMm, 10)
  })

  test.each(FAO56_TABLE_19)('$texture lies inside FAO-56 Table 19', ({ texture, tewMm }) => {
    const { fieldCapacity, wiltingPoint } = SOIL_WATER[texture]
    const ours = evaporableWaterMm(fieldCapacity, wiltingPoint, 0.1)
    expect(ours).toBeGreaterThanOrEqual(tewMm[0])
    expect(ours).toBeLessThanOrEqual(tewMm[1])
  })

  test('a wilting point above field capacity is no soil', () => {
    expect(evaporableWaterMm(0.1, 0.2, 0.1)).toBeNaN()
    expect(evaporableWaterMm(Number.NaN, 0.1, 0.1)).toBeNaN()
  })
})

describe('evaporation reduction', () => {
  test.each(FAO56_DRYING.reductions)('at $depletionMm mm it is $kr', ({ depletionMm, kr }) => {
    expect(evaporationReduction(depletionMm, FAO56_DRYING.rewMm, FAO56_DRYING.tewMm)).toBeCloseTo(kr, 2)
  })

  test('stays in 0-1 and falls as the soil dries', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (d, more) => {
          const wet = evaporationReduction(d, 9.5, 21.5)
          const dry = evaporationReduction(d + more, 9.5, 21.5)
          expect(wet).toBeGreaterThanOrEqual(0)
          expect(wet).toBeLessThanOrEqual(1)
          expect(dry).toBeLessThanOrEqual(wet)
        },
      ),
    )
  })

  test('unknown stays unknown', () => {
    expect(evaporationReduction(Number.NaN, 9.5, 21.5)).toBeNaN()
    expect(evaporationReduction(5, 9.5, 9.5)).toBeNaN()
  })
})

describe('Kc max', () => {
  test('the worked value of FAO-56 eq. 72', () => {
    const { windMs, minRelHumidity, heightM, kcb } = FAO56_KC_MAX
    expect(kcMax(windMs, minRelHumidity, heightM, kcb)).toBeCloseTo(FAO56_KC_MAX.kcMax, 3)
  })

  test('is 1.2 in the standard climate and never below the crop itself', () => {
    expect(kcMax(2, 0.45, 2, 0.15)).toBeCloseTo(1.2, 10)
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 1.3, noNaN: true }),
        (wind, humidity, height, kcb) => {
          const value = kcMax(wind, humidity, height, kcb)
          expect(value).toBeGreaterThanOrEqual(kcb + 0.05)
          expect(value).toBeLessThan(1.8)
        },
      ),
    )
  })

  test('unknown stays unknown', () => {
    expect(kcMax(Number.NaN, 0.4, 1, 0.2)).toBeNaN()
  })
})
