import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distanceKm, moveHours } from '#core/planning/moving.ts'
import { testPart } from '#tests/support/fields.ts'
import { DEGREE_LENGTHS } from '#tests/truth/moving.ts'

const place = fc.record({
  latDeg: fc.double({ min: -60, max: 70, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
})
const at = (id: string, latDeg: number, lonDeg: number) => testPart({ id, centre: { latDeg, lonDeg } })

describe('distance', () => {
  it.each(DEGREE_LENGTHS)('$what', ({ from, to, km, withinKm }) => {
    expect(Math.abs(distanceKm(from, to) - km)).toBeLessThan(withinKm)
  })

  it('is nothing to itself, the same both ways, and never more than by a third place', () => {
    fc.assert(
      fc.property(place, place, place, (a, b, c) => {
        expect(distanceKm(a, a)).toBe(0)
        expect(distanceKm(a, b)).toBeCloseTo(distanceKm(b, a), 3)
        expect(distanceKm(a, b)).toBeLessThanOrEqual(distanceKm(a, c) + distanceKm(c, b) + 1e-3)
      }),
    )
  })
})

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
