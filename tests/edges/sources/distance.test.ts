import { describe, expect, it } from 'vitest'
import { distanceKm } from '#edges/sources/distance.ts'

describe('distance', () => {
  it('is a quarter of a great circle from pole to equator, a degree of latitude 111.2 km', () => {
    const pole = { latDeg: 90, lonDeg: 0 }
    expect(distanceKm(pole, { latDeg: 0, lonDeg: 77 })).toBeCloseTo((Math.PI / 2) * 6371.0088, 6)
    expect(distanceKm({ latDeg: 41, lonDeg: -96 }, { latDeg: 42, lonDeg: -96 })).toBeCloseTo(111.195, 2)
    expect(distanceKm({ latDeg: 0, lonDeg: 179.5 }, { latDeg: 0, lonDeg: -179.5 })).toBeCloseTo(111.195, 2)
  })

  it('of Nashville and Los Angeles airports is 2,887 km (Rosetta Code, "Haversine formula", from memory)', () => {
    expect(distanceKm({ latDeg: 36.12, lonDeg: -86.67 }, { latDeg: 33.94, lonDeg: -118.4 })).toBeCloseTo(2887, -1)
  })
})
