import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  cheneySpreadMs,
  deadGrassMoistureDb,
  grassCuringDamping,
  grassMoistureDamping,
} from '#core/science/fire/grass-spread.ts'
import { MS_PER_KMH } from '#core/units/convert.ts'
import { CHENEY_ROWS } from '#tests/truth/grass-fire.ts'

describe('grass after the Australian experiments', () => {
  it.each(CHENEY_ROWS)('at %d deg C, %d %%, %d km/h', (t, h, kmh, moisture, damping, natural, grazed) => {
    const windMs = kmh * MS_PER_KMH
    const ours = deadGrassMoistureDb(t, h / 100)
    expect(Math.abs(ours - moisture)).toBeLessThanOrEqual(0.0006)
    expect(Math.abs(grassMoistureDamping(ours, windMs) - damping)).toBeLessThanOrEqual(0.00006)
    expect(Math.abs(cheneySpreadMs(ours, windMs) / MS_PER_KMH - natural)).toBeLessThanOrEqual(0.0006)
    expect(Math.abs(cheneySpreadMs(ours, windMs, 1, 'grazed') / MS_PER_KMH - grazed)).toBeLessThanOrEqual(0.0006)
  })

  it('is finite, at least 0, faster with wind and curing, slower with moisture', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 0.98, noNaN: true }),
        fc.constantFrom('natural' as const, 'grazed' as const),
        (moisture, windMs, curedShare, state) => {
          const here = cheneySpreadMs(moisture, windMs, curedShare, state)
          expect(Number.isFinite(here)).toBe(true)
          expect(here).toBeGreaterThanOrEqual(0)
          // The damping has a step at 10 km/h above 12 % and at 12 %, so wind is compared on one side of it.
          if (moisture < 12) expect(cheneySpreadMs(moisture, windMs + 1, curedShare, state)).toBeGreaterThan(here)
          expect(cheneySpreadMs(moisture, windMs, curedShare + 0.02, state)).toBeGreaterThanOrEqual(here)
          if (moisture < 11 || moisture >= 12) {
            expect(cheneySpreadMs(moisture + 1, windMs, curedShare, state)).toBeLessThanOrEqual(here)
          }
        },
      ),
    )
  })

  it('holds the moisture floor asked for', () => {
    // Australian Fire Danger Rating System: no less than 5 %.
    expect(deadGrassMoistureDb(40, 0.1)).toBeLessThan(5)
    expect(deadGrassMoistureDb(40, 0.1, 5)).toBe(5)
    expect(deadGrassMoistureDb(55, 0)).toBe(0)
  })

  it('burns freely when cured and hardly at half', () => {
    // Cruz et al. 2015, from memory: 1.036 / (1 + 103.99 exp(-0.0996 x 80)) = 1.000.
    expect(grassCuringDamping(1)).toBeCloseTo(1, 3)
    expect(grassCuringDamping(0.2)).toBeLessThan(0.02)
  })

  it('knows nothing from an unknown or impossible input', () => {
    expect(deadGrassMoistureDb(Number.NaN, 0.3)).toBeNaN()
    expect(deadGrassMoistureDb(30, Number.NaN)).toBeNaN()
    expect(grassMoistureDamping(Number.NaN, 3)).toBeNaN()
    expect(grassMoistureDamping(5, Number.NaN)).toBeNaN()
    expect(grassCuringDamping(1.1)).toBeNaN()
    expect(cheneySpreadMs(Number.NaN, 3)).toBeNaN()
    expect(cheneySpreadMs(5, -1)).toBeNaN()
    expect(cheneySpreadMs(5, 3, Number.NaN)).toBeNaN()
  })
})
