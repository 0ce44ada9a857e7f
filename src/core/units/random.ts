/**
 * Seeded chance. Every draw comes from a seed that is an argument, so the same inputs give the same bytes.
 *
 * Generator: sfc32 (Doty-Humphrey, PractRand test suite), seeded through splitmix32. Normal deviates by
 * Marsaglia's polar method (Marsaglia & Bray 1964, doi:10.1137/1006063).
 */
export interface Random {
  /** @returns a number in [0, 1). */
  uniform(): number
  /** @returns a standard normal deviate. */
  normal(): number
}

const TWO_POW_32 = 4_294_967_296

export function seededRandom(seed: number): Random {
  let state = seed >>> 0
  const splitmix = (): number => {
    state = (state + 0x9e3779b9) | 0
    let z = state ^ (state >>> 16)
    z = Math.imul(z, 0x21f0aaad)
    z ^= z >>> 15
    z = Math.imul(z, 0x735a2d97)
    return (z ^ (z >>> 15)) | 0
  }
  let a = splitmix()
  let b = splitmix()
  let c = splitmix()
  let counter = 1
  const next = (): number => {
    const t = (((a + b) | 0) + counter) | 0
    counter = (counter + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (c << 21) | (c >>> 11)
    c = (c + t) | 0
    return (t >>> 0) / TWO_POW_32
  }
  for (let i = 0; i < 12; i++) next()

  let spare = Number.NaN
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const held = spare
      spare = Number.NaN
      return held
    }
    let u: number
    let v: number
    let s: number
    do {
      u = 2 * next() - 1
      v = 2 * next() - 1
      s = u * u + v * v
    } while (s >= 1 || s === 0)
    const scale = Math.sqrt((-2 * Math.log(s)) / s)
    spare = v * scale
    return u * scale
  }
  return { uniform: next, normal }
}

/** A stable 32-bit seed from text (FNV-1a, Fowler-Noll-Vo), so that a field keeps its draws from day to day. */
export function seedFromText(text: string): number {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  return hash >>> 0
}
