import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cellOf } from '#app/weather-cell.ts'

const placeAt = (latDeg: number, lonDeg: number) => ({ latDeg, lonDeg, elevationM: 0 })

test('the name of a cell is its centre, without a minus before zero', () => {
  expect(cellOf(placeAt(40.06, -88.2))).toBe('40.05,-88.20')
  expect(cellOf(placeAt(-0.01, 0.02))).toBe('0.00,0.00')
})

test('no place is farther from its cell than half of it', () => {
  const within = fc.double({ min: -89, max: 89, noNaN: true })
  fc.assert(
    fc.property(within, within, (latDeg, lonDeg) => {
      const [lat, lon] = cellOf(placeAt(latDeg, lonDeg)).split(',').map(Number)
      expect(Math.abs(lat! - latDeg)).toBeLessThanOrEqual(0.0251)
      expect(Math.abs(lon! - lonDeg)).toBeLessThanOrEqual(0.0251)
    }),
  )
})
