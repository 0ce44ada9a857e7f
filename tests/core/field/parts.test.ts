import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { partsOf } from '#core/field/parts.ts'
import { testField } from '#tests/support/fields.ts'

const patch = (id: string, share: number) =>
  ({ id, name: id, share, kind: 'green', laterDays: 5, handling: 'leave' }) as const

describe('parts of a field', () => {
  it('are the main stand and each patch, with the area shared out', () => {
    const parts = partsOf(testField({ areaHa: 50, patches: [patch('north', 0.1), patch('slump', 0.04)] }))
    expect(parts.map(({ key, areaHa }) => [key, Math.round(areaHa * 1e9) / 1e9])).toEqual([
      ['alder', 43],
      ['alder/north', 5],
      ['alder/slump', 2],
    ])
    expect(parts[0]!.patch).toBeUndefined()
  })

  it('always add up to the field, and no key comes twice', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.array(fc.double({ min: 0, max: 0.2, noNaN: true }), { maxLength: 5 }),
        (areaHa, shares) => {
          const parts = partsOf(testField({ areaHa, patches: shares.map((share, n) => patch(`p${n}`, share)) }))
          expect(parts.reduce((sum, part) => sum + part.areaHa, 0)).toBeCloseTo(areaHa, 8)
          expect(new Set(parts.map(({ key }) => key)).size).toBe(parts.length)
          expect(parts.every((part) => part.areaHa >= -1e-12)).toBe(true)
        },
      ),
    )
  })
})
