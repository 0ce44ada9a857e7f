import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distanceKm, EARTH_RADIUS_KM } from '#core/units/sphere.ts'
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
