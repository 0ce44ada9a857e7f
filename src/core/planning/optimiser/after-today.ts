/**
 * What the days after today still lose, as a function of what today leaves standing.
 *
 * In each member it is the optimum of a linear model in which what is left stands on the right-hand side, so it is convex
 * and lies nowhere below the tangent that one solution's prices give: the L-shaped method (Van Slyke & Wets 1969, SIAM J.
 * Appl. Math. 17:638, doi:10.1137/0117061). Each solution adds a tangent; the highest of them stands for the function.
 */
import type { LinearModel } from './linear/linear-model.ts'
import { type LaterModel, laterModel } from './model.ts'
import { NOTHING, type PlanProblem } from './problem.ts'
import type { CutHa } from './solution.ts'

interface Tangent {
  readonly at: number
  /** By job [money/ha]. */
  readonly slope: Float64Array
}

export class AfterToday {
  readonly #problem: PlanProblem
  readonly #later: LaterModel
  readonly #tangents: readonly Tangent[][]

  constructor(problem: PlanProblem) {
    this.#problem = problem
    this.#later = laterModel(problem)
    this.#tangents = Array.from({ length: problem.members }, () => [])
  }

  /** @param leftHa by job and member [ha]. */
  modelFor(leftHa: Float64Array): LinearModel {
    const { model, firstRow } = this.#later
    const { jobs, members } = this.#problem
    const [rowLower, rowUpper] = [model.rowLower.slice(), model.rowUpper.slice()]
    for (let m = 0; m < members; m++) {
      for (let j = 0; j < jobs.length; j++) {
        const row = firstRow[m]! + j
        rowLower[row] = rowUpper[row] = leftHa[j * members + m]!
      }
    }
    return { ...model, rowLower, rowUpper }
  }

  /** Takes in a solution of `modelFor(leftHa)`. @returns its loss by member [money]. */
  learn(leftHa: Float64Array, values: Float64Array, rowPrices: Float64Array): Float64Array {
    const { model, firstCol, firstRow } = this.#later
    const { jobs, members } = this.#problem
    return Float64Array.from({ length: members }, (_, m) => {
      let loss = 0
      for (let col = firstCol[m]!; col < (firstCol[m + 1] ?? model.cols); col++) loss += model.cost[col]! * values[col]!
      const slope = Float64Array.from(jobs, (_, j) => rowPrices[firstRow[m]! + j]!)
      let at = loss
      for (let j = 0; j < jobs.length; j++) at -= slope[j]! * leftHa[j * members + m]!
      this.#tangents[m]!.push({ at, slope })
      return loss
    })
  }

  /** Loss after today by the tangents known [money]; never above the true one. @param leftHa by job. */
  lossOf(leftHa: Float64Array, member: number): number {
    let most = Number.NEGATIVE_INFINITY
    for (const { at, slope } of this.#tangents[member]!) {
      let loss = at
      for (let j = 0; j < slope.length; j++) loss += slope[j]! * leftHa[j]!
      if (loss > most) most = loss
    }
    return most
  }

  /** What a solution cuts after today, by member. */
  cutsOf(values: Float64Array): CutHa[][] {
    const { cuts, firstCol } = this.#later
    return cuts.map((list, m) =>
      list.flatMap((cut, k): CutHa[] => {
        const ha = values[firstCol[m]! + k]!
        return ha > NOTHING ? [{ ...cut, ha }] : []
      }),
    )
  }
}
