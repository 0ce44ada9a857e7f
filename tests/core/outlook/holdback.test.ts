import fc from 'fast-check'
import { expect, it } from 'vitest'
import { HOLDBACK_BIT, HOLDBACKS, holdbacksIn } from '#core/outlook/holdback.ts'

it('every holdback has a bit of its own that fits into 16, and names come back in their order', () => {
  expect(HOLDBACKS.length).toBeLessThanOrEqual(16)
  expect(new Set(Object.values(HOLDBACK_BIT)).size).toBe(HOLDBACKS.length)
  fc.assert(
    fc.property(fc.subarray([...HOLDBACKS]), (names) => {
      const bits = names.reduce((sum, name) => sum | HOLDBACK_BIT[name], 0)
      expect(Uint16Array.of(bits)[0]).toBe(bits)
      expect(holdbacksIn(bits)).toEqual(names)
    }),
  )
})
