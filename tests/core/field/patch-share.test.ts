import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { shareInside } from '#core/field/patch-share.ts'

type Ring = [number, number][]
const box = (west: number, south: number, east: number, north: number): Ring => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
  [west, south],
]
const FIELD = box(-88.13, 40, -88.12, 40.01)

describe('the share of a field inside an outline', () => {
  it('is that of the rectangles', () => {
    expect(shareInside([FIELD], box(-88.13, 40, -88.125, 40.01))).toBeCloseTo(0.5, 9)
    expect(shareInside([FIELD], box(-88.128, 40.002, -88.126, 40.004))).toBeCloseTo(0.04, 5)
  })

  it('leaves out what is drawn beyond the field, and is none beside it', () => {
    expect(shareInside([FIELD], box(-88.14, 39.99, -88.125, 40.02))).toBeCloseTo(0.5, 2)
    expect(shareInside([FIELD], box(-88.2, 39, -88, 41))).toBeCloseTo(1, 1)
    expect(shareInside([FIELD], box(-88.11, 40, -88.1, 40.01))).toBe(0)
  })

  it('leaves out the holes of the field, whichever way its rings run', () => {
    const hole = box(-88.127, 40.004, -88.123, 40.006)
    const half = box(-88.13, 40, -88.125, 40.01)
    for (const rings of [
      [FIELD, hole],
      [FIELD, hole.toReversed()],
      [FIELD.toReversed(), hole],
    ]) {
      // The hole is 0.08 of the field, half of it in the western half: (0.5 - 0.04) / 0.92.
      expect(shareInside(rings, half)).toBeCloseTo(0.5, 2)
    }
  })

  it('counts both pieces of a field in two', () => {
    const pieces = [FIELD, box(-88.11, 40, -88.1, 40.01)]
    expect(shareInside(pieces, FIELD)).toBeCloseTo(0.5, 9)
  })

  it('is that of a triangle inside, exactly', () => {
    // Base 0.004 times height 0.005 over two, of 0.01 squared; a degree is as long all over the field to 1 in 10,000.
    const triangle: Ring = [
      [-88.13, 40],
      [-88.126, 40],
      [-88.128, 40.005],
      [-88.13, 40],
    ]
    expect(shareInside([FIELD], triangle) / 0.1).toBeCloseTo(1, 4)
  })

  it('does not depend on the way round, lies in 0 to 1, and grows with the outline', () => {
    const place = fc.double({ min: 0, max: 0.01, noNaN: true })
    fc.assert(
      fc.property(place, place, place, place, (a, b, c, d) => {
        fc.pre(Math.abs(a - c) > 1e-4 && Math.abs(b - d) > 1e-4)
        const [west, east] = [Math.min(a, c) - 88.13, Math.max(a, c) - 88.13]
        const [south, north] = [Math.min(b, d) + 40, Math.max(b, d) + 40]
        const ring = box(west, south, east, north)
        const share = shareInside([FIELD], ring)
        // A degree of longitude shortens by 1.5 parts in ten thousand across the field.
        expect(share).toBeCloseTo(((east - west) * (north - south)) / 1e-4, 4)
        expect(shareInside([FIELD], ring.toReversed())).toBeCloseTo(share, 9)
        expect(shareInside([FIELD], box(west, south, east, north + 0.001))).toBeGreaterThanOrEqual(share * 0.99)
      }),
      { numRuns: 30 },
    )
  })
})
