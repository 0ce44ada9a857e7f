import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type Course, emptySeries, runCourses } from '#core/science/engine/courses.ts'
import type { GrainDrivers } from '#core/science/grain/exchange.ts'
import { runGrain } from '#core/science/grain/standing.ts'
import { GRAIN_TRAITS } from '#core/science/grain/traits.ts'
import { stepTopsoil, topsoilOf } from '#core/science/soil/topsoil.ts'

const HOURS = 48
const MEMBERS = 3
const START_EPOCH_H = 357_000

function driversOf(fill: (i: number) => number): GrainDrivers {
  const series = (from: number, span: number) =>
    Float32Array.from({ length: HOURS * MEMBERS }, (_, i) => from + span * fill(i))
  const wetTargetWb = series(8, 8)
  return {
    startEpochH: START_EPOCH_H,
    hours: HOURS,
    members: MEMBERS,
    traits: GRAIN_TRAITS.soybean,
    dryTargetWb: wetTargetWb.map((wb) => wb + 1),
    wetTargetWb,
    dryRate: series(0.2, 1.5),
    wetRate: series(0.1, 0.6),
    greenDryingWb: series(0, 0.3),
  }
}

const soilDrivers = (fill: (i: number) => number) => ({
  infiltrationMm: Float32Array.from({ length: HOURS * MEMBERS }, (_, i) => (fill(i) > 0.9 ? 5 * fill(i) : 0)),
  etMm: Float32Array.from({ length: HOURS * MEMBERS }, (_, i) => 0.5 * fill(i + 7)),
})

const noise = (seed: number) => (i: number) => {
  const x = Math.sin(i * 12.9898 + seed * 78.233) * 43_758.5453
  return x - Math.floor(x)
}

const course = (member: number, hoursSinceMaturity: number): Course => ({
  particle: {
    matureEpochH: START_EPOCH_H - hoursSinceMaturity,
    moistureAtMaturityWb: 57,
    dryingFactor: 1.1,
    exchangeHours: 13,
    equilibriumOffsetWb: -0.3,
  },
  member,
  startMoistureWb: 22,
  startDepletionMm: 4,
})

describe('runCourses', () => {
  it('is the published single steps, hour by hour, for every course', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: -40, max: 500 }), (seed, ripe) => {
        const grain = driversOf(noise(seed))
        const soil = soilDrivers(noise(seed + 1))
        const topsoil = topsoilOf('silt-loam', 'tiled')
        const courses = [course(2, ripe), course(0, ripe + 100)]
        const out = emptySeries(courses.length, HOURS)
        runCourses(grain, soil, topsoil, courses, out)
        courses.forEach(({ particle, member, startMoistureWb, startDepletionMm }, c) => {
          const moisture = new Float32Array(HOURS)
          runGrain(grain, member, particle, startMoistureWb, moisture)
          expect(out.moistureWb.subarray(c * HOURS, (c + 1) * HOURS)).toEqual(moisture)
          let depletion = startDepletionMm
          for (let h = 0; h < HOURS; h++) {
            const i = member * HOURS + h
            depletion = stepTopsoil(depletion, soil.infiltrationMm[i]!, soil.etMm[i]!, topsoil)
            expect(out.depletionMm[c * HOURS + h]).toBe(Math.fround(depletion))
          }
        })
      }),
      { numRuns: 25 },
    )
  })

  it('keeps eight bytes for each field, course and hour', () => {
    const { moistureWb, depletionMm } = emptySeries(5, HOURS)
    expect((moistureWb.byteLength + depletionMm.byteLength) / (5 * HOURS)).toBe(8)
  })

  it('marks as not known what follows an unknown hour, in that member only', () => {
    const grain = driversOf(noise(3))
    grain.dryTargetWb[HOURS + 10] = Number.NaN
    grain.wetTargetWb[HOURS + 10] = Number.NaN
    const out = emptySeries(2, HOURS)
    runCourses(grain, soilDrivers(noise(4)), topsoilOf('loam', 'well'), [course(0, 300), course(1, 300)], out)
    expect(out.moistureWb.subarray(0, HOURS).every((wb) => wb > 0)).toBe(true)
    expect(out.moistureWb[HOURS + 9]).toBeGreaterThan(0)
    expect(out.moistureWb.subarray(HOURS + 10).every(Number.isNaN)).toBe(true)
  })
})
