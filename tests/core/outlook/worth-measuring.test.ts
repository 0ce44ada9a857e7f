import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Measurable, worthMeasuring } from '#core/outlook/worth-measuring.ts'
import { seededRandom } from '#core/units/random.ts'
import { UNIT_NORMAL_LOSS } from '#tests/truth/filter.ts'

const COURSES = 400

/** Gain falls by `slope` per point of moisture, which is N(16, `sd`); every draw has its mirror image. */
function normalField(
  partKey: string,
  mean: number,
  slope: number,
  sd: number,
  readingSdWb: number,
  courses = COURSES,
): Measurable {
  const random = seededRandom(3)
  const half = Float64Array.from({ length: courses / 2 }, () => random.normal())
  const spread = Math.sqrt(half.reduce((sum, z) => sum + z * z, 0) / half.length)
  const z = Float64Array.from({ length: courses }, (_, c) => (half[c >> 1]! / spread) * (c % 2 === 0 ? 1 : -1))
  return { partKey, gain: z.map((d) => mean - slope * sd * d), moistureWb: z.map((d) => 16 + sd * d), readingSdWb }
}

describe('worthMeasuring', () => {
  it.each(UNIT_NORMAL_LOSS)('meets the unit normal loss integral at %d', (z, loss) => {
    // The reading narrows N(16, 2) by error 1: the mean after it is spread by 2 x 2 / sqrt(5) points.
    const slope = 30
    const spread = (slope * 4) / Math.sqrt(5)
    const [worth] = worthMeasuring([normalField('a', -z * spread, slope, 2, 1, 2000)], 1)
    expect(Math.abs(worth!.worth / spread - loss)).toBeLessThan(0.06 * loss)
  })

  it('is nothing where the reading cannot turn the choice', () => {
    const far = normalField('far', -1e6, 30, 2, 1)
    const sure = {
      partKey: 'sure',
      gain: new Float64Array(COURSES).fill(40),
      moistureWb: far.moistureWb,
      readingSdWb: 1,
    }
    for (const { worth, turns } of worthMeasuring([far, sure], 1)) {
      expect(worth).toBeLessThan(1e-6)
      expect(turns).toBeLessThan(1e-6)
    }
  })

  it('names the field whose choice is open before those that are clear', () => {
    const fields = [
      normalField('clear', 500, 30, 2, 1),
      normalField('open', 2, 30, 2, 1),
      normalField('hopeless', -400, 30, 2, 1),
    ]
    expect(worthMeasuring(fields, 3)[0]!.partKey).toBe('open')
    // With one place the clear field has it: the open one would have to gain 498 more.
    expect(worthMeasuring(fields, 1).every(({ worth }) => worth < 1)).toBe(true)
  })

  it('weighs a field against the best other one, not only against standing still', () => {
    const rival = normalField('rival', 100, 0, 2, 1)
    const other = normalField('other', 95, 30, 2, 1)
    const alone = worthMeasuring([other], 1)[0]!.worth
    const [first] = worthMeasuring([rival, other], 1)
    expect(first!.partKey).toBe('other')
    expect(first!.worth).toBeGreaterThan(10 * alone)
  })

  it('is worth less the worse the meter, and never less than nothing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 0.3, max: 2, noNaN: true }),
        (mean, sd) => {
          const worth = (error: number) => worthMeasuring([normalField('a', mean, 30, 2, error)], 1)[0]!.worth
          expect(worth(sd)).toBeGreaterThanOrEqual(0)
          expect(worth(sd + 2)).toBeLessThan(worth(sd) + 0.5)
        },
      ),
      { numRuns: 5 },
    )
  })

  it('is worth nothing where a gain or a moisture is not known', () => {
    const field = normalField('a', 0, 30, 2, 1)
    const gain = Float64Array.from(field.gain)
    gain[7] = Number.NaN
    expect(worthMeasuring([{ ...field, gain }], 1)).toEqual([{ partKey: 'a', worth: 0, turns: 0 }])
    expect(worthMeasuring([{ ...field, gain: [], moistureWb: [] }], 1)[0]!.worth).toBe(0)
    expect(worthMeasuring([], 1)).toEqual([])
  })
})
