import { describe, expect, it } from 'vitest'
import { thin } from '#core/field/filter/thin.ts'
import { seededRandom } from '#core/units/random.ts'

describe('thin', () => {
  it('keeps the spread of moisture: fifths of 50 kept are those of 500 given', () => {
    const random = seededRandom(1)
    const nowWb = Float64Array.from({ length: 500 }, () => 14 + 2 * random.normal())
    const kept = thin([...nowWb], nowWb, 50).sort((a, b) => a - b)
    const all = nowWb.toSorted()
    for (const share of [0.2, 0.5, 0.8]) {
      expect(Math.abs(kept[50 * share]! - all[500 * share]!)).toBeLessThan(0.1)
    }
  })

  it('keeps order, keeps all where asked for all, and has room for the unknown', () => {
    const names = ['a', 'b', 'c', 'd']
    expect(thin(names, Float64Array.of(4, 3, 2, 1), 4)).toEqual(names)
    expect(thin(names, Float64Array.of(4, Number.NaN, 2, 1), 2)).toEqual(['b', 'c'])
  })
})
