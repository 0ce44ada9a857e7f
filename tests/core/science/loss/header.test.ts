import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROP_TRADE, CROPS } from '#core/science/crop.ts'
import {
  HEADER_TRAITS,
  headerLossFraction,
  soybeanSplitsFraction,
  soybeanStubbleFraction,
} from '#core/science/loss/header.ts'
import { MM_PER_IN } from '#core/units/convert.ts'
import { CORN_HARVEST, CORN_MICHIGAN, SOYBEAN_HARVEST, TOLERATED_HARVEST_LOSS } from '#tests/truth/losses.ts'

describe('loss at the header', () => {
  it('of soybeans in good order is nine tenths of 2-4 %', () => {
    const [low, high] = SOYBEAN_HARVEST.goodTotal
    const middle = ((low + high) / 2) * SOYBEAN_HARVEST.gatheringShare
    expect(headerLossFraction('soybean', 13)).toBeCloseTo(middle, 9)
    expect(headerLossFraction('soybean', 15)).toBeCloseTo(middle, 9)
  })

  it('of dry soybeans comes to the published worst', () => {
    expect(headerLossFraction('soybean', 9)).toBeCloseTo(SOYBEAN_HARVEST.at9, 9)
    expect(headerLossFraction('soybean', 3)).toBe(SOYBEAN_HARVEST.dryWorst)
  })

  it('of corn is 1-2 % at 24 % moisture and 2-8 % more at 18 %', () => {
    const wet = headerLossFraction('corn', 24)
    const added = headerLossFraction('corn', 18) - wet
    expect(wet).toBeGreaterThanOrEqual(CORN_HARVEST.at24[0])
    expect(wet).toBeLessThanOrEqual(CORN_HARVEST.at24[1])
    expect(added).toBeGreaterThanOrEqual(CORN_HARVEST.addedAt18[0] - 1e-9)
    expect(added).toBeLessThanOrEqual(CORN_HARVEST.addedAt18[1])
  })

  it('of corn in October is near what Thelen found behind the machine', () => {
    // Moisture of his October harvest is not printed; 15-18 % is common practice, no source.
    expect(headerLossFraction('corn', 18)).toBeLessThan(CORN_MICHIGAN.october.machine)
    expect(headerLossFraction('corn', 15)).toBeGreaterThan(CORN_MICHIGAN.october.machine)
  })

  it('of small grains inside the band is what is usually tolerated', () => {
    const [low, high] = TOLERATED_HARVEST_LOSS
    for (const crop of ['wheat-soft', 'wheat-hard', 'wheat-durum', 'barley', 'oats'] as const) {
      const { lowWb, highWb } = CROP_TRADE[crop].band
      for (const wb of [lowWb, (lowWb + highWb) / 2, highWb]) {
        expect(headerLossFraction(crop, wb)).toBeGreaterThanOrEqual(low)
        expect(headerLossFraction(crop, wb)).toBeLessThanOrEqual(high)
      }
    }
  })

  it('never falls as grain dries below its band', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CROPS), fc.double({ min: 0, max: 1, noNaN: true }), (crop, share) => {
        const wb = CROP_TRADE[crop].band.lowWb * share
        expect(headerLossFraction(crop, wb * 0.9)).toBeGreaterThanOrEqual(headerLossFraction(crop, wb))
      }),
    )
  })

  it('is between nothing and a tenth, and says where it comes from', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CROPS), fc.double({ min: 0, max: 99, noNaN: true }), (crop, wb) => {
        expect(headerLossFraction(crop, wb)).toBeGreaterThan(0)
        expect(headerLossFraction(crop, wb)).toBeLessThanOrEqual(0.1)
      }),
    )
    for (const crop of CROPS) expect(HEADER_TRAITS[crop].source).toContain('no source')
  })

  it('is unknown where moisture is', () => {
    for (const wb of [Number.NaN, -1, 100]) expect(headerLossFraction('soybean', wb)).toBeNaN()
  })
})

describe('splits of soybeans', () => {
  it('turn at the published moistures', () => {
    const { cracksBelowWb, crushedAboveWb } = SOYBEAN_HARVEST
    const dryGain = soybeanSplitsFraction(cracksBelowWb - 1) - soybeanSplitsFraction(cracksBelowWb)
    const fitGain = soybeanSplitsFraction(cracksBelowWb) - soybeanSplitsFraction(cracksBelowWb + 1)
    expect(dryGain).toBeGreaterThan(3 * fitGain)
    expect(soybeanSplitsFraction(crushedAboveWb)).toBe(soybeanSplitsFraction(14))
    expect(soybeanSplitsFraction(crushedAboveWb + 1)).toBeGreaterThan(soybeanSplitsFraction(crushedAboveWb))
  })

  it('are a share, never fewer in drier beans below 13 %, unknown where moisture is', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 13, noNaN: true }), (wb) => {
        expect(soybeanSplitsFraction(wb * 0.9)).toBeGreaterThanOrEqual(soybeanSplitsFraction(wb))
        expect(soybeanSplitsFraction(wb)).toBeLessThanOrEqual(0.15)
      }),
    )
    expect(soybeanSplitsFraction(Number.NaN)).toBeNaN()
  })
})

describe('beans left on the stubble', () => {
  it.each(SOYBEAN_HARVEST.stubble)('at $heightIn in', ({ heightIn, loss }) => {
    expect(soybeanStubbleFraction(heightIn * MM_PER_IN)).toBeCloseTo(loss, 9)
  })

  it('never fewer with a higher cut; none at the ground; unknown where the height is', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), (mm) => {
        expect(soybeanStubbleFraction(mm + 10)).toBeGreaterThanOrEqual(soybeanStubbleFraction(mm))
      }),
    )
    expect(soybeanStubbleFraction(0)).toBe(0)
    expect(soybeanStubbleFraction(Number.NaN)).toBeNaN()
    expect(soybeanStubbleFraction(-1)).toBeNaN()
  })
})
