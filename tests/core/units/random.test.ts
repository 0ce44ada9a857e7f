import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { FNV1A_32 } from '#tests/truth/units.ts'

const DRAWS = 20_000
const draws = (seed: number, kind: 'uniform' | 'normal') => {
  const random = seededRandom(seed)
  return Array.from({ length: DRAWS }, () => random[kind]())
}
const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length

describe('seeds', () => {
  it.each(FNV1A_32)('FNV-1a of "$text"', ({ text, hash }) => {
    expect(seedFromText(text)).toBe(hash)
  })

  it('the same seed gives the same draws, another one others', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const [a, b, c] = [seededRandom(seed), seededRandom(seed), seededRandom(seed + 1)]
        const ofA = Array.from({ length: 8 }, () => a.uniform())
        expect(Array.from({ length: 8 }, () => b.uniform())).toEqual(ofA)
        expect(Array.from({ length: 8 }, () => c.uniform())).not.toEqual(ofA)
      }),
    )
  })

  it('neighbouring seeds are not alike: correlation of their draws is nothing', () => {
    const [a, b] = [draws(1, 'normal'), draws(2, 'normal')]
    expect(Math.abs(mean(a.map((v, i) => v * b[i]!)))).toBeLessThan(4 / Math.sqrt(DRAWS))
  })
})

describe('uniform draws', () => {
  it('lie in [0, 1) and fill ten bins evenly', () => {
    for (const seed of [0, 1, 0xffff_ffff]) {
      const values = draws(seed, 'uniform')
      const bins = new Array<number>(10).fill(0)
      expect(values.every((v) => v >= 0 && v < 1)).toBe(true)
      for (const v of values) bins[Math.floor(v * 10)]!++
      const expected = DRAWS / 10
      const chiSquare = bins.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0)
      // Chi-squared table, 9 degrees of freedom: 27.88 is passed once in 1,000.
      expect(chiSquare).toBeLessThan(27.88)
    }
  })
})

describe('normal draws', () => {
  it('have mean 0, variance 1, and tails as in the table of the normal distribution', () => {
    const values = draws(7, 'normal')
    const within = (limit: number) => values.filter((v) => Math.abs(v) <= limit).length / DRAWS
    expect(Math.abs(mean(values))).toBeLessThan(4 / Math.sqrt(DRAWS))
    expect(mean(values.map((v) => v * v))).toBeCloseTo(1, 1)
    // Normal table: 68.27 %, 95.45 %, 99.73 %; four standard errors of a share are at most 0.014.
    expect(Math.abs(within(1) - 0.6827)).toBeLessThan(0.014)
    expect(Math.abs(within(2) - 0.9545)).toBeLessThan(0.007)
    expect(Math.abs(within(3) - 0.9973)).toBeLessThan(0.002)
  })
})
