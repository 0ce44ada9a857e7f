import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type StabilityClass, sigmaYM, sigmaZM, stabilityClass, WIND_SWING_DEG } from '#core/science/dust/stability.ts'
import { COMPUTED_SIGMAS, PASQUILL_TABLE, PUBLISHED_SWING_DEG } from '#tests/truth/dust.ts'

const CLASSES = Object.keys(COMPUTED_SIGMAS) as StabilityClass[]
/** Sunlight of the table's columns [W/m2] and whether the sky is covered. */
const COLUMNS = [
  { solarWm2: 800, overcast: false },
  { solarWm2: 500, overcast: false },
  { solarWm2: 200, overcast: false },
  { solarWm2: 0, overcast: true },
  { solarWm2: 0, overcast: false },
]

describe('stability class', () => {
  it('gives the published class, the steadier one where two are printed', () => {
    for (const { windMs, cells } of PASQUILL_TABLE)
      for (const [i, published] of cells.entries())
        expect(stabilityClass(windMs, COLUMNS[i]!.solarWm2, COLUMNS[i]!.overcast)).toBe(published.at(-1))
  })

  it('is neutral under a covered sky by day, as published', () => {
    for (const windMs of [0, 1, 2.5, 4, 8]) expect(stabilityClass(windMs, 300, true)).toBe('D')
  })

  it('says nothing where wind or sunlight is not known', () => {
    expect(stabilityClass(Number.NaN, 300)).toBeNull()
    expect(stabilityClass(3, Number.NaN)).toBeNull()
    expect(stabilityClass(-1, 300)).toBeNull()
  })
})

describe('swing of the wind', () => {
  it('is the published one', () => expect(WIND_SWING_DEG).toEqual(PUBLISHED_SWING_DEG))
})

describe('spread of a cloud', () => {
  it('gives the rows computed from the published fits', () => {
    for (const stability of CLASSES)
      for (const [i, [y, z]] of COMPUTED_SIGMAS[stability].entries()) {
        const x = [50, 100, 200, 500][i]!
        expect(Math.abs(sigmaYM(stability, x) - y)).toBeLessThanOrEqual(0.0051)
        expect(Math.abs(sigmaZM(stability, x) - z)).toBeLessThanOrEqual(0.0051)
      }
  })

  it('grows with distance and is less in steadier air', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 9000, noNaN: true }), (x) => {
        for (const [i, stability] of CLASSES.entries()) {
          expect(sigmaYM(stability, x * 1.1)).toBeGreaterThan(sigmaYM(stability, x))
          expect(sigmaZM(stability, x * 1.1)).toBeGreaterThan(sigmaZM(stability, x))
          const steadier = CLASSES[i + 1]
          if (steadier) expect(sigmaYM(steadier, x)).toBeLessThan(sigmaYM(stability, x))
          if (steadier) expect(sigmaZM(steadier, x)).toBeLessThan(sigmaZM(stability, x))
        }
      }),
    )
  })

  it('is not known upwind or at an unknown distance', () => {
    expect(sigmaYM('D', -1)).toBeNaN()
    expect(sigmaZM('D', Number.NaN)).toBeNaN()
  })
})
