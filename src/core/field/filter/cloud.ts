/** A cloud of points in a few dimensions: its mean, its spread, and a normal distribution of the same moments. */

/** Points lie one after the other: coordinate d of point p = points[p * dims + d]. */
export interface Moments {
  readonly mean: Float64Array
  /** Lower triangle of the Cholesky factor of the covariance, row by row (dims x dims). */
  readonly factor: Float64Array
}

/** Added to the variances so that a cloud collapsed in a direction can still be factored. */
const RIDGE = 1e-9

/** @param weights adding up to one. @returns weighted mean and Cholesky factor of the weighted covariance. */
export function momentsOf(points: Float64Array, dims: number, weights: Float64Array): Moments {
  const mean = new Float64Array(dims)
  for (let p = 0; p < weights.length; p++) {
    for (let d = 0; d < dims; d++) mean[d]! += weights[p]! * points[p * dims + d]!
  }
  const covariance = new Float64Array(dims * dims)
  for (let p = 0; p < weights.length; p++) {
    for (let d = 0; d < dims; d++) {
      const scaled = weights[p]! * (points[p * dims + d]! - mean[d]!)
      for (let e = 0; e <= d; e++) covariance[d * dims + e]! += scaled * (points[p * dims + e]! - mean[e]!)
    }
  }
  return { mean, factor: choleskyOf(covariance, dims) }
}

function choleskyOf(covariance: Float64Array, dims: number): Float64Array {
  const factor = new Float64Array(dims * dims)
  for (let d = 0; d < dims; d++) {
    for (let e = 0; e <= d; e++) {
      let sum = covariance[d * dims + e]!
      for (let k = 0; k < e; k++) sum -= factor[d * dims + k]! * factor[e * dims + k]!
      factor[d * dims + e] = d === e ? Math.sqrt(Math.max(sum, 0) + RIDGE) : sum / factor[e * dims + e]!
    }
  }
  return factor
}

/** Coordinates of a point in the frame where the normal of these moments is round: `factor` x `out` = point - mean. */
export function whiten(moments: Moments, points: Float64Array, at: number, out: Float64Array): void {
  const dims = moments.mean.length
  for (let d = 0; d < dims; d++) {
    let rest = points[at + d]! - moments.mean[d]!
    for (let k = 0; k < d; k++) rest -= moments.factor[d * dims + k]! * out[k]!
    out[d] = rest / moments.factor[d * dims + d]!
  }
}

/** The way back from `whiten`. */
export function colour(moments: Moments, round: Float64Array, out: Float64Array): void {
  const dims = moments.mean.length
  for (let d = 0; d < dims; d++) {
    let value = moments.mean[d]!
    for (let k = 0; k <= d; k++) value += moments.factor[d * dims + k]! * round[k]!
    out[d] = value
  }
}
