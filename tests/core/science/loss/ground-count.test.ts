import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lossTHaFromSeedCount } from '#core/science/loss/ground-count.ts'
import { buPerAcreFromTPerHa, KG_PER_LB, M_PER_FT } from '#core/units/convert.ts'
import { SEED_COUNTS, SEED_COUNTS_MISPRINTED, SOYBEANS_PER_FT2_PER_BU } from '#tests/truth/losses.ts'

const FT2 = M_PER_FT * M_PER_FT
const buPerAcre = (perFt2: number, perLb: number, lbPerBu: number): number =>
  buPerAcreFromTPerHa(lossTHaFromSeedCount(perFt2 / FT2, perLb / KG_PER_LB), lbPerBu)

describe('loss from a seed count', () => {
  it.each(SEED_COUNTS)('$seed: $perFt2 on a square foot are a bushel an acre', ({ perLb, perFt2, lbPerBu }) => {
    // Counts are printed to a whole seed, some to a half: half a seed of slack.
    expect(Math.abs(perFt2 / buPerAcre(perFt2, perLb, lbPerBu) - perFt2)).toBeLessThanOrEqual(0.5)
  })

  it.each(SEED_COUNTS_MISPRINTED)('$seed: the printed count contradicts its own seed size', (row) => {
    const count = row.perFt2 / buPerAcre(row.perFt2, row.perLb, row.lbPerBu)
    expect(count).toBeCloseTo(row.exact, 1)
    expect(Math.abs(count - row.perFt2)).toBeGreaterThan(0.5)
  })

  it('the field rule of four or five soybeans holds for seeds of usual size', () => {
    const [large, small] = SOYBEANS_PER_FT2_PER_BU
    expect(buPerAcre(large, 2904, 60)).toBeCloseTo(1, 6) // 4 x 43,560 / 60 = 2,904 seeds/lb, exact
    expect(buPerAcre(small, 3630, 60)).toBeCloseTo(1, 6)
  })

  it('doubles with the count and halves with smaller seed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e4, noNaN: true }),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        (n, size) => {
          expect(lossTHaFromSeedCount(2 * n, size)).toBeCloseTo(2 * lossTHaFromSeedCount(n, size), 6)
          expect(lossTHaFromSeedCount(n, 2 * size)).toBeCloseTo(lossTHaFromSeedCount(n, size) / 2, 6)
        },
      ),
    )
  })

  it('is unknown where an input is unknown or out of range', () => {
    expect(lossTHaFromSeedCount(Number.NaN, 5000)).toBeNaN()
    expect(lossTHaFromSeedCount(10, 0)).toBeNaN()
    expect(lossTHaFromSeedCount(-1, 5000)).toBeNaN()
  })
})
