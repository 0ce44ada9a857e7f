import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { areaHaOf, centreOf, crossing, isInside, type Ring, signedAreaHa, wound } from '#core/units/rings.ts'
import {
  DEGREE_TABLE_KM,
  EARTH_KM2,
  EQUATOR_CELL_KM2,
  latitudeDegreeM,
  longitudeDegreeM,
} from '#tests/truth/degree-lengths.ts'

const HA_PER_KM2 = 100
const box = (west: number, south: number, width: number, height: number): Ring => [
  [west, south],
  [west + width, south],
  [west + width, south + height],
  [west, south + height],
  [west, south],
]

describe('area of an outline', () => {
  it('gives the published area of a one-degree cell at the equator', () => {
    expect(signedAreaHa(box(10, 0, 1, 1)) / HA_PER_KM2).toBeCloseTo(EQUATOR_CELL_KM2, -1)
  })

  it('gives the whole earth for the whole grid', () => {
    const whole = signedAreaHa(box(-180, -90, 360, 180)) / HA_PER_KM2
    expect(Math.abs(whole / EARTH_KM2 - 1)).toBeLessThan(1e-8)
  })

  it('of a quarter of a quarter section is 40 acres within half a percent (1,320 ft square, US public land survey)', () => {
    const sideKm = 0.402336
    const lat = 40.1
    // Lengths of a degree at 40 degrees: 111.035 and 85.39 km, longitude shortened to 40.1 (tests/truth/moving.ts).
    const acres = signedAreaHa(box(-88, lat, sideKm / 85.28, sideKm / 111.035)) / 0.40468564224
    expect(Math.abs(acres / 40 - 1)).toBeLessThan(0.005)
  })

  it.each(DEGREE_TABLE_KM)('agrees with the degree table at %i degrees', (lat, latDegree, lonDegree) => {
    const cell = signedAreaHa(box(-90, lat - 0.05, 0.1, 0.1)) / HA_PER_KM2
    expect(Math.abs(cell / (latDegree * lonDegree * 0.01) - 1)).toBeLessThan(2e-5)
  })

  it('agrees with the series for the length of a degree wherever crops grow', () => {
    let worst = 0
    for (let lat = -60; lat <= 70; lat += 0.5) {
      const cell = signedAreaHa(box(20, lat - 0.005, 0.01, 0.01)) * 10_000
      const published = latitudeDegreeM(lat) * longitudeDegreeM(lat) * 1e-4
      worst = Math.max(worst, Math.abs(cell / published - 1))
    }
    // The series itself is good to about a millionth of the area.
    expect(worst).toBeLessThan(2e-6)
  })

  it('does not depend on the corner it starts from, and turns its sign with the direction', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -170, max: 170, noNaN: true }),
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 0.001, max: 0.05, noNaN: true }),
        fc.double({ min: 0.001, max: 0.05, noNaN: true }),
        (west, south, width, height) => {
          const ring = box(west, south, width, height)
          const turned: Ring = [ring[2]!, ring[3]!, ring[0]!, ring[1]!, ring[2]!]
          const area = signedAreaHa(ring)
          expect(area).toBeGreaterThan(0)
          expect(signedAreaHa(turned)).toBeCloseTo(area, 6)
          expect(signedAreaHa([...ring].reverse())).toBeCloseTo(-area, 6)
        },
      ),
    )
  })

  it('takes holes off and adds pieces up', () => {
    const outline = box(-88, 40, 0.01, 0.01)
    const hole = box(-87.996, 40.004, 0.002, 0.002)
    const piece = box(-87.98, 40, 0.01, 0.01)
    const whole = signedAreaHa(outline)
    expect(areaHaOf(wound([outline, hole]))).toBeCloseTo(whole - signedAreaHa(hole), 6)
    expect(areaHaOf([...wound([outline]), ...wound([piece])])).toBeCloseTo(2 * whole, 6)
  })
})

describe('winding', () => {
  it('makes the outline counterclockwise and holes clockwise, however they were drawn', () => {
    const outline = box(-88, 40, 0.01, 0.01)
    const hole = box(-87.996, 40.004, 0.002, 0.002)
    for (const drawn of [
      [outline, hole],
      [[...outline].reverse(), [...hole].reverse()],
      [outline, [...hole].reverse()],
    ]) {
      const [out, inner] = wound(drawn)
      expect(signedAreaHa(out!)).toBeGreaterThan(0)
      expect(signedAreaHa(inner!)).toBeLessThan(0)
    }
  })
})

describe('middle of an outline', () => {
  it('is the middle of a box, and is drawn away from a hole', () => {
    const outline = box(-88, 40, 0.01, 0.01)
    const middle = centreOf([outline])
    expect(middle.lonDeg).toBeCloseTo(-87.995, 9)
    expect(middle.latDeg).toBeCloseTo(40.005, 9)
    expect(centreOf(wound([outline, box(-87.999, 40.001, 0.004, 0.004)])).lonDeg).toBeGreaterThan(-87.995)
  })
})

describe('sides that cross', () => {
  it('finds a bow tie and passes sound shapes', () => {
    const bowTie: Ring = [
      [0, 0],
      [1, 1],
      [1, 0],
      [0, 1],
      [0, 0],
    ]
    expect(crossing([bowTie])).toBeDefined()
    expect(crossing([box(0, 0, 1, 1), box(0.2, 0.2, 0.1, 0.1)])).toBeUndefined()
    expect(crossing([box(0, 0, 1, 1), box(0.9, 0.2, 0.5, 0.1)])).toBeDefined()
  })

  it('passes every convex polygon and catches it once two neighbours are swapped', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 60 }), fc.double({ min: 0, max: 6, noNaN: true }), (corners, turn) => {
        const around = Array.from({ length: corners }, (_, i): [number, number] => [
          Math.cos(turn + (i / corners) * 2 * Math.PI),
          Math.sin(turn + (i / corners) * 2 * Math.PI),
        ])
        expect(crossing([[...around, around[0]!]])).toBeUndefined()
        const swapped = [...around]
        ;[swapped[1], swapped[2]] = [swapped[2]!, swapped[1]!]
        expect(crossing([[...swapped, swapped[0]!]])).toBeDefined()
      }),
    )
  })
})

describe('inside', () => {
  it('tells inside from outside of a box', () => {
    expect(isInside([0.5, 0.5], box(0, 0, 1, 1))).toBe(true)
    expect(isInside([1.5, 0.5], box(0, 0, 1, 1))).toBe(false)
  })
})
