/** What the planner needs of a solver of linear and mixed-integer models. Implemented by `edges/solver`. */
import type { LinearModel } from '#core/planning/optimiser/linear/linear-model.ts'

export interface SolveOptions {
  /** Stop when the gap between the best solution and the bound is at most this share of the solution. */
  readonly relGap?: number
  /** Stop after so many nodes of the search tree: the same on every machine, unlike seconds. */
  readonly nodes?: number
  /** Stop after so many seconds, with the best solution so far. Never used where the same input must give the same plan. */
  readonly seconds?: number
  /** Values of the first columns to start from, the rest is found to fit; a full one that breaks the model is left aside. */
  readonly start?: Float64Array
  /** The start is good: spend no time on guessing others, only on branching and on the bound. */
  readonly trustStart?: boolean
  /** Aborting ends the work at once and rejects with the signal's reason. */
  readonly signal?: AbortSignal
}

export interface Solved {
  /** `limit`: stopped early, `values` is absent when nothing was found by then. */
  readonly status: 'optimal' | 'limit' | 'infeasible' | 'unbounded'
  /** One value per column; checked against the model before it is handed over. */
  readonly values: Float64Array | undefined
  /** Objective of `values`, reckoned from the model; NaN without values. */
  readonly objective: number
  /** No solution can have a lower objective. */
  readonly bound: number
  /** Price of each row, for a model without whole numbers. */
  readonly rowPrices: Float64Array | undefined
  readonly nodes: number
  readonly seconds: number
  /** Memory of the solver after this solve [MB]. */
  readonly heapMb: number
}

export interface Solver {
  /** @throws SolverFailure when the solver breaks down or its answer does not hold up against the model. */
  solve(model: LinearModel, options?: SolveOptions): Promise<Solved>
}

export class SolverFailure extends Error {
  override readonly name = 'SolverFailure'
}
