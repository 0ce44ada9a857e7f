import { describe, expect, it } from 'vitest'
import { groundOf, noGoBelowMm } from '#core/field/ground.ts'
import { partsOf } from '#core/field/parts.ts'
import type { Field } from '#core/operation/farm.ts'
import { carryLimits, groundState } from '#core/science/soil/carry.ts'
import { topsoilOf } from '#core/science/soil/topsoil.ts'

const field = (carryShift?: number): Field =>
  ({
    id: 'low',
    areaHa: 10,
    soil: { texture: 'silt-loam', drainage: 'tiled', ...(carryShift === undefined ? {} : { carryShift }) },
    patches: [{ id: 'hole', name: 'Hole', share: 0.1, kind: 'wet-hole', laterDays: 0, handling: 'leave' }],
  }) as unknown as Field

describe('the ground under a part', () => {
  it('lets a wet hole drain like ground without an outlet', () => {
    const [main, hole] = partsOf(field())
    expect(groundOf(main!)).toEqual(topsoilOf('silt-loam', 'tiled'))
    expect(groundOf(hole!)).toEqual(topsoilOf('silt-loam', 'poor'))
  })

  it.each([undefined, 0, 0.05, -0.1])('stops where the rule, shifted by %s, says no-go', (shift) => {
    const [main] = partsOf(field(shift))
    const ground = groundOf(main!)
    const limit = noGoBelowMm(main!, ground)
    const limits = carryLimits('harvest', shift ?? 0)
    expect(groundState(limit - 0.05, ground, limits)).toBe('no-go')
    expect(groundState(limit + 0.05, ground, limits)).not.toBe('no-go')
  })
})
