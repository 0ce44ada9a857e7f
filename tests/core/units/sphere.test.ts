import { geoArea } from 'd3-geo'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distanceKm, EARTH_RADIUS_KM, ringAreaKm2 } from '#core/units/sphere.ts'
import { DEGREE_LENGTHS } from '#tests/truth/moving.ts'

const place = fc.record({
  latDeg: fc.double({ min: -90, max: 90, noNaN: true }),
  lonDeg: fc.double({ min: -180, max: 180, noNaN: true }),
})

it('the radius of the earth is (2a + b) / 3 of WGS 84 (NIMA TR8350.2, 2000, table 3.1)', () => {
  const semiMajorKm = 6378.137
  const semiMinorKm = semiMajorKm * (1 - 1 / 298.257223563)
  expect(EARTH_RADIUS_KM).toBeCloseTo((2 * semiMajorKm + semiMinorKm) / 3, 4)
})

describe('distance', () => {
  it.each(DEGREE_LENGTHS)('$what', ({ from, to, km, withinKm }) => {
    expect(Math.abs(distanceKm(from, to) - km)).toBeLessThan(withinKm)
  })

  it('is a quarter of a great circle from pole to equator, a degree of latitude 111.2 km', () => {
    const pole = { latDeg: 90, lonDeg: 0 }
    expect(distanceKm(pole, { latDeg: 0, lonDeg: 77 })).toBeCloseTo((Math.PI / 2) * 6371.0088, 6)
    expect(distanceKm({ latDeg: 41, lonDeg: -96 }, { latDeg: 42, lonDeg: -96 })).toBeCloseTo(111.195, 2)
    expect(distanceKm({ latDeg: 0, lonDeg: 179.5 }, { latDeg: 0, lonDeg: -179.5 })).toBeCloseTo(111.195, 2)
  })

  it('is half the way round for opposite places', () => {
    const opposite = distanceKm({ latDeg: 40, lonDeg: -88 }, { latDeg: -40, lonDeg: 92 })
    expect(opposite).toBeCloseTo(Math.PI * 6371.0088, 3)
  })

  it('of Nashville and Los Angeles airports is 2,887 km (Rosetta Code, "Haversine formula", from memory)', () => {
    expect(distanceKm({ latDeg: 36.12, lonDeg: -86.67 }, { latDeg: 33.94, lonDeg: -118.4 })).toBeCloseTo(2887, -1)
  })

  it('is a sixtieth of a degree of the great circle for a nautical mile', () => {
    // One nautical mile is 1.852 km by definition (Monaco 1929), about one minute of a great circle.
    expect(distanceKm({ latDeg: 0, lonDeg: 0 }, { latDeg: 1 / 60, lonDeg: 0 })).toBeCloseTo(1.853, 3)
  })

  it('is nothing to itself, the same both ways, and never more than by a third place or half the way round', () => {
    fc.assert(
      fc.property(place, place, place, (a, b, c) => {
        expect(distanceKm(a, a)).toBe(0)
        expect(distanceKm(a, b)).toBeCloseTo(distanceKm(b, a), 3)
        expect(distanceKm(a, b)).toBeLessThanOrEqual(distanceKm(a, c) + distanceKm(c, b) + 1e-3)
        expect(distanceKm(a, b)).toBeLessThanOrEqual(Math.PI * EARTH_RADIUS_KM)
      }),
    )
  })

  it('is not known where a coordinate is not', () => {
    const known = { latDeg: 40, lonDeg: -88 }
    expect(distanceKm({ ...known, latDeg: Number.NaN }, known)).toBeNaN()
    expect(distanceKm(known, { ...known, lonDeg: Number.NaN })).toBeNaN()
  })
})

describe('the area of a ring', () => {
  const box = (west: number, south: number, east: number, north: number): [number, number][] => [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ]

  it('is an eighth of the sphere between equator, pole and two meridians at right angles (closed form)', () => {
    const eighth = (4 * Math.PI * EARTH_RADIUS_KM ** 2) / 8
    expect(ringAreaKm2(box(0, 0, 90, 90)) / eighth).toBeCloseTo(1, 9)
  })

  it('of a quarter of a quarter section is 40 acres within half a percent (1,320 ft square, US public land survey)', () => {
    const sideKm = 0.402336
    const lat = 40.1
    const north = sideKm / 111.035
    const east = sideKm / 85.28
    // Lengths of a degree at 40 degrees: 111.035 and 85.39 km, longitude shortened to 40.1 (tests/truth/moving.ts).
    const acres = ringAreaKm2(box(-88, lat, -88 + east, lat + north)) / 0.0040468564224
    expect(Math.abs(acres / 40 - 1)).toBeLessThan(0.005)
  })

  it('is that of d3-geo for rings the size of fields, to a part in two thousand, either way round', () => {
    // Theirs has great circles for sides, which bow out to the pole: felt where a ring is wide and low.
    const corner = fc.record({
      x: fc.double({ min: 0.002, max: 0.01, noNaN: true }),
      y: fc.double({ min: 0.005, max: 0.02, noNaN: true }),
    })
    const latDeg = fc.double({ min: -60, max: 60, noNaN: true })
    fc.assert(
      fc.property(latDeg, corner, corner, (lat, a, b) => {
        const ring: [number, number][] = [
          [-88, lat],
          [-88 - a.x, lat],
          [-88, lat + a.y + b.y],
          [-88 + b.x, lat],
          [-88, lat],
        ]
        const theirs = geoArea({ type: 'Polygon', coordinates: [ring] })
        const steradians = Math.min(theirs, 4 * Math.PI - theirs)
        const ours = ringAreaKm2(ring) / EARTH_RADIUS_KM ** 2
        expect(ours / steradians).toBeCloseTo(1, 3)
        expect(ringAreaKm2(ring.toReversed())).toBeCloseTo(ringAreaKm2(ring), 9)
      }),
    )
  })
})
