import { describe, expect, it } from 'vitest'
import { moveHours } from '#core/planning/moving.ts'
import { testPart } from '#tests/support/fields.ts'

const at = (id: string, latDeg: number, lonDeg: number) => testPart({ id, centre: { latDeg, lonDeg } })

describe('moving', () => {
  it('takes no time to the first field and within one', () => {
    expect(moveHours(undefined, at('a', 40, -88))).toBe(0)
    expect(moveHours(at('a', 40, -88), { ...at('a', 40, -88), key: 'a/patch' })).toBe(0)
  })

  it('takes heads off and on, and the road: about an hour for ten kilometres', () => {
    const hours = moveHours(at('a', 40, -88), at('b', 40.0899, -88))
    // 10 km as the crow flies, 12.7 by section lines, at 24 km/h, and 0.4 h of heads (common practice, no source).
    expect(hours).toBeCloseTo(0.4 + 12.73 / 24, 2)
  })
})
