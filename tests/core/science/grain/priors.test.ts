import { describe, expect, it } from 'vitest'
import { CROPS } from '#core/science/crop.ts'
import { GRAIN_PRIORS } from '#core/science/grain/priors.ts'
import { GRAIN_TRAITS } from '#core/science/grain/traits.ts'
import { CORN_BLACK_LAYER_RANGE_WB, SOYBEAN_STAGES, WHEAT_MATURITY_WB } from '#tests/truth/dry-down.ts'

describe('priors of a field that was never measured', () => {
  it.each([
    ['corn', CORN_BLACK_LAYER_RANGE_WB],
    ['soybean', SOYBEAN_STAGES.r7Wb],
  ] as const)(
    '%s: two standard deviations about the moisture at maturity span the published range',
    (crop, [low, high]) => {
      const { mean, sd } = GRAIN_PRIORS[crop].moistureAtMaturityWb
      expect(Math.abs(mean - 2 * sd - low)).toBeLessThan(2)
      expect(Math.abs(mean + 2 * sd - high)).toBeLessThan(2)
    },
  )

  it('wheat matures at the published moisture', () => {
    for (const crop of ['wheat-soft', 'wheat-hard', 'wheat-durum'] as const)
      expect(GRAIN_PRIORS[crop].moistureAtMaturityWb.mean).toBe(WHEAT_MATURITY_WB)
  })

  it.each(CROPS)('%s: matures green, and every spread is one', (crop) => {
    const prior = GRAIN_PRIORS[crop]
    expect(prior.moistureAtMaturityWb.mean).toBeGreaterThan(GRAIN_TRAITS[crop].greenWb)
    for (const { sd } of Object.values(prior)) expect(sd).toBeGreaterThan(0)
    expect(prior.exchangeHours.mean).toBeGreaterThan(1)
  })
})
