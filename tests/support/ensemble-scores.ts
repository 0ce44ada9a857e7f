/** Scores of an ensemble against what came. */

/** Share of a sorted ensemble's middle band, by counting ranks: band of the given share holds the truth? */
export function insideBand(sorted: Float64Array, truth: number, share: number): boolean {
  const n = sorted.length
  const at = (q: number) => {
    const x = q * (n + 1) - 1
    const low = Math.min(n - 1, Math.max(0, Math.floor(x)))
    const high = Math.min(n - 1, low + 1)
    return sorted[low]! + (sorted[high]! - sorted[low]!) * Math.min(1, Math.max(0, x - low))
  }
  return truth >= at((1 - share) / 2) && truth <= at((1 + share) / 2)
}

/** Number of members below the truth, ties split at random by `tie` in [0, 1). */
export function rankOf(sorted: Float64Array, truth: number, tie: number): number {
  let below = 0
  let equal = 0
  for (const value of sorted) {
    if (value < truth) below++
    else if (value === truth) equal++
  }
  return below + Math.floor(tie * (equal + 1))
}

/**
 * Continuous ranked probability score of an ensemble, in its fair form for few members: mean |x - truth| less half of
 * the mean |x - x'| over different members. Ferro 2014, Q. J. R. Meteorol. Soc. 140:1917-1923, doi:10.1002/qj.2270.
 */
export function fairCrps(sorted: Float64Array, truth: number): number {
  const n = sorted.length
  let away = 0
  let apart = 0
  for (let i = 0; i < n; i++) {
    away += Math.abs(sorted[i]! - truth)
    apart += (2 * i - n + 1) * sorted[i]!
  }
  return away / n - apart / (n * (n - 1))
}
