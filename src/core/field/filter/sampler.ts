/**
 * The particle filter proper: carries a cloud of particles from what was believed to what is believed after readings.
 *
 * What is not known of a field is constant through the season and its course follows from the weather, so all readings
 * can be weighed at once. They are let in by degrees: each step lets in as much as leaves half of the particles
 * effective, resamples, and moves every particle so that no two stay alike (sequential Monte Carlo with tempering:
 * Del Moral, Doucet & Jasra 2006, doi:10.1111/j.1467-9868.2006.00553.x).
 *
 * The move shrinks a particle towards the mean of the cloud and adds a draw of the cloud's own covariance, which keeps
 * mean and covariance (Liu & West 2001, doi:10.1007/978-1-4757-3437-9_10); a Metropolis-Hastings step then accepts or
 * refuses it against the readings themselves (resample-move: Gilks & Berzuini 2001, doi:10.1111/1467-9868.00280), so the
 * jitter adds no error however far from normal the truth is.
 */
import type { Random } from '#core/units/random.ts'
import { colour, type Moments, momentsOf, whiten } from './cloud.ts'
import { effectiveSize, normalise, systematicResample } from './weights.ts'

export interface Target {
  readonly dims: number
  /** Log density of the prior at the point that starts at `at`, up to a constant. */
  readonly logPrior: (points: Float64Array, at: number) => number
  /** Log likelihood of all readings there, up to a constant; NaN where the point explains nothing. */
  readonly logLikelihood: (points: Float64Array, at: number) => number
}

export interface Sampled {
  /** Equally likely points. */
  readonly points: Float64Array
  readonly steps: number
  /** Share of proposed moves that were accepted, 0-1; NaN when none was proposed. */
  readonly accepted: number
}

/** Each step leaves at least this share of the particles effective. */
const EFFECTIVE_SHARE = 0.5
/** Moves of every particle after each resampling on the way, and after the last. */
const MOVES_ON_THE_WAY = 1
const MOVES_AT_THE_END = 2
/** Share of a particle's distance from the mean that a move keeps; the rest is drawn anew. */
const KEPT = 0.5
const DRAWN = Math.sqrt(1 - KEPT * KEPT)
/** Readings that no particle explains would take ever smaller steps. */
const SMALLEST_STEP = 1e-4

/**
 * @param start equally likely draws from the prior, point after point; not changed. @param random the seed of it all.
 * @param count how many to keep; the prior may be drawn more densely than the posterior needs.
 * @returns equally likely draws from the posterior, `count` of them.
 *
 * Checked: exact Kalman posteriors, tests/core/field/filter/sampler.test.ts.
 */
export function samplePosterior(
  target: Target,
  start: Float64Array,
  random: Random,
  count: number = start.length / target.dims,
): Sampled {
  const { dims } = target
  let points = start
  let logLikelihood = Float64Array.from({ length: start.length / dims }, (_, p) =>
    target.logLikelihood(start, p * dims),
  )
  let letIn = 0
  let steps = 0
  let moves = 0
  let accepted = 0
  while (letIn < 1) {
    const { step, weights } = nextStep(logLikelihood, 1 - letIn, EFFECTIVE_SHARE * count)
    letIn = Math.min(1, letIn + step)
    const moments = momentsOf(points, dims, weights)
    const taken = systematicResample(weights, count, random.uniform())
    points = pick(points, dims, taken)
    const weighed = logLikelihood
    logLikelihood = Float64Array.from(taken, (p) => weighed[p]!)
    const rounds = letIn < 1 ? MOVES_ON_THE_WAY : MOVES_AT_THE_END
    for (let round = 0; round < rounds; round++) {
      accepted += movePoints(target, points, logLikelihood, letIn, moments, random)
    }
    moves += rounds
    steps++
  }
  return { points, steps, accepted: accepted / (moves * count) }
}

/** The largest share of the readings, up to all that is left, that keeps enough particles effective. */
function nextStep(logLikelihood: Float64Array, left: number, enough: number): { step: number; weights: Float64Array } {
  const weightsFor = (step: number) => {
    const weights = logLikelihood.map((value) => step * value)
    normalise(weights)
    return weights
  }
  const all = weightsFor(left)
  if (effectiveSize(all) >= enough) return { step: left, weights: all }
  let low = 0
  let high = left
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2
    if (effectiveSize(weightsFor(middle)) >= enough) low = middle
    else high = middle
  }
  const step = Math.min(left, Math.max(low, SMALLEST_STEP))
  return { step, weights: weightsFor(step) }
}

function pick(points: Float64Array, dims: number, taken: Int32Array): Float64Array {
  const picked = new Float64Array(taken.length * dims)
  for (let i = 0; i < taken.length; i++) {
    picked.set(points.subarray(taken[i]! * dims, (taken[i]! + 1) * dims), i * dims)
  }
  return picked
}

/** Moves every point once, in place. @returns how many moves were accepted. */
function movePoints(
  target: Target,
  points: Float64Array,
  logLikelihood: Float64Array,
  letIn: number,
  moments: Moments,
  random: Random,
): number {
  const { dims } = target
  const round = new Float64Array(dims)
  const proposed = new Float64Array(dims)
  let accepted = 0
  for (let p = 0; p < logLikelihood.length; p++) {
    const at = p * dims
    whiten(moments, points, at, round)
    // The move is reversible with the normal of the cloud's moments: only what differs from it decides.
    let before = letIn * logLikelihood[p]! + target.logPrior(points, at)
    let after = 0
    for (let d = 0; d < dims; d++) {
      before += 0.5 * round[d]! ** 2
      round[d] = KEPT * round[d]! + DRAWN * random.normal()
      after += 0.5 * round[d]! ** 2
    }
    colour(moments, round, proposed)
    const likelihood = target.logLikelihood(proposed, 0)
    after += letIn * likelihood + target.logPrior(proposed, 0)
    if (!(Math.log(1 - random.uniform()) < after - before)) continue
    points.set(proposed, at)
    logLikelihood[p] = likelihood
    accepted++
  }
  return accepted
}
