import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dryBasisFromWet, wetBasisFromDry } from '#core/science/grain/moisture-basis.ts'

describe('wet and dry basis', () => {
  // Pounds of wet corn that hold the dry matter of 56 lb at 15.5 % (University of Missouri Extension weight table).
  it.each([
    [20, 59.15],
    [25, 63.09],
    [30, 67.6],
  ])('corn at %d %% weighs %d lb per bushel of dry matter', (moistureWb, pounds) => {
    const dryMatter = 56 / (1 + dryBasisFromWet(15.5) / 100)
    expect(dryMatter * (1 + dryBasisFromWet(moistureWb) / 100)).toBeCloseTo(pounds, 2)
  })

  it('goes there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 95, noNaN: true }), (wb) => {
        expect(wetBasisFromDry(dryBasisFromWet(wb))).toBeCloseTo(wb, 9)
      }),
    )
  })

  it('does not know what it cannot know', () => {
    for (const bad of [Number.NaN, -1, 100]) expect(dryBasisFromWet(bad)).toBeNaN()
    for (const bad of [Number.NaN, -1]) expect(wetBasisFromDry(bad)).toBeNaN()
  })
})
