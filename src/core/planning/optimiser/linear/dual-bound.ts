/** Bounds on a model that need no solver: any prices of the rows give one, good prices a good one. */
import type { LinearModel } from './linear-model.ts'

/**
 * Lagrangian bound: no solution of the model has a lower objective than this.
 *
 * @param model every column with finite bounds. @param prices one per row, any numbers.
 * @returns the bound [objective]; prices of the wrong sign for a one-sided row are taken as 0.
 * Form: sum of price x side of the row it pulls on, plus for each column the cheaper end of cost less priced entries
 * (weak duality; Geoffrion 1974, Math. Prog. Study 2:82). Wholeness is ignored, so it is at most the bound of the linear
 * relaxation and reaches it at optimal prices.
 * Checked: tests/truth/planning.ts (against the known optima of assignment, scheduling and stochastic instances).
 */
export function dualBound(model: LinearModel, prices: Float64Array): number {
  return boundAndReduced(model, prices, new Float64Array(model.cols))
}

/** Writes the reduced costs into `reduced`. */
function boundAndReduced(model: LinearModel, prices: Float64Array, reduced: Float64Array): number {
  const { cost, lower, upper, rowLower, rowUpper, starts, indices, values } = model
  reduced.set(cost)
  let bound = model.offset
  for (let i = 0; i < model.rows; i++) {
    const price = prices[i]!
    const side = price > 0 ? rowLower[i]! : rowUpper[i]!
    if (price === 0 || !Number.isFinite(side)) continue
    bound += price * side
    for (let k = starts[i]!; k < starts[i + 1]!; k++) reduced[indices[k]!]! -= price * values[k]!
  }
  for (let j = 0; j < model.cols; j++) bound += reduced[j]! > 0 ? reduced[j]! * lower[j]! : reduced[j]! * upper[j]!
  return bound
}

export interface Priced {
  readonly prices: Float64Array
  readonly bound: number
}

/** How often the running mean of the prices is tried for a bound, and the walk begun anew from it. */
const RESTART_EVERY = 40
/** Passes over the rows by which prices are polished before their bound is taken. */
const POLISHES = 2

/**
 * Finds good prices without a solver.
 *
 * @param iterations rounds, each about as costly as two products with the matrix. @param from prices to begin with.
 * @returns the best prices met and their bound.
 * Form: primal-dual hybrid gradient with diagonal steps (Pock & Chambolle 2011, doi:10.1109/ICCV.2011.6126441, alpha = 1)
 * restarted from the mean with a learnt weight (Applegate et al. 2021, arXiv:2106.04756). The bound holds however far it has come.
 */
export function ascend(model: LinearModel, iterations: number, from?: Float64Array): Priced {
  const { cols, rows, cost, lower, upper, rowLower, rowUpper, starts, indices, values } = model
  const { colStep, rowStep } = steps(model)
  // Weighs prices against amounts, whose scales differ; learnt anew at each restart from how far each had to go.
  let weight = firstWeight(model)
  const x = Float64Array.from({ length: cols }, (_, j) => (cost[j]! > 0 ? lower[j]! : upper[j]!))
  const y = from ? from.slice() : new Float64Array(rows)
  const beginX = x.slice()
  const beginY = y.slice()
  const meanX = new Float64Array(cols)
  const meanY = new Float64Array(rows)
  const ahead = new Float64Array(cols)
  const reduced = new Float64Array(cols)
  let best: Priced = { prices: y.slice(), bound: boundAndReduced(model, y, reduced) }
  const offer = (prices: Float64Array): void => {
    const polished = prices.slice()
    for (let pass = 0; pass < POLISHES; pass++) polishPrices(model, polished)
    const bound = boundAndReduced(model, polished, reduced)
    if (bound > best.bound) best = { prices: polished, bound }
  }
  for (let round = 1; round <= iterations; round++) {
    boundAndReduced(model, y, reduced)
    for (let j = 0; j < cols; j++) {
      const moved = x[j]! - (colStep[j]! / weight) * reduced[j]!
      const next = Math.min(upper[j]!, Math.max(lower[j]!, moved))
      ahead[j] = 2 * next - x[j]!
      x[j] = next
      meanX[j]! += next
    }
    for (let i = 0; i < rows; i++) {
      let activity = 0
      for (let k = starts[i]!; k < starts[i + 1]!; k++) activity += values[k]! * ahead[indices[k]!]!
      const step = rowStep[i]! * weight
      const short = y[i]! / step - activity
      // The nearest point of the row's range pulls the price.
      y[i] = step * Math.max(short + rowLower[i]!, Math.min(0, short + rowUpper[i]!))
      meanY[i]! += y[i]!
    }
    if (round % RESTART_EVERY !== 0) continue
    for (let j = 0; j < cols; j++) meanX[j]! /= RESTART_EVERY
    for (let i = 0; i < rows; i++) meanY[i]! /= RESTART_EVERY
    offer(y)
    offer(meanY)
    const goneX = distance(meanX, beginX)
    const goneY = distance(meanY, beginY)
    if (goneX > 0 && goneY > 0) weight = Math.sqrt((weight * goneY) / goneX)
    for (const [mean, now, begin] of [
      [meanX, x, beginX],
      [meanY, y, beginY],
    ] as const) {
      now.set(mean)
      begin.set(mean)
      mean.fill(0)
    }
  }
  return best
}

