import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { crps, type Held, isInside, middleQuantile, skillOf } from '#core/outlook/skill.ts'
import { seededRandom } from '#core/units/random.ts'

/** Normal quantiles at 0.05, 0.15 ... 0.95 (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, inverted; five digits). */
const HALF = [0.12566, 0.38532, 0.67449, 1.03643, 1.64485]
const NORMAL = [...HALF.map((z) => -z).reverse(), ...HALF]

/** Standard normal distribution function at 0, 0.5, 1, 2 (NIST/SEMATECH e-Handbook, table 1.3.6.7.1). */
const PHI: readonly (readonly [z: number, cumulative: number])[] = [
  [0, 0.5],
  [0.5, 0.69146],
  [1, 0.84134],
  [2, 0.97725],
]
/** Gneiting et al. 2005, eq. 5: sigma (z (2 Phi(z) - 1) + 2 phi(z) - 1 / sqrt(pi)). */
const normalCrps = (z: number, cumulative: number): number =>
  z * (2 * cumulative - 1) + (2 * Math.exp((-z * z) / 2)) / Math.sqrt(2 * Math.PI) - 1 / Math.sqrt(Math.PI)

describe('the continuous ranked probability score', () => {
  it.each(PHI)(
    'of the normal at z = %d is its closed form to 0.02 of the spread from ten values, to 0.003 from many',
    (z, cumulative) => {
      expect(Math.abs(crps(NORMAL, z) - normalCrps(z, cumulative))).toBeLessThan(0.02)
      const random = seededRandom(1)
      const many = Float64Array.from({ length: 400_000 }, () => random.normal()).sort()
      expect(Math.abs(crps(many, z) - normalCrps(z, cumulative))).toBeLessThan(0.003)
    },
  )

  it('of one value is how far it is off; of two alike too', () => {
    expect(crps([12], 13.5)).toBe(1.5)
    expect(crps([12, 12], 10)).toBe(2)
  })

  it('of 1 and 3 at 2 is a half: the square of the distance between steps, by hand', () => {
    // F is 0 below 1, 0.5 from 1 to 3, 1 above; (F - step at 2)^2 is 0.25 over a length of 2.
    expect(crps([1, 3], 2)).toBeCloseTo(0.5, 12)
  })

  it('is twice the mean quantile loss at the middles of the slices, as its definition by quantiles says', () => {
    const loss = (value: number, share: number, truth: number) =>
      truth >= value ? share * (truth - value) : (1 - share) * (value - truth)
    fc.assert(
      fc.property(spread, truthIn, (values, truth) => {
        const mean =
          values.reduce((sum, value, k) => sum + loss(value, (k + 0.5) / values.length, truth), 0) / values.length
        expect(crps(values, truth)).toBeCloseTo(2 * mean, 9)
      }),
    )
  })

  it('is 0 or more, moves with the unit and not with the zero', () => {
    fc.assert(
      fc.property(spread, truthIn, (values, truth) => {
        expect(crps(values, truth)).toBeGreaterThanOrEqual(-1e-12)
        const moved = values.map((value) => 3 * value + 7)
        expect(crps(moved, 3 * truth + 7)).toBeCloseTo(3 * crps(values, truth), 8)
      }),
    )
  })

  it('of nothing, and of the unknown, is unknown', () => {
    expect(crps([], 1)).toBeNaN()
    expect(crps([1, Number.NaN], 1)).toBeNaN()
    expect(crps([1], Number.NaN)).toBeNaN()
  })
})

const spread = fc
  .array(fc.double({ min: 5, max: 40, noNaN: true }), { minLength: 1, maxLength: 30 })
  .map((values) => values.toSorted((a, b) => a - b))
const truthIn = fc.double({ min: 0, max: 50, noNaN: true })

describe('bands', () => {
  it('of ten values run from the third to the eighth and from the first to the last', () => {
    expect(middleQuantile(NORMAL, 0.25)).toBe(NORMAL[2])
    expect(middleQuantile(NORMAL, 0.95)).toBeCloseTo(1.64485, 9)
    expect(middleQuantile(NORMAL, 0.5)).toBeCloseTo(0, 12)
    expect(isInside(NORMAL, 0.674, 0.5)).toBe(true)
    expect(isInside(NORMAL, 0.675, 0.5)).toBe(false)
    expect(isInside(NORMAL, -1.644, 0.9)).toBe(true)
    expect(isInside(NORMAL, -1.646, 0.9)).toBe(false)
  })

  it('are those of type 5 in the paper: of 1, 2, 3, 4 the quarter is 1.5', () => {
    expect(middleQuantile([1, 2, 3, 4], 0.25)).toBe(1.5)
    expect(middleQuantile([1, 2, 3, 4], 0)).toBe(1)
    expect(middleQuantile([1, 2, 3, 4], 1)).toBe(4)
  })

  it('hold nothing that is not known', () => {
    expect(isInside([], 1, 0.9)).toBe(false)
    expect(isInside([1, 2], Number.NaN, 0.9)).toBe(false)
  })
})

describe('skill', () => {
  it('of forecasts that know how unsure they are covers what it says, and of ones that do not shows it', () => {
    const random = seededRandom(7)
    const made = (bias: number, sd: number): Held[] =>
      Array.from({ length: 20_000 }, () => ({
        values: NORMAL.map((z) => 13 + bias + sd * z),
        truth: 13 + random.normal(),
      }))
    const honest = skillOf(made(0, 1))
    expect(honest.count).toBe(20_000)
    expect(honest.bias).toBeCloseTo(0, 1)
    expect(honest.rmse).toBeCloseTo(1, 1)
    expect(honest.inside50).toBeCloseTo(0.5, 1)
    expect(honest.inside90).toBeCloseTo(0.9, 1)
    // An honest normal's mean score is its spread over the root of pi.
    expect(honest.crps).toBeCloseTo(1 / Math.sqrt(Math.PI), 1)
    const boastful = skillOf(made(0, 0.3))
    expect(boastful.inside90).toBeLessThan(0.5)
    expect(boastful.crps).toBeGreaterThan(honest.crps)
    const wet = skillOf(made(1.5, 1))
    expect(wet.bias).toBeCloseTo(1.5, 1)
    expect(wet.rmse).toBeCloseTo(Math.hypot(1, 1.5), 1)
    expect(wet.crps).toBeGreaterThan(honest.crps)
  })

  it('of three by hand', () => {
    const { count, bias, rmse, inside50, inside90 } = skillOf([
      { values: [10], truth: 9 },
      { values: [10], truth: 10 },
      { values: [10], truth: 12 },
    ])
    expect([count, inside50, inside90]).toEqual([3, 1 / 3, 1 / 3])
    expect(bias).toBeCloseTo(-1 / 3, 12)
    expect(rmse).toBeCloseTo(Math.sqrt(5 / 3), 12)
  })

  it('of none is unknown, and so is one with an unknown in it', () => {
    expect(skillOf([])).toEqual({
      count: 0,
      bias: Number.NaN,
      rmse: Number.NaN,
      inside50: Number.NaN,
      inside90: Number.NaN,
      crps: Number.NaN,
    })
    const unknown = skillOf([
      { values: [1], truth: 1 },
      { values: [Number.NaN], truth: 1 },
    ])
    expect([unknown.bias, unknown.rmse, unknown.inside50, unknown.inside90, unknown.crps].every(Number.isNaN)).toBe(
      true,
    )
  })
})
