/** Makes the week's plan: by hand first, then with the solver, bounded, checked and explained. */

import { assembleWeek, type Decided, type Found } from '#core/planning/optimiser/assemble.ts'
import { buildProblem, type FarmPlanInput, type FarmProblem } from '#core/planning/optimiser/build-problem.ts'
import { type ByHand, planByHand } from '#core/planning/optimiser/by-hand.ts'
import { crewDays } from '#core/planning/optimiser/crew-days.ts'
import { ascend } from '#core/planning/optimiser/linear/dual-bound.ts'
import { type Extensive, extensiveForm } from '#core/planning/optimiser/linear/two-stage.ts'
import { type PlanModel, planModel } from '#core/planning/optimiser/model.ts'
import { NO_RULES, type PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import type { PlanProblem } from '#core/planning/optimiser/problem.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { Amount, Recourse } from '#core/planning/optimiser/recourse.ts'
import { ruleLists, SIMPLE_RULES } from '#core/planning/optimiser/simple-rules.ts'
import { readSolution, startFrom } from '#core/planning/optimiser/solution.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { Day } from './make-day.ts'
import { orderWeek } from './order-week.ts'
import { type Solver, SolverFailure } from './solver-port.ts'

export interface PlanOptions {
  /** Gap at which a plan counts as proven, share of the loss. */
  readonly relGap?: number
  /** Time the solver may take [s]; leave out where the same input must give the same plan. */
  readonly seconds?: number
  /** Nodes the solver may search. */
  readonly nodes?: number
  /** Changes tried by hand, before the solver starts if there is one. */
  readonly trials?: number
  /** Changes tried in each round of ordering today's lists. */
  readonly orderTrials?: number
  /** Whether each visit is compared with the next best places; true unless told. */
  readonly explain?: boolean
  readonly signal?: AbortSignal
}

const PROVEN_GAP = 0.005
const TRIALS = 1500
/** So many where a solver goes on from what was found by hand. */
const TRIALS_BEFORE_SOLVER = 300
const ORDER_TRIALS = 300
const NODES = 400
/** Rounds of the bound that needs no solver. */
const BOUND_ROUNDS = 1000

/** Members that stand for the courses of an outlook, and days ahead: the outlook's own end comes first. */
const MEMBERS = 25
const DAYS = 14

/** What the planner needs of a day that was made. */
export function planInputOf(
  { farm, outlooks, date, nowEpochH }: Pick<Day, 'farm' | 'outlooks' | 'date' | 'nowEpochH'>,
  standingHa: ReadonlyMap<string, number>,
  rules: PlanRules = NO_RULES,
  at: FarmPlanInput['at'] = new Map(),
): FarmPlanInput {
  const rateOf = rateIn(farm)
  return { farm, outlooks, date, nowEpochH, standingHa, rateOf, at, rules, days: DAYS, members: MEMBERS }
}

/** @param solver absent = the plan by hand. @throws BrokenPlan, or the reason of an aborted signal. */
export async function planWeek(
  input: FarmPlanInput,
  solver: Solver | undefined,
  options: PlanOptions = {},
): Promise<WeekPlan> {
  const farmProblem = buildProblem(input)
  const { found, recourse } = await solveProblem(farmProblem.problem, solver, options)
  const { status, decided } = await decide(input, farmProblem, recourse, found, solver, options)
  return assembleWeek(input, farmProblem, recourse, { ...found, status }, decided)
}

/** Where the solver breaks down on the way the lists are made without it, and the plan says so. */
async function decide(
  input: FarmPlanInput,
  farmProblem: FarmProblem,
  recourse: Recourse,
  { status, solution }: Found,
  solver: Solver | undefined,
  { explain = true, orderTrials = ORDER_TRIALS, signal }: PlanOptions,
): Promise<{ readonly status: Found['status']; readonly decided: Decided }> {
  if (farmProblem.problem.jobs.length === 0) {
    const today = { recourse, days: [], lossAfter: () => 0 }
    const { visits: lists, cuts } = solution
    return { status, decided: { lists, cuts, loss: 0, lossByMember: [0], wishesByMember: [0], trials: [], today } }
  }
  const days = crewDays(input, farmProblem)
  const others = explain ? SIMPLE_RULES.map((rule) => ruleLists(rule, input, farmProblem)) : []
  const ask = { explain, others, trials: orderTrials, ...(signal ? { signal } : {}) }
  try {
    const able = status === 'fallback' ? undefined : solver
    return { status, decided: await orderWeek(recourse, days, solution.visits, able, ask) }
  } catch (error) {
    if (!(error instanceof SolverFailure)) throw error
    return { status: 'fallback', decided: await orderWeek(recourse, days, solution.visits, undefined, ask) }
  }
}

const NOTHING_TO_DO: Omit<Found, 'solution'> = {
  status: 'proven',
  loss: 0,
  leastLoss: 0,
  seconds: 0,
  lossByMember: [0],
}

export interface SolvedProblem {
  readonly found: Found
  readonly recourse: Recourse
}

export async function solveProblem(
  problem: PlanProblem,
  solver: Solver | undefined,
  options: PlanOptions = {},
): Promise<SolvedProblem> {
  const { recourse, ...hand } = planByHand(problem, options.trials ?? (solver ? TRIALS_BEFORE_SOLVER : TRIALS))
  if (problem.jobs.length === 0) {
    return { found: { ...NOTHING_TO_DO, solution: { visits: problem.crews.map(() => []), cuts: [] } }, recourse }
  }
  const model = planModel(problem)
  const extensive = extensiveForm(model.stages)
  const solved = solver && (await bySolver(problem, model, extensive, hand, solver, options))
  return { found: solved ?? byHand(problem, recourse, extensive, hand), recourse }
}

async function bySolver(
  problem: PlanProblem,
  model: PlanModel,
  extensive: Extensive,
  hand: ByHandFound,
  solver: Solver,
  options: PlanOptions,
): Promise<Found | undefined> {
  const relGap = options.relGap ?? PROVEN_GAP
  try {
    const solved = await solver.solve(extensive.model, {
      relGap,
      nodes: options.nodes ?? NODES,
      start: startFrom(model, hand.visits),
      trustStart: true,
      ...(options.seconds === undefined ? {} : { seconds: options.seconds }),
      ...(options.signal === undefined ? {} : { signal: options.signal }),
    })
    if (!solved.values) return undefined
    const { objective, bound, seconds } = solved
    const gap = objective > 0 ? (objective - bound) / objective : 0
    const solution = readSolution(problem, model, extensive, solved.values)
    return {
      solution,
      status: gap <= relGap * 1.0001 ? 'proven' : 'good',
      loss: objective,
      leastLoss: bound,
      seconds,
      lossByMember: lossByMember(model, extensive, solved.values),
    }
  } catch (error) {
    if (error instanceof SolverFailure) return undefined
    throw error
  }
}

type ByHandFound = Pick<ByHand, 'visits' | 'loss' | 'lossByMember'>

/** The bound here owes nothing to the solver. */
function byHand(problem: PlanProblem, recourse: Recourse, extensive: Extensive, hand: ByHandFound): Found {
  const cuts: Amount[][] = Array.from({ length: problem.members }, () => [])
  recourse.follow(hand.visits, (member, amount) => cuts[member]!.push(amount))
  return {
    solution: { visits: hand.visits, cuts },
    status: 'fallback',
    loss: hand.loss,
    leastLoss: Math.min(hand.loss, Math.max(0, ascend(extensive.model, BOUND_ROUNDS).bound)),
    seconds: Number.NaN,
    lossByMember: hand.lossByMember,
  }
}

function lossByMember({ stages }: PlanModel, { scenarioCol }: Extensive, values: Float64Array): Float64Array {
  const { first, scenarios } = stages
  let common = first.offset
  for (let j = 0; j < first.cols; j++) common += first.cost[j]! * values[j]!
  return Float64Array.from(scenarios, ({ model }, m) => {
    let sum = common + model.offset
    for (let j = first.cols; j < model.cols; j++) sum += model.cost[j]! * values[scenarioCol[m]! + j - first.cols]!
    return sum
  })
}