/**
 * Sets the price of one row after the other to its best, the others held: the bound never falls.
 *
 * In one price the bound is a concave broken line, with a corner where a column's reduced cost changes sign and one at 0.
 */
export function polishPrices(model: LinearModel, prices: Float64Array): void {
  const { lower, upper, rowLower, rowUpper, starts, indices, values } = model
  const reduced = new Float64Array(model.cols)
  boundAndReduced(model, prices, reduced)
  for (let i = 0; i < model.rows; i++) {
    const was = prices[i]!
    const corners = [{ at: 0, rise: 0 }]
    let activity = 0
    for (let k = starts[i]!; k < starts[i + 1]!; k++) {
      const [j, a] = [indices[k]!, values[k]!]
      if (a === 0) continue
      activity += a > 0 ? a * lower[j]! : a * upper[j]!
      corners.push({ at: (reduced[j]! + was * a) / a, rise: Math.abs(a) * (upper[j]! - lower[j]!) })
    }
    const best = topOf(corners, activity, rowLower[i]!, rowUpper[i]!)
    if (best === was || !Number.isFinite(best)) continue
    prices[i] = best
    for (let k = starts[i]!; k < starts[i + 1]!; k++) reduced[indices[k]!]! -= (best - was) * values[k]!
  }
}

/** Where side less activity turns from above 0 to 0 or below; the side is the upper one for prices below 0. */
function topOf(corners: { at: number; rise: number }[], least: number, rowLower: number, rowUpper: number): number {
  corners.sort((a, b) => a.at - b.at)
  let activity = least
  for (const { at, rise } of corners) {
    activity += rise
    if ((at < 0 ? rowUpper : rowLower) - activity <= 0) return at
  }
  return Number.NaN
}

function steps({ cols, rows, starts, indices, values }: LinearModel) {
  const colSum = new Float64Array(cols)
  const rowStep = new Float64Array(rows)
  for (let i = 0; i < rows; i++) {
    let sum = 0
    for (let k = starts[i]!; k < starts[i + 1]!; k++) {
      const size = Math.abs(values[k]!)
      sum += size
      colSum[indices[k]!]! += size
    }
    rowStep[i] = sum > 0 ? 1 / sum : 1
  }
  return { colStep: colSum.map((sum) => (sum > 0 ? 1 / sum : 1)), rowStep }
}

/** Size of the costs over size of the rows' sides. */
function firstWeight({ cost, rows, rowLower, rowUpper }: LinearModel): number {
  let sides = 0
  for (let i = 0; i < rows; i++) {
    const side = Number.isFinite(rowLower[i]!) ? rowLower[i]! : rowUpper[i]!
    if (Number.isFinite(side)) sides += side * side
  }
  let costs = 0
  for (const value of cost) costs += value * value
  return sides > 0 && costs > 0 ? Math.sqrt(costs / sides) : 1
}

function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0
  for (let k = 0; k < a.length; k++) sum += (a[k]! - b[k]!) ** 2
  return Math.sqrt(sum)
}
