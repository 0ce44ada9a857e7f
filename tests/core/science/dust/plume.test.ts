import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  crossDepth,
  dustGPerM3,
  emissionGPerS,
  extinctionPerM,
  opticalRangeM,
  type Plume,
  relativeWind,
  visualRangeM,
} from '#core/science/dust/plume.ts'
import {
  COMPUTED_EMISSIONS,
  COMPUTED_PLUME,
  COMPUTED_RELATIVE_WIND,
  COMPUTED_STANDING,
  DUST_STORM,
} from '#tests/truth/dust.ts'

const within = (ours: number, row: number, share: number) => expect(Math.abs(ours / row - 1)).toBeLessThan(share)
/** Clean air, left out of the rows, shortens the longest of them by 0.4 %. */
const CLEAN_AIR = 0.005
const SWATH_M = 9

const speed = fc.double({ min: 0, max: 40, noNaN: true })
const plumes: fc.Arbitrary<Plume> = fc.record({
  emissionGPerS: fc.double({ min: 0.001, max: 50, noNaN: true }),
  stability: fc.constantFrom('A', 'B', 'C', 'D', 'E', 'F'),
  windMs: speed,
  relativeMs: speed,
  swathM: fc.double({ min: 3, max: 18, noNaN: true }),
})

describe('against rows computed from the published equations', () => {
  it('emission', () => {
    for (const row of COMPUTED_EMISSIONS) within(emissionGPerS(row.mgPerM2 / 1000, SWATH_M, 1.7), row.gPerS, 1e-4)
  })

  it('cloud of a moving machine: dust, visual range, optical range', () => {
    for (const row of COMPUTED_PLUME) {
      const dust = dustGPerM3({ ...row, emissionGPerS: row.gPerS, swathM: SWATH_M }, row.alongM, 0)
      within(dust, row.dust, 0.001)
      within(visualRangeM(dust), row.visualM, CLEAN_AIR)
      within(opticalRangeM(dust), row.opticalM, CLEAN_AIR)
    }
  })

  it('cloud of a standing machine, 20 m downwind: dust, range, depth across', () => {
    for (const row of COMPUTED_STANDING) {
      const plume = { ...row, emissionGPerS: row.gPerS, relativeMs: row.windMs, swathM: SWATH_M }
      const dust = dustGPerM3(plume, 20, 0)
      within(dust, row.dust, 0.002)
      within(visualRangeM(dust), row.visualM, 0.015) // the row is rounded to whole metres
      expect(Math.abs(crossDepth(plume, 20) - row.depth)).toBeLessThan(0.001)
    }
  })

  it('relative wind', () => {
    for (const row of COMPUTED_RELATIVE_WIND) {
      const wind = relativeWind(row.windMs, row.fromDeg, row.travelMs, row.headingDeg)
      expect(wind.speedMs).toBeCloseTo(row.speedMs, 3)
      expect(Math.abs(wind.bearingDeg)).toBeCloseTo(row.bearingDeg, 1)
    }
    expect(relativeWind(2, 180, 2, 0).speedMs).toBeCloseTo(0, 9) // the cloud travels with the machine
  })

  it('range in a dust storm', () => within(visualRangeM(DUST_STORM.dust), DUST_STORM.visualM, CLEAN_AIR))
})

describe('properties', () => {
  it('dust is never negative, thickest in the middle, even to both sides, nothing upwind', () => {
    const place = fc.double({ min: 0, max: 500, noNaN: true })
    fc.assert(
      fc.property(plumes, place, place, (plume, along, across) => {
        const here = dustGPerM3(plume, along, across)
        expect(here).toBeGreaterThanOrEqual(0)
        expect(Number.isFinite(here)).toBe(true)
        expect(here).toBeLessThanOrEqual(dustGPerM3(plume, along, 0))
        expect(dustGPerM3(plume, along, -across)).toBe(here)
        expect(dustGPerM3(plume, -along - 0.1, across)).toBe(0)
        expect(dustGPerM3(plume, along + 5, 0)).toBeLessThanOrEqual(dustGPerM3(plume, along, 0))
      }),
    )
  })

  it('depth across is the sum of the dust on that line', () => {
    fc.assert(
      fc.property(plumes, fc.double({ min: 0, max: 200, noNaN: true }), (any, along) => {
        const plume = { ...any, windMs: any.windMs / 4, relativeMs: 5 + any.relativeMs } // narrower than the sum
        let sum = 0
        for (let y = -600; y <= 600; y += 0.25) sum += 0.25 * 0.6 * dustGPerM3(plume, along, y)
        within(sum, crossDepth(plume, along), 0.01)
      }),
      { numRuns: 25 },
    )
  })

  it('twice the dust halves the range, clean air apart', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1, noNaN: true }), (dust) => {
        expect(opticalRangeM(2 * dust)).toBeLessThan(opticalRangeM(dust))
        expect(visualRangeM(dust)).toBeGreaterThan(opticalRangeM(dust))
        expect(extinctionPerM(2 * dust)).toBeCloseTo(2 * extinctionPerM(dust) - 1e-5, 12)
      }),
    )
    expect(visualRangeM(0)).toBeCloseTo(391_200, 0)
  })

  it('relative wind turns with the field', () => {
    const deg = fc.double({ min: 0, max: 360, noNaN: true })
    fc.assert(
      fc.property(speed, deg, speed, deg, deg, (wind, from, travel, heading, turn) => {
        const a = relativeWind(wind, from, travel, heading)
        const b = relativeWind(wind, from + turn, travel, heading + turn)
        expect(b.speedMs).toBeCloseTo(a.speedMs, 8)
        expect(a.speedMs).toBeLessThanOrEqual(wind + travel + 1e-9)
        expect(a.speedMs).toBeGreaterThanOrEqual(Math.abs(wind - travel) - 1e-9)
      }),
    )
  })

  it('not known stays not known', () => {
    const plume: Plume = { emissionGPerS: 1, stability: 'D', windMs: 4, relativeMs: 4, swathM: 9 }
    expect(dustGPerM3({ ...plume, windMs: Number.NaN }, 10, 0)).toBeNaN()
    expect(dustGPerM3({ ...plume, relativeMs: Number.NaN }, 10, 0)).toBeNaN()
    expect(dustGPerM3({ ...plume, emissionGPerS: Number.NaN }, 10, 0)).toBeNaN()
    expect(crossDepth({ ...plume, windMs: Number.NaN }, 10)).toBeNaN()
    expect(visualRangeM(Number.NaN)).toBeNaN()
    expect(relativeWind(Number.NaN, 0, 2, 0).speedMs).toBeNaN()
  })
})
