import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dryingOff } from '#core/science/wetness/drying-off.ts'

const NEVER = Number.POSITIVE_INFINITY

describe('drying off', () => {
  it('draws both times straight within the hour (worked by hand)', () => {
    // ends of hours 0..7; dry under 0.1: falls from 0.4 at 3 h to 0 at 4 h, rises from 0 at 6 h to 0.2 at 7 h
    const water = Float32Array.from([0.5, 0.5, 0.4, 0, 0, 0, 0.2, 0.3])
    const { dryH, wetAgainH } = dryingOff(water, 0, 1.5, 8, 0.1)
    expect(dryH).toBeCloseTo(3.75, 5)
    expect(wetAgainH).toBeCloseTo(6.5, 5)
  })

  it('a morning without dew is dry at sunrise', () => {
    const dry = new Float32Array(10)
    expect(dryingOff(dry, 0, 3.4, 10)).toEqual({ dryH: 3.4, wetAgainH: NEVER })
  })

  it('may never dry in the span, or be wet again within the hour of drying', () => {
    expect(dryingOff(new Float32Array(10).fill(1), 0, 3, 10)).toEqual({ dryH: NEVER, wetAgainH: NEVER })
    const { dryH, wetAgainH } = dryingOff(Float32Array.from([0, 0, 1]), 0, 1.25, 3, 0.5)
    expect(dryH).toBe(1.25)
    expect(wetAgainH).toBeCloseTo(2.5, 6)
  })

  it('reads the member it is given', () => {
    const water = Float32Array.from([1, 1, 1, 1, 1, 0, 0, 0])
    expect(dryingOff(water, 4, 1, 4, 0.5).dryH).toBeCloseTo(1.5, 6)
  })

  it('an unknown hour before the answer leaves it unknown, after it does not matter', () => {
    const water = Float32Array.from([1, 1, Number.NaN, 0, 0, 0])
    expect(dryingOff(water, 0, 1, 6, 0.5).dryH).toBeNaN()
    expect(dryingOff(water, 0, 4, 6, 0.5).dryH).toBe(4)
    expect(dryingOff(Float32Array.from([1, 0, Number.NaN]), 0, 1, 3, 0.5).wetAgainH).toBeNaN()
    expect(dryingOff(water, 0, Number.NaN, 6).dryH).toBeNaN()
    expect(dryingOff(water, 0, 0.5, 6).dryH).toBeNaN()
  })

  it('is dry between the two times, never before sunrise, and later for a stricter limit', () => {
    const series = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 24, maxLength: 24 })
    fc.assert(
      fc.property(series, fc.double({ min: 1, max: 20, noNaN: true }), (values, sunriseH) => {
        const water = Float32Array.from(values)
        const { dryH, wetAgainH } = dryingOff(water, 0, sunriseH, 24, 0.3)
        expect(dryH).toBeGreaterThanOrEqual(sunriseH)
        expect(wetAgainH).toBeGreaterThanOrEqual(dryH)
        for (let h = Math.ceil(dryH); h <= Math.min(24, wetAgainH - 1e-6); h++) expect(water[h - 1]!).toBeLessThan(0.3)
        expect(dryingOff(water, 0, sunriseH, 24, 0.2).dryH).toBeGreaterThanOrEqual(dryH)
      }),
    )
  })
})
