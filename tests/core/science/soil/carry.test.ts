import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { carryLimits, type GroundState, groundState } from '#core/science/soil/carry.ts'
import { SOIL_TEXTURES } from '#core/science/soil/textures.ts'
import { stepTopsoil, topsoilOf } from '#core/science/soil/topsoil.ts'
import { NON_WORKDAY_ABOVE } from '#tests/truth/soil.ts'

const soil = topsoilOf('silt-loam', 'well')
const at = (relative: number): number => soil.capacityMm * (1 - relative)
const ORDER: readonly GroundState[] = ['firm', 'soft', 'no-go']

describe('does the ground carry', () => {
  test('nothing above 95 % of field capacity is a plain work day (Rutledge & McHardy 1968)', () => {
    expect(groundState(at(NON_WORKDAY_ABOVE - 0.001), soil, carryLimits('harvest'))).toBe('firm')
    expect(groundState(at(NON_WORKDAY_ABOVE + 0.001), soil, carryLimits('harvest'))).not.toBe('firm')
    expect(groundState(at(NON_WORKDAY_ABOVE + 0.001), soil, carryLimits('tillage'))).toBe('no-go')
  })

  test('harvest goes on up to about field capacity, not above (Rounsevell & Jones 1993)', () => {
    expect(groundState(at(0.99), soil, carryLimits('harvest'))).toBe('soft')
    expect(groundState(at(1.01), soil, carryLimits('harvest'))).toBe('no-go')
  })

  test('harvest is looser than tillage, and a farm may shift both', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 1.2, noNaN: true }),
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        (r, shift) => {
          const state = ORDER.indexOf(groundState(at(r), soil, carryLimits('harvest')))
          expect(state).toBeLessThanOrEqual(ORDER.indexOf(groundState(at(r), soil, carryLimits('tillage'))))
          expect(ORDER.indexOf(groundState(at(r), soil, carryLimits('harvest', shift)))).toBeLessThanOrEqual(state)
          expect(ORDER.indexOf(groundState(at(r), soil, carryLimits('harvest', -shift)))).toBeGreaterThanOrEqual(state)
        },
      ),
    )
  })

  test('wetter ground never carries better', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SOIL_TEXTURES),
        fc.double({ min: -30, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (texture, depletion, more) => {
          const any = topsoilOf(texture, 'well')
          const dry = ORDER.indexOf(groundState(depletion, any, carryLimits('harvest')))
          const wet = ORDER.indexOf(groundState(depletion - more, any, carryLimits('harvest')))
          expect(wet).toBeGreaterThanOrEqual(dry)
        },
      ),
    )
  })

  test('standing water stops everything, whatever the farm shifts', () => {
    expect(groundState(soil.saturatedMm, soil, { firmTo: 5, softTo: 5 })).toBe('no-go')
  })

  test('an unknown state is no promise', () => {
    expect(groundState(Number.NaN, soil, carryLimits('harvest'))).toBe('no-go')
    expect(groundState(at(0.5), soil, carryLimits('harvest', Number.NaN))).toBe('no-go')
  })

  test('a soaked field takes a day or more on a well-drained loam and longer where drainage is poor', () => {
    // Common practice, no source: a day or two after a soaking on drained loam, near a week on wet flats.
    const daysToFirm = (drainage: 'well' | 'poor'): number => {
      const field = topsoilOf('silt-loam', drainage)
      let depletion = field.saturatedMm
      let hours = 0
      while (groundState(depletion, field, carryLimits('harvest')) !== 'firm') {
        depletion = stepTopsoil(depletion, 0, hours % 24 > 6 && hours % 24 < 19 ? 4 / 12 : 0, field)
        hours++
      }
      return hours / 24
    }
    expect(daysToFirm('well')).toBeGreaterThan(1)
    expect(daysToFirm('well')).toBeLessThan(3.5)
    expect(daysToFirm('poor')).toBeGreaterThan(1.5 * daysToFirm('well'))
  })
})
