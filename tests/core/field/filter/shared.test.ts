import { describe, expect, it } from 'vitest'
import { NOTHING_TOLD, SharedUnknown, toldBy } from '#core/field/filter/shared.ts'
import { kalmanLocalLevel } from '#tests/truth/filter.ts'

describe('a shared unknown', () => {
  it('gathers what fields tell into the Kalman solution for all readings at once', () => {
    const readings = [1.2, 0.4, 0.9]
    const unknown = new SharedUnknown({ mean: 0, sd: 1 })
    for (const [field, reading] of readings.entries()) {
      const cavity = unknown.belief(`field ${field}`)
      const exact = kalmanLocalLevel([reading], 0.5, 0, { mean: cavity.mean, variance: cavity.sd ** 2 })
      unknown.tell(`field ${field}`, toldBy({ mean: exact.mean, sd: Math.sqrt(exact.variance) }, cavity))
    }
    const exact = kalmanLocalLevel(readings, 0.5, 0, { mean: 0, variance: 1 })
    expect(unknown.belief().mean).toBeCloseTo(exact.mean, 10)
    expect(unknown.belief().sd).toBeCloseTo(Math.sqrt(exact.variance), 10)
  })

  it('counts no field twice, however often it speaks', () => {
    const unknown = new SharedUnknown({ mean: 0, sd: 1 })
    const told = toldBy({ mean: 0.5, sd: 0.5 }, { mean: 0, sd: 1 })
    unknown.tell('a', told)
    const once = unknown.belief()
    unknown.tell('a', told)
    expect(unknown.belief()).toEqual(once)
    expect(unknown.belief('a')).toEqual({ mean: 0, sd: 1 })
    expect(once.mean).toBeCloseTo(0.5, 12)
    expect(once.sd).toBeCloseTo(0.5, 12)
  })

  it('hears nothing from a field that learned next to nothing, and never that all is known', () => {
    expect(toldBy({ mean: 0.1, sd: 0.97 }, { mean: 0, sd: 1 })).toEqual(NOTHING_TOLD)
    expect(toldBy({ mean: 0.1, sd: Number.NaN }, { mean: 0, sd: 1 })).toEqual(NOTHING_TOLD)
    expect(Number.isFinite(toldBy({ mean: 0.1, sd: 0 }, { mean: 0, sd: 1 }).precision)).toBe(true)
  })
})
