/** How good forecasts were: scores of spreads of equally likely values against what came. */

export interface Held {
  /** Equally likely values in rising order. */
  readonly values: ArrayLike<number>
  readonly truth: number
}

export interface Skill {
  readonly count: number
  /** Mean of middle less truth: above 0 the forecasts are too high. */
  readonly bias: number
  /** Root of the mean square of middle less truth. */
  readonly rmse: number
  /** Share of truths inside the middle 50 % and 90 %, ends included, 0-1. */
  readonly inside50: number
  readonly inside90: number
  /** Mean continuous ranked probability score, in the unit of the values; 0 is perfect. */
  readonly crps: number
}

/**
 * Scores of many forecasts together.
 *
 * @returns all NaN but the count where there is none. One forecast with an unknown value or truth makes all unknown.
 */
export function skillOf(held: readonly Held[]): Skill {
  let sum = 0
  let squares = 0
  let inside50 = 0
  let inside90 = 0
  let score = 0
  for (const { values, truth } of held) {
    const error = middleQuantile(values, 0.5) - truth
    sum += error
    squares += error * error
    if (isInside(values, truth, 0.5)) inside50++
    if (isInside(values, truth, 0.9)) inside90++
    score += crps(values, truth)
  }
  const count = held.length
  const known = (value: number) => (Number.isNaN(sum) ? Number.NaN : value / count)
  return {
    count,
    bias: sum / count,
    rmse: Math.sqrt(squares / count),
    inside50: known(inside50),
    inside90: known(inside90),
    crps: score / count,
  }
}

/**
 * Continuous ranked probability score of equally likely values.
 *
 * @param values rising, at least one. @returns in the unit of the values, 0 or more; NaN where anything is not known.
 *
 * Form: mean |x - y| less half of the mean |x - x'| (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359-378, eq. 21,
 * doi:10.1198/016214506000001437), the second term summed over the sorted values. For values at the middles of equal
 * slices this is twice the mean quantile loss.
 * Checked: the normal distribution's closed form (Gneiting et al. 2005, Mon. Wea. Rev. 133:1098-1118, eq. 5,
 * doi:10.1175/MWR2904.1), to 0.013 of its spread with ten values.
 */
export function crps(values: ArrayLike<number>, truth: number): number {
  const n = values.length
  if (n === 0) return Number.NaN
  let away = 0
  let apart = 0
  for (let i = 0; i < n; i++) {
    away += Math.abs(values[i]! - truth)
    apart += (2 * i - n + 1) * values[i]!
  }
  return away / n - apart / (n * n)
}

/** Whether the truth lies in the middle `share` of the spread, ends included; false where anything is not known. */
export const isInside = (values: ArrayLike<number>, truth: number, share: number): boolean =>
  truth >= middleQuantile(values, (1 - share) / 2) && truth <= middleQuantile(values, (1 + share) / 2)

/**
 * Quantile where each value stands for the middle of its slice (Hyndman & Fan 1996, type 5, doi:10.2307/2684934).
 * @param values rising. @param share 0-1; beyond the first and last middle it is the first or last value. @returns NaN of none.
 */
export function middleQuantile(values: ArrayLike<number>, share: number): number {
  const n = values.length
  if (n === 0) return Number.NaN
  const position = Math.min(Math.max(share * n - 0.5, 0), n - 1)
  const below = Math.floor(position)
  const above = Math.min(below + 1, n - 1)
  return values[below]! + (position - below) * (values[above]! - values[below]!)
}
