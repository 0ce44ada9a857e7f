import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Cut } from '#core/field/cut.ts'
import { harvestedOf } from '#core/field/harvested.ts'
import type { Field } from '#core/operation/farm.ts'

const field = {
  id: 'f',
  areaHa: 40,
  patches: [{ id: 'p', name: 'P', share: 0.1, kind: 'green', laterDays: 3, handling: 'leave' }],
} as unknown as Field
const cut = (areaHa: number, more: Partial<Cut> = {}): Cut => ({
  id: `c${areaHa}`,
  partKey: 'f',
  areaHa,
  atEpochH: 1,
  outfitId: 'o',
  who: 'ann',
  ...more,
})

describe('what came off a field', () => {
  it('is the sum of its parts, and nothing of other fields', () => {
    const cuts = [
      cut(10, { massT: 35, moistureWb: 12 }),
      cut(2, { partKey: 'f/p', massT: 5, moistureWb: 18 }),
      cut(9, { partKey: 'g' }),
    ]
    const { areaHa, massT, yieldTHa, moistureWb } = harvestedOf(field, cuts)
    expect([areaHa, massT]).toEqual([12, 40])
    expect(yieldTHa).toBeCloseTo(40 / 12, 12)
    // Of two loads blended the moisture is the mean by weight: (35 x 12 + 5 x 18) / 40.
    expect(moistureWb).toBeCloseTo(12.75, 12)
  })

  it('counts a load that was not weighed by its area at the yield of the others', () => {
    const { massT, yieldTHa, moistureWb } = harvestedOf(field, [
      cut(10, { massT: 30, moistureWb: 12 }),
      cut(5, { moistureWb: 15 }),
    ])
    expect([massT, yieldTHa]).toEqual([30, 3])
    expect(moistureWb).toBeCloseTo(13, 12)
  })

  it('is not known where nothing was weighed or measured', () => {
    expect(harvestedOf(field, [])).toEqual({
      areaHa: 0,
      massT: Number.NaN,
      yieldTHa: Number.NaN,
      moistureWb: Number.NaN,
    })
    expect(harvestedOf(field, [cut(10, { moistureWb: 12 }), cut(30, { moistureWb: 16 })]).moistureWb).toBeCloseTo(
      15,
      12,
    )
  })

  it('has a moisture between those of its loads, whatever their order', () => {
    const load = fc.record({
      areaHa: fc.double({ min: 0.1, max: 20, noNaN: true }),
      massT: fc.option(fc.double({ min: 0.1, max: 90, noNaN: true }), { nil: undefined }),
      moistureWb: fc.double({ min: 8, max: 30, noNaN: true }),
    })
    fc.assert(
      fc.property(fc.array(load, { minLength: 1, maxLength: 8 }), (loads) => {
        const cuts = loads.map(({ areaHa, massT, moistureWb }) =>
          cut(areaHa, { moistureWb, ...(massT === undefined ? {} : { massT }) }),
        )
        const whole = harvestedOf(field, cuts)
        const moistures = loads.map(({ moistureWb }) => moistureWb)
        expect(whole.moistureWb).toBeGreaterThanOrEqual(Math.min(...moistures) - 1e-9)
        expect(whole.moistureWb).toBeLessThanOrEqual(Math.max(...moistures) + 1e-9)
        expect(harvestedOf(field, cuts.toReversed()).moistureWb).toBeCloseTo(whole.moistureWb, 9)
      }),
    )
  })
})
