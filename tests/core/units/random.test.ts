import { describe, expect, it } from 'vitest'
import { seededRandom, seedFromText } from '#core/units/random.ts'

describe('seeded chance', () => {
  it('repeats with its seed and differs without', () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed)
      return Array.from({ length: 5 }, () => random.uniform())
    }
    expect(draw(7)).toEqual(draw(7))
    expect(draw(7)).not.toEqual(draw(8))
  })

  it('has the moments of the uniform (1/2, 1/12) and the normal (0, 1, kurtosis 3) distribution', () => {
    const random = seededRandom(1)
    const n = 200_000
    let uniformSum = 0
    let uniformSquares = 0
    let sum = 0
    let squares = 0
    let fourths = 0
    for (let i = 0; i < n; i++) {
      const u = random.uniform()
      uniformSum += u
      uniformSquares += (u - 0.5) ** 2
      const z = random.normal()
      sum += z
      squares += z * z
      fourths += z ** 4
    }
    // Five standard errors each.
    expect(Math.abs(uniformSum / n - 0.5)).toBeLessThan(5 / Math.sqrt(12 * n))
    expect(uniformSquares / n).toBeCloseTo(1 / 12, 3)
    expect(Math.abs(sum / n)).toBeLessThan(5 / Math.sqrt(n))
    expect(Math.abs(squares / n - 1)).toBeLessThan(5 * Math.sqrt(2 / n))
    expect(Math.abs(fourths / n - 3)).toBeLessThan(5 * Math.sqrt(96 / n))
  })

  it('hashes text as published for FNV-1a 32 bit', () => {
    // Test vectors: Fowler, Noll, Vo, Eastlake, IETF draft "The FNV Non-Cryptographic Hash Algorithm", appendix C.
    expect(seedFromText('')).toBe(0x811c9dc5)
    expect(seedFromText('a')).toBe(0xe40c292c)
    expect(seedFromText('foobar')).toBe(0xbf9cf968)
  })
})
