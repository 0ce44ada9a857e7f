import { describe, expect, it } from 'vitest'
import { SourceUnitUnknown } from '#app/failures.ts'
import { intoOurs, type Quantity } from '#edges/sources/units.ts'

const TOLD = { source: 'S', where: 'here' }

describe('units', () => {
  // Exact by definition: NIST SP 811 (2008), appendix B.8 (knot 0.5144444 m/s, mile per hour 0.44704 m/s, inch 25.4 mm).
  it.each<[Quantity, string, number, number]>([
    ['temperature', 'wmoUnit:degC', -8.5, -8.5],
    ['temperature', 'celsius', 26.5, 26.5],
    ['temperature', 'unit:degF', 73.04, 22.8],
    ['temperature', 'K', 273.15, 0],
    ['temperature', 'F', -40, -40],
    ['speed', 'wmoUnit:km_h-1', 36, 10],
    ['speed', 'unit:m_s-1', 4.6, 4.6],
    ['speed', 'mph', 10, 4.4704],
    ['speed', 'kn', 1, 0.5144444],
    ['share', 'wmoUnit:percent', 73, 0.73],
    ['percent', '%', 73, 73],
    ['rain', 'wmoUnit:mm', 2.032, 2.032],
    ['rain', 'unit:m', 0.0005, 0.5],
    ['rain', 'inch', 1, 25.4],
    ['direction', 'wmoUnit:degree_(angle)', 350, 350],
    ['direction', 'http://codes.wmo.int/common/unit/degree_(angle)', 10, 10],
    ['irradiance', 'W/m²', 500, 500],
    ['height', 'wmoUnit:m', 367.8936, 367.8936],
  ])('%s in %s: %d is %d', (quantity, unit, value, ours) => {
    expect(intoOurs(quantity, unit, 'x', TOLD)(value)).toBeCloseTo(ours, 6)
  })

  it.each<[Quantity, string | undefined]>([
    ['temperature', 'wmoUnit:Pa'],
    ['temperature', 'degc'],
    ['temperature', undefined],
    ['speed', 'degC'],
    ['share', ''],
    ['rain', 'kg m-2'],
    ['rain', 'mm/h'],
    ['rain', '__proto__'],
    ['speed', 'hasOwnProperty'],
    ['speed', 'm/s '],
  ])('%s in %s is refused', (quantity, unit) => {
    expect(() => intoOurs(quantity, unit, 'x', TOLD)).toThrow(SourceUnitUnknown)
  })
})
