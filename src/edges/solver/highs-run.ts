/** One solve with HiGHS, in whatever thread this is called. Blocks until it is done. */
import type { Highs, Model } from 'highs'
import type { LinearModel } from '#core/planning/optimiser/linear/linear-model.ts'

export interface RunRequest {
  readonly model: LinearModel
  readonly relGap?: number
  readonly nodes?: number
  readonly seconds?: number
  readonly start?: Float64Array
  readonly trustStart?: boolean
}

export interface RunAnswer {
  readonly status: 'optimal' | 'limit' | 'infeasible' | 'unbounded' | 'failed'
  /** HiGHS model status, for the log. */
  readonly code: number
  readonly values: Float64Array | undefined
  readonly rowPrices: Float64Array | undefined
  /** Best bound of a whole-number model; NaN where HiGHS gives none. */
  readonly bound: number
  readonly nodes: number
}

/** Primal values with a feasible status: what HiGHS calls solution status 2. */
const FEASIBLE = 2

export function runHighs(highs: Highs, request: RunRequest): RunAnswer {
  const { model: data } = request
  const whole = data.integer.includes(1)
  return highs.withModel(
    {
      numCols: data.cols,
      numRows: data.rows,
      offset: data.offset,
      colCost: data.cost,
      colLower: data.lower,
      colUpper: data.upper,
      rowLower: data.rowLower,
      rowUpper: data.rowUpper,
      matrix: {
        format: 'csr',
        numRows: data.rows,
        numCols: data.cols,
        starts: data.starts,
        indices: data.indices,
        values: data.values,
      },
      ...(whole ? { integrality: Int32Array.from(data.integer) } : {}),
    },
    (model) => {
      model.options.set(optionsFor(request))
      if (request.start && whole) setStart(model, request.start, data.cols)
      const { modelStatus: code } = model.run()
      const status = statusOf(highs, code)
      const found = model.info.get('primal_solution_status') === FEASIBLE
      return {
        status,
        code,
        values: found ? model.getSolution().colValue : undefined,
        rowPrices: found && !whole ? model.getSolution().rowDual : undefined,
        bound: whole ? mipBound(model) : status === 'optimal' ? model.getObjectiveValue() : Number.NaN,
        nodes: whole ? Number(model.info.get('mip_node_count')) : 0,
      }
    },
  )
}

function setStart(model: Model, start: Float64Array, cols: number): void {
  if (start.length === cols) model.setSolution({ colValue: start })
  else model.setSolution({ indices: Int32Array.from(start.keys()), values: start })
}

/** What HiGHS does to guess solutions; of little use, and most of the time, where a good one is given. */
const NO_GUESSING = {
  mip_heuristic_effort: 0,
  mip_heuristic_run_feasibility_jump: false,
  mip_heuristic_run_rens: false,
  mip_heuristic_run_rins: false,
  mip_heuristic_run_root_reduced_cost: false,
  mip_allow_restart: false,
}

function optionsFor({ relGap, nodes, seconds, trustStart }: RunRequest): Record<string, boolean | number | string> {
  return {
    output_flag: false,
    random_seed: 0,
    ...(trustStart === true ? NO_GUESSING : {}),
    ...(relGap === undefined ? {} : { mip_rel_gap: relGap }),
    ...(nodes === undefined ? {} : { mip_max_nodes: nodes }),
    ...(seconds === undefined ? {} : { time_limit: seconds }),
  }
}

const mipBound = (model: Model): number => Number(model.info.get('mip_dual_bound'))

function statusOf(highs: Highs, code: number): RunAnswer['status'] {
  const { modelStatus } = highs.constants
  switch (code) {
    case modelStatus.optimal:
    case modelStatus.empty:
      return 'optimal'
    case modelStatus.infeasible:
      return 'infeasible'
    // Every column is bounded (see LinearModel), so a model that is infeasible or unbounded is infeasible.
    case modelStatus.unboundedOrInfeasible:
      return 'infeasible'
    case modelStatus.unbounded:
      return 'unbounded'
    case modelStatus.timeLimit:
    case modelStatus.iterationLimit:
    case modelStatus.solutionLimit:
    case modelStatus.objectiveBound:
    case modelStatus.objectiveTarget:
    case modelStatus.interrupted:
      return 'limit'
    default:
      return 'failed'
  }
}
