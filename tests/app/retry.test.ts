import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MOST_TRIES, MOST_URGENT_TRIES, waitBefore } from '#app/retry.ts'

describe('the wait before the next try', () => {
  it('grows from a minute to the half hour that RFC 5321, 4.5.4.1 asks for', () => {
    const waits = Array.from({ length: 8 }, (_, i) => waitBefore(i + 1, false, 0.5)! * 60)
    expect(waits[0]).toBeCloseTo(1, 9)
    expect(waits.at(-1)).toBeCloseTo(30, 9)
    for (let i = 1; i < waits.length; i++) expect(waits[i]!).toBeGreaterThanOrEqual(waits[i - 1]!)
  })
  it('is shifted by a fifth at most, and ends after the last try', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.double({ min: 0, max: 0.999999, noNaN: true }),
        (tries, chance) => {
          const wait = waitBefore(tries, false, chance)
          if (tries >= MOST_TRIES) return wait === undefined
          const middle = waitBefore(tries, false, 0.5)!
          return wait! >= 0.8 * middle - 1e-12 && wait! <= 1.2 * middle + 1e-12
        },
      ),
    )
  })
  it('is one minute for what is urgent, for hours', () => {
    for (let tries = 1; tries < MOST_URGENT_TRIES; tries++) expect(waitBefore(tries, true, 0.9)).toBeCloseTo(1 / 60, 12)
    expect(waitBefore(MOST_URGENT_TRIES, true, 0.9)).toBeUndefined()
  })
})
