/** A linear or mixed-integer problem as plain data, rows compressed; always to be minimised. */

export interface LinearModel {
  readonly cols: number
  readonly rows: number
  /** Added to the objective whatever the solution. */
  readonly offset: number
  readonly cost: Float64Array
  /** Finite, so that every set of prices gives a bound (see dual-bound.ts). */
  readonly lower: Float64Array
  readonly upper: Float64Array
  /** 1 where the column takes whole numbers only. */
  readonly integer: Uint8Array
  readonly rowLower: Float64Array
  readonly rowUpper: Float64Array
  /** Row `i` has the entries `starts[i]` up to, not including, `starts[i + 1]`. */
  readonly starts: Int32Array
  readonly indices: Int32Array
  readonly values: Float64Array
}

/** Grows a model column by column and row by row. */
export class ModelBuilder {
  offset = 0
  readonly #cost: number[] = []
  readonly #lower: number[] = []
  readonly #upper: number[] = []
  readonly #integer: number[] = []
  readonly #rowLower: number[] = []
  readonly #rowUpper: number[] = []
  readonly #starts: number[] = [0]
  readonly #indices: number[] = []
  readonly #values: number[] = []

  get cols(): number {
    return this.#cost.length
  }

  /** @returns the index of the new column. */
  addCol(cost: number, lower: number, upper: number, kind: 'real' | 'whole' = 'real'): number {
    this.#lower.push(lower)
    this.#upper.push(upper)
    this.#integer.push(kind === 'whole' ? 1 : 0)
    return this.#cost.push(cost) - 1
  }

  upperOf(col: number): number {
    return this.#upper[col]!
  }

  /** Entries of a column met twice add up only in some solvers: name each column once. */
  addRow(lower: number, upper: number, cols: readonly number[], values: readonly number[]): number {
    for (let k = 0; k < cols.length; k++) {
      this.#indices.push(cols[k]!)
      this.#values.push(values[k]!)
    }
    this.#starts.push(this.#indices.length)
    this.#rowUpper.push(upper)
    return this.#rowLower.push(lower) - 1
  }

  build(): LinearModel {
    return {
      cols: this.#cost.length,
      rows: this.#rowLower.length,
      offset: this.offset,
      cost: Float64Array.from(this.#cost),
      lower: Float64Array.from(this.#lower),
      upper: Float64Array.from(this.#upper),
      integer: Uint8Array.from(this.#integer),
      rowLower: Float64Array.from(this.#rowLower),
      rowUpper: Float64Array.from(this.#rowUpper),
      starts: Int32Array.from(this.#starts),
      indices: Int32Array.from(this.#indices),
      values: Float64Array.from(this.#values),
    }
  }
}

/** What makes a model unfit to be solved; empty when it is sound. A solver may not notice a NaN itself. */
export function faultsOf(model: LinearModel): string[] {
  const faults: string[] = []
  for (const name of ['cost', 'lower', 'upper', 'values'] as const) {
    if (!model[name].every(Number.isFinite)) faults.push(`${name} is not finite`)
  }
  for (let j = 0; j < model.cols; j++) if (model.lower[j]! > model.upper[j]!) faults.push(`column ${j}: bounds cross`)
  for (let i = 0; i < model.rows; i++) {
    if (!(model.rowLower[i]! <= model.rowUpper[i]!)) faults.push(`row ${i}: bounds cross or are not known`)
  }
  if (model.indices.some((j) => j < 0 || j >= model.cols)) faults.push('an entry lies outside the columns')
  if (!Number.isFinite(model.offset)) faults.push('offset is not finite')
  return faults
}

export function objectiveOf(model: LinearModel, solution: Float64Array): number {
  let sum = model.offset
  for (let j = 0; j < model.cols; j++) sum += model.cost[j]! * solution[j]!
  return sum
}

/**
 * How far a solution breaks the model: the worst overstepping of a column's or row's bounds, relative to the size of
 * that bound where it is above 1, and of wholeness. NaN or a wrong length is infinitely far.
 */
export function violationOf(model: LinearModel, solution: Float64Array): number {
  if (solution.length !== model.cols || !solution.every(Number.isFinite)) return Number.POSITIVE_INFINITY
  let worst = 0
  for (let j = 0; j < model.cols; j++) {
    const value = solution[j]!
    worst = Math.max(worst, over(value, model.lower[j]!, model.upper[j]!))
    if (model.integer[j] === 1) worst = Math.max(worst, Math.abs(value - Math.round(value)))
  }
  for (let i = 0; i < model.rows; i++) {
    let activity = 0
    for (let k = model.starts[i]!; k < model.starts[i + 1]!; k++) {
      activity += model.values[k]! * solution[model.indices[k]!]!
    }
    worst = Math.max(worst, over(activity, model.rowLower[i]!, model.rowUpper[i]!))
  }
  return worst
}

function over(value: number, lower: number, upper: number): number {
  const below = (lower - value) / Math.max(1, Math.abs(lower))
  const above = (value - upper) / Math.max(1, Math.abs(upper))
  return Math.max(0, Number.isFinite(lower) ? below : 0, Number.isFinite(upper) ? above : 0)
}

/** The same model without wholeness: its optimum bounds that of the model. */
export const relaxed = (model: LinearModel): LinearModel => ({ ...model, integer: new Uint8Array(model.cols) })

/** The same model with its first columns held at given values. */
export function withFixed(model: LinearModel, values: ArrayLike<number>): LinearModel {
  const lower = model.lower.slice()
  const upper = model.upper.slice()
  for (let j = 0; j < values.length; j++) lower[j] = upper[j] = values[j]!
  return { ...model, lower, upper }
}
