import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  antecedentMoisture,
  curveNumberFor,
  infiltratedRain,
  runoffMm,
  stormStorageMm,
} from '#core/science/soil/runoff.ts'
import { MM_PER_IN } from '#core/units/convert.ts'
import { NEH4_TABLE_10_1, TR55_RUNOFF_IN, TR55_WEIGHTED } from '#tests/truth/soil.ts'

const rain = fc.double({ min: 0, max: 300, noNaN: true })
const curve = fc.double({ min: 20, max: 100, noNaN: true })

describe('runoff of a storm', () => {
  test.each(TR55_RUNOFF_IN)(
    '$name: $rainIn in at $curveNumber gives $runoffIn in',
    ({ rainIn, curveNumber, runoffIn }) => {
      expect(Math.abs(runoffMm(rainIn * MM_PER_IN, curveNumber) / MM_PER_IN - runoffIn)).toBeLessThanOrEqual(0.005)
    },
  )

  test('curve numbers weigh by area as in TR-55 example 2-1', () => {
    const weighted = TR55_WEIGHTED.parts.reduce((sum, [share, number]) => sum + share * number, 0)
    expect(Math.round(weighted)).toBe(TR55_WEIGHTED.curveNumber)
  })

  test('never exceeds the rain, and grows with rain and curve number', () => {
    fc.assert(
      fc.property(rain, rain, curve, fc.double({ min: 0, max: 10, noNaN: true }), (p, more, cn, step) => {
        const q = runoffMm(p, cn)
        expect(q).toBeGreaterThanOrEqual(0)
        expect(q).toBeLessThanOrEqual(p + 1e-9)
        expect(runoffMm(p + more, cn)).toBeGreaterThanOrEqual(q - 1e-9)
        expect(runoffMm(p, Math.min(100, cn + step))).toBeGreaterThanOrEqual(q - 1e-9)
      }),
    )
  })

  test('unknown or impossible input stays unknown', () => {
    expect(runoffMm(Number.NaN, 75)).toBeNaN()
    expect(runoffMm(20, Number.NaN)).toBeNaN()
    expect(runoffMm(-1, 75)).toBeNaN()
    expect(stormStorageMm(0)).toBeNaN()
    expect(stormStorageMm(101)).toBeNaN()
  })
})

describe('antecedent moisture', () => {
  test.each(NEH4_TABLE_10_1)('$average becomes $dry when dry and $wet when wet', ({ average, dry, wet }) => {
    // The equations are a fit to the table: within 1.5 of it from 50 to 100 (70 when dry: 49.5 for 51).
    expect(Math.abs(curveNumberFor(average, 'I') - dry)).toBeLessThanOrEqual(1.51)
    expect(Math.abs(curveNumberFor(average, 'III') - wet)).toBeLessThanOrEqual(1)
  })

  // USDA-SCS NEH-4 Table 4.2, from memory: dormant 0.5 and 1.1 in, growing 1.4 and 2.1 in.
  test.each([
    [0.4, 'dormant', 'I'],
    [0.8, 'dormant', 'II'],
    [1.2, 'dormant', 'III'],
    [1.2, 'growing', 'I'],
    [2.2, 'growing', 'III'],
  ] as const)('%f in in five days, %s season, is class %s', (inches, season, moisture) => {
    expect(antecedentMoisture(inches * MM_PER_IN, season)).toBe(moisture)
  })

  test('dry, average and wet come in that order, and an unknown past is average', () => {
    fc.assert(
      fc.property(curve, (cn) => {
        expect(curveNumberFor(cn, 'I')).toBeLessThanOrEqual(cn + 1e-9)
        expect(curveNumberFor(cn, 'III')).toBeGreaterThanOrEqual(cn - 1e-9)
        expect(curveNumberFor(cn, 'III')).toBeLessThanOrEqual(100 + 1e-9)
      }),
    )
    expect(antecedentMoisture(Number.NaN, 'dormant')).toBe('II')
    expect(curveNumberFor(Number.NaN, 'I')).toBeNaN()
  })
})

describe('infiltrated rain', () => {
  test('a storm spread over hours sheds what the same storm sheds at once', () => {
    const hours = 48
    const hourly = new Float32Array(hours)
    hourly.set([5, 10, 20, 15, 0, 0, 10], 3)
    const kept = infiltratedRain(hourly, hours, 75).reduce((sum, mm) => sum + mm, 0)
    expect(60 - kept).toBeCloseTo(runoffMm(60, 75), 4)
  })

  test('twelve dry hours part two storms', () => {
    const hourly = new Float32Array(48)
    hourly[0] = 30
    hourly[13] = 30
    const kept = infiltratedRain(hourly, 48, 80).reduce((sum, mm) => sum + mm, 0)
    expect(60 - kept).toBeCloseTo(2 * runoffMm(30, 80), 4)
  })

  test('after a wet five days more runs off, after dry ones less', () => {
    const shed = (before: number): number => {
      const hourly = new Float32Array(200)
      hourly[100] = before
      hourly[150] = 30
      return 30 - (infiltratedRain(hourly, 200, 80)[150] ?? Number.NaN)
    }
    expect(shed(0)).toBeCloseTo(runoffMm(30, curveNumberFor(80, 'I')), 4)
    expect(shed(20)).toBeCloseTo(runoffMm(30, 80), 4)
    expect(shed(40)).toBeCloseTo(runoffMm(30, curveNumberFor(80, 'III')), 4)
  })

  test('each hour keeps between nothing and all of its rain; members do not touch each other; unknown stays unknown', () => {
    const member = fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0, max: 40, noNaN: true })), {
      minLength: 60,
      maxLength: 60,
    })
    fc.assert(
      fc.property(member, member, (a, b) => {
        const both = infiltratedRain(new Float32Array([...a, ...b]), 60, 85)
        const alone = infiltratedRain(new Float32Array(b), 60, 85)
        expect(both.slice(60)).toEqual(alone)
        for (let h = 0; h < 60; h++) {
          expect(both[h]).toBeGreaterThanOrEqual(-1e-4)
          expect(both[h]).toBeLessThanOrEqual((a[h] ?? 0) + 1e-4)
        }
      }),
      { numRuns: 50 },
    )
    const gap = infiltratedRain(new Float32Array([1, Number.NaN, 1]), 3, 85)
    expect(gap[1]).toBeNaN()
    expect(gap[2]).toBe(1)
  })
})
