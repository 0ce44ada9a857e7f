import { describe, expect, it } from 'vitest'
import {
  COOL_BEFORE_REFUEL_MIN,
  EXTINGUISHER_KG,
  EXTINGUISHERS,
  FIRE_CAUTION_CODES,
  FIRE_CAUTIONS,
} from '#core/science/fire/cautions.ts'
import { KG_PER_LB } from '#core/units/convert.ts'

describe('fire cautions', () => {
  it('has each code once, each with its source', () => {
    expect(FIRE_CAUTIONS.map((caution) => caution.code)).toEqual([...FIRE_CAUTION_CODES])
    for (const caution of FIRE_CAUTIONS) expect(caution.source).toMatch(/Extension|Code of Practice|Weather Service/)
  })

  it('puts the local rules before all else, and walking away before fighting', () => {
    expect(FIRE_CAUTIONS[0]!.code).toBe('local-rules-first')
    expect(FIRE_CAUTIONS.filter((caution) => caution.when === 'fire').map((caution) => caution.code)).toEqual([
      'walk-away-and-call',
    ])
  })

  it('keeps the figures of the extension services', () => {
    // North Dakota State University Extension AE1991: 15 minutes. University of Wisconsin Extension 2016: two of 10 lb.
    expect(COOL_BEFORE_REFUEL_MIN).toBe(15)
    expect(EXTINGUISHERS).toBe(2)
    expect(EXTINGUISHER_KG).toBeCloseTo(10 * KG_PER_LB, 1)
  })
})
