/** Weights of particles, kept as logarithms until they are used. */

/**
 * Turns log-weights into weights that add up to one, in place.
 *
 * @param logWeights natural logarithms of unscaled weights; NaN and -Infinity count as no weight.
 * @returns false when no particle has any weight; the values are then all equal.
 */
export function normalise(logWeights: Float64Array): boolean {
  let highest = Number.NEGATIVE_INFINITY
  for (const value of logWeights) if (value > highest) highest = value
  if (highest === Number.NEGATIVE_INFINITY) {
    logWeights.fill(1 / logWeights.length)
    return false
  }
  let sum = 0
  for (let p = 0; p < logWeights.length; p++) {
    const value = logWeights[p]!
    const weight = Number.isNaN(value) ? 0 : Math.exp(value - highest)
    logWeights[p] = weight
    sum += weight
  }
  for (let p = 0; p < logWeights.length; p++) logWeights[p]! /= sum
  return true
}

/**
 * Effective number of particles, 1 / sum of squared weights (Kong, Liu & Wong 1994, doi:10.1080/01621459.1994.10476469).
 * @param weights adding up to one. @returns 1 to the number of particles.
 */
export function effectiveSize(weights: Float64Array): number {
  let squares = 0
  for (const weight of weights) squares += weight * weight
  return 1 / squares
}

/**
 * Systematic resampling (Kitagawa 1996, doi:10.1080/10618600.1996.10474692): one draw sets a comb of evenly spaced points
 * on the stack of weights, so a particle of weight w is taken floor(N w) or ceil(N w) times.
 *
 * @param weights adding up to one. @param count how many to take. @param uniform a draw in [0, 1).
 * @returns indices of the particles taken, rising.
 */
export function systematicResample(weights: Float64Array, count: number, uniform: number): Int32Array {
  const taken = new Int32Array(count)
  let p = 0
  let stacked = weights[0]!
  for (let i = 0; i < count; i++) {
    const tooth = (i + uniform) / count
    while (stacked < tooth && p + 1 < weights.length) {
      p++
      stacked += weights[p]!
    }
    taken[i] = p
  }
  return taken
}
