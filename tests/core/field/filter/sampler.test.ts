import { describe, expect, it } from 'vitest'
import { samplePosterior, type Target } from '#core/field/filter/sampler.ts'
import { seededRandom } from '#core/units/random.ts'
import { kalmanLocalLevel, NILE_FLOW, NILE_READING_VARIANCE, NILE_STEP_VARIANCE } from '#tests/truth/filter.ts'

const START = { mean: 1000, variance: 300 ** 2 }
const EXACT = kalmanLocalLevel(NILE_FLOW, NILE_READING_VARIANCE, NILE_STEP_VARIANCE, START)

/** The level of each year from standard normal unknowns: the first level, then a step for each year. */
function levelOf(points: Float64Array, at: number, year: number): number {
  let level = START.mean + Math.sqrt(START.variance) * points[at]!
  for (let t = 1; t <= year; t++) level += Math.sqrt(NILE_STEP_VARIANCE) * points[at + t]!
  return level
}

const standardNormal = (dims: number) => (points: Float64Array, at: number) => {
  let sum = 0
  for (let d = 0; d < dims; d++) sum -= 0.5 * points[at + d]! ** 2
  return sum
}

const NILE: Target = {
  dims: NILE_FLOW.length,
  logPrior: standardNormal(NILE_FLOW.length),
  logLikelihood: (points, at) =>
    NILE_FLOW.reduce((sum, flow, t) => sum - (flow - levelOf(points, at, t)) ** 2 / (2 * NILE_READING_VARIANCE), 0),
}

function drawn(
  dims: number,
  count: number,
  seed: number,
): { start: Float64Array; random: ReturnType<typeof seededRandom> } {
  const random = seededRandom(seed)
  return { start: Float64Array.from({ length: dims * count }, () => random.normal()), random }
}

function nileLevels(count: number, seed: number): number[] {
  const { start, random } = drawn(NILE.dims, count, seed)
  const { points } = samplePosterior(NILE, start, random)
  return Array.from({ length: count }, (_, p) => levelOf(points, p * NILE.dims, NILE_FLOW.length - 1))
}

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
const varianceOf = (values: readonly number[]) => meanOf(values.map((value) => (value - meanOf(values)) ** 2))

describe('samplePosterior', () => {
  it('meets the exact Kalman solution of the Nile with 2,000 particles', () => {
    const sd = Math.sqrt(EXACT.variance)
    for (const seed of [1, 2, 3, 4, 5]) {
      const levels = nileLevels(2000, seed)
      // Four times the error of 2,000 independent draws, sd / sqrt(N) and variance x sqrt(2 / N), doubled for the
      // draws that resampling and moving leave alike.
      expect(Math.abs(meanOf(levels) - EXACT.mean) / sd).toBeLessThan((4 * 2) / Math.sqrt(2000))
      expect(Math.abs(varianceOf(levels) / EXACT.variance - 1)).toBeLessThan(4 * 2 * Math.sqrt(2 / 2000))
    }
  })

  it('errs with one over the square root of the number of particles', () => {
    const counts = [125, 500, 2000]
    const errors = counts.map((count) => {
      const squares = Array.from({ length: 60 }, (_, k) => (meanOf(nileLevels(count, 100 + k)) - EXACT.mean) ** 2)
      return Math.sqrt(meanOf(squares) / EXACT.variance)
    })
    const slope = Math.log(errors[2]! / errors[0]!) / Math.log(counts[2]! / counts[0]!)
    // Of 60 repeats an error is known to 1 / sqrt(120) = 9 %, so the slope to 0.05; three times that.
    expect(slope).toBeGreaterThan(-0.65)
    expect(slope).toBeLessThan(-0.35)
  })

  it('takes readings that weigh nothing without leaving the prior', () => {
    const { start, random } = drawn(2, 4000, 7)
    const { points, steps } = samplePosterior(
      { dims: 2, logPrior: standardNormal(2), logLikelihood: () => 0 },
      start,
      random,
    )
    const first = Array.from({ length: 4000 }, (_, p) => points[2 * p]!)
    expect(steps).toBe(1)
    expect(Math.abs(meanOf(first))).toBeLessThan(5 / Math.sqrt(4000))
    expect(Math.abs(varianceOf(first) - 1)).toBeLessThan(5 * Math.sqrt(2 / 4000))
  })

  it('finds both modes of a posterior that is far from normal', () => {
    // Reading of |x| = 2 with error 0.2, prior N(0, 1): two equal modes at the same distance.
    const target: Target = {
      dims: 1,
      logPrior: standardNormal(1),
      logLikelihood: (points, at) => -0.5 * ((Math.abs(points[at]!) - 2) / 0.2) ** 2,
    }
    const { start, random } = drawn(1, 2000, 3)
    const { points } = samplePosterior(target, start, random)
    const right = points.filter((x) => x > 0)
    expect(right.length / 2000).toBeGreaterThan(0.4)
    expect(right.length / 2000).toBeLessThan(0.6)
    // Product of N(0, 1) and N(2, 0.2): mean 2 / (1 + 0.04).
    expect(Math.abs(meanOf([...right]) - 2 / 1.04)).toBeLessThan(0.02)
  })

  it('survives readings that no particle explains', () => {
    const { start, random } = drawn(2, 100, 9)
    const target: Target = { dims: 2, logPrior: standardNormal(2), logLikelihood: () => Number.NaN }
    const { points } = samplePosterior(target, start, random)
    expect(points.every(Number.isFinite)).toBe(true)
  })

  it('gives the same bytes for the same seed', () => {
    expect(nileLevels(200, 5)).toEqual(nileLevels(200, 5))
    expect(nileLevels(200, 5)).not.toEqual(nileLevels(200, 6))
  })
})
