/**
 * Decisions in two stages: first one that holds whatever comes, then, once the weather is known, the best that is left.
 *
 * Every scenario is a linear model whose first columns are the common decision. The extensive form puts them side by side
 * (Birge & Louveaux, Introduction to Stochastic Programming, ch. 1-2). The aversion to bad outcomes is the conditional
 * value at risk as a linear programme (Rockafellar & Uryasev 2000, J. Risk 2:21, doi:10.21314/JOR.2000.038).
 */
import { type LinearModel, ModelBuilder, withFixed } from './linear-model.ts'

export interface TwoStage {
  /** Common decision: columns with cost and bounds, and rows over them alone. */
  readonly first: LinearModel
  /** Columns 0 to first.cols - 1 stand for the common decision; their cost, bounds and wholeness here are not used. */
  readonly scenarios: readonly Scenario[]
  readonly aversion?: Aversion
}

export interface Scenario {
  /** Chance, all together 1. */
  readonly chance: number
  readonly model: LinearModel
}

export interface Aversion {
  /** 0 = the mean alone counts, 1 = the bad tail alone. */
  readonly weight: number
  /** Share of the worst outcomes that make the tail, above 0, at most 1. */
  readonly tail: number
}

export interface Extensive {
  readonly model: LinearModel
  /** First own column of each scenario; the common columns come before all. */
  readonly scenarioCol: readonly number[]
}

export function extensiveForm(problem: TwoStage): Extensive {
  const { first, scenarios, aversion } = problem
  const averse = aversion !== undefined && aversion.weight > 0
  const meanShare = averse ? 1 - aversion.weight : 1
  const builder = new ModelBuilder()
  builder.offset = first.offset
  copyCols(builder, first, 0, 1)
  copyRows(builder, first, (j) => j)
  const scenarioCol: number[] = []
  for (const { chance, model } of scenarios) {
    const begin = builder.cols
    scenarioCol.push(begin)
    copyCols(builder, model, first.cols, chance * meanShare)
    builder.offset += chance * meanShare * model.offset
    copyRows(builder, model, (j) => (j < first.cols ? j : begin + j - first.cols))
  }
  if (averse) addTail(builder, problem, aversion, scenarioCol)
  return { model: builder.build(), scenarioCol }
}

/** weight x (threshold + mean overshoot / tail), overshoot >= own cost of the scenario - threshold. */
function addTail(
  builder: ModelBuilder,
  { first, scenarios }: TwoStage,
  { weight, tail }: Aversion,
  scenarioCol: readonly number[],
): void {
  const ranges = scenarios.map(({ model }) => costRange(model, first.cols))
  const low = Math.min(...ranges.map(({ low }) => low))
  const high = Math.max(...ranges.map(({ high }) => high))
  const threshold = builder.addCol(weight, low, high)
  for (const [s, { chance, model }] of scenarios.entries()) {
    const over = builder.addCol((weight * chance) / tail, 0, high - low)
    const own: number[] = []
    const costs: number[] = []
    for (let j = first.cols; j < model.cols; j++) {
      if (model.cost[j] === 0) continue
      own.push(scenarioCol[s]! + j - first.cols)
      costs.push(-model.cost[j]!)
    }
    builder.addRow(model.offset, Number.POSITIVE_INFINITY, [over, threshold, ...own], [1, 1, ...costs])
  }
}

function costRange({ cost, lower, upper, offset, cols }: LinearModel, from: number): { low: number; high: number } {
  let low = offset
  let high = offset
  for (let j = from; j < cols; j++) {
    low += Math.min(cost[j]! * lower[j]!, cost[j]! * upper[j]!)
    high += Math.max(cost[j]! * lower[j]!, cost[j]! * upper[j]!)
  }
  return { low, high }
}

function copyCols(builder: ModelBuilder, model: LinearModel, from: number, weight: number): void {
  for (let j = from; j < model.cols; j++) {
    builder.addCol(weight * model.cost[j]!, model.lower[j]!, model.upper[j]!, model.integer[j] === 1 ? 'whole' : 'real')
  }
}

function copyRows(builder: ModelBuilder, model: LinearModel, place: (col: number) => number): void {
  for (let i = 0; i < model.rows; i++) {
    const [from, to] = [model.starts[i]!, model.starts[i + 1]!]
    const cols = Array.from(model.indices.subarray(from, to), place)
    builder.addRow(model.rowLower[i]!, model.rowUpper[i]!, cols, Array.from(model.values.subarray(from, to)))
  }
}

/** The problem of one who knows which scenario comes. */
export function knowing(problem: TwoStage, scenario: number): LinearModel {
  const { first, scenarios } = problem
  return extensiveForm({ first, scenarios: [{ ...scenarios[scenario]!, chance: 1 }] }).model
}

/** The problem with the common decision already taken. */
export const decided = (problem: TwoStage, decision: ArrayLike<number>): LinearModel =>
  withFixed(extensiveForm(problem).model, decision)

/** The problem of one who plans for the mean of the scenarios, which must differ in numbers only. */
export function forTheMean({ first, scenarios }: TwoStage): TwoStage {
  const mean = (pick: (model: LinearModel) => Float64Array) =>
    pick(scenarios[0]!.model).map((_, k) =>
      scenarios.reduce((sum, { chance, model }) => sum + chance * pick(model)[k]!, 0),
    )
  const model: LinearModel = {
    ...scenarios[0]!.model,
    offset: scenarios.reduce((sum, { chance, model }) => sum + chance * model.offset, 0),
    cost: mean((m) => m.cost),
    lower: mean((m) => m.lower),
    upper: mean((m) => m.upper),
    rowLower: mean((m) => m.rowLower),
    rowUpper: mean((m) => m.rowUpper),
    values: mean((m) => m.values),
  }
  return { first, scenarios: [{ chance: 1, model }] }
}
