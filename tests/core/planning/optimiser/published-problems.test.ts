import { afterAll, describe, expect, test } from 'vitest'
import { solveProblem } from '#app/plan-week.ts'
import { planByHand } from '#core/planning/optimiser/by-hand.ts'
import { brokenRules } from '#core/planning/optimiser/check-solution.ts'
import { ascend, dualBound } from '#core/planning/optimiser/linear/dual-bound.ts'
import { ModelBuilder, relaxed } from '#core/planning/optimiser/linear/linear-model.ts'
import { extensiveForm } from '#core/planning/optimiser/linear/two-stage.ts'
import { planModel } from '#core/planning/optimiser/model.ts'
import { bestValue, type PlanProblem } from '#core/planning/optimiser/problem.ts'
import { type Lists, searchLists } from '#core/planning/optimiser/search.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import {
  GENERALISED_ASSIGNMENT,
  GRAHAM,
  LATE_JOBS,
  SMALL_TARDINESS,
  WEIGHTED_TARDINESS_40,
} from '#tests/truth/planning.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const ANY = Number.POSITIVE_INFINITY

/** The assignment as a harvest: each job a field of 1 ha, each agent an outfit, one day, no moves, fields cut whole. */
function assignmentAsHarvest(): PlanProblem {
  const { profit, need, capacity } = GENERALISED_ASSIGNMENT
  const [crews, jobs] = [profit.length, profit[0].length]
  const most = 100
  return {
    jobs: profit[0].map((_, j) => ({ key: `job${j}`, areaHa: 1, tPerHa: 1, buyer: -1, field: j, whole: true })),
    crews: capacity.map((_, c) => ({ id: `agent${c}` })),
    blocks: [{ day: 0, startEpochH: 0, endEpochH: 40 }],
    days: 1,
    dayLength: [1],
    members: 1,
    buyers: [],
    valuePerHa: new Float64Array(jobs).fill(most),
    leftPerHa: new Float64Array(jobs),
    fitH: new Float32Array(crews * jobs).fill(40),
    openH: Float32Array.from(capacity),
    crewH: Float32Array.from(capacity),
    haPerH: Float64Array.from(need.flat(), (hours) => 1 / hours),
    costPerHa: Float64Array.from(profit.flat(), (money) => most - money),
    firstMoveH: new Float64Array(crews * jobs),
    moveH: new Float64Array(jobs * jobs),
    rules: {
      pins: [],
      keptOff: new Uint8Array(jobs),
      lastDay: new Float64Array(jobs).fill(ANY),
      latePerHa: 0,
      crewsPerField: 1,
      fieldsPerDay: jobs,
      moveCostPerH: 0,
      promised: new Float64Array(crews * jobs),
      aversion: undefined,
    },
  }
}

describe('generalised assignment c515-1 as a harvest', () => {
  const problem = assignmentAsHarvest()

  test('the planner finds the known optimum of 336 and proves it', async () => {
    const { found } = await solveProblem(problem, solver, { relGap: 0, nodes: 100_000 })
    expect(found.status).toBe('proven')
    expect(bestValue(problem) - found.loss).toBeCloseTo(GENERALISED_ASSIGNMENT.optimum, 6)
    expect(bestValue(problem) - found.leastLoss).toBeCloseTo(GENERALISED_ASSIGNMENT.optimum, 6)
    expect(brokenRules(problem, found.solution)).toEqual([])
  })

  test('by hand it stays at or under the optimum; its own bound stays at or over it', async () => {
    const hand = bestValue(problem) - planByHand(problem, 20_000).loss
    expect(hand).toBeLessThanOrEqual(GENERALISED_ASSIGNMENT.optimum)
    expect(hand).toBeGreaterThanOrEqual(0.98 * GENERALISED_ASSIGNMENT.optimum)
    const { model } = extensiveForm(planModel(problem).stages)
    const bound = bestValue(problem) - ascend(model, 2000).bound
    expect(bound).toBeGreaterThanOrEqual(GENERALISED_ASSIGNMENT.optimum - 1e-6)
    const linear = await solver.solve(relaxed(model))
    expect(dualBound(model, linear.rowPrices!)).toBeCloseTo(linear.objective, 6)
    expect(bound).toBeLessThanOrEqual((bestValue(problem) - linear.objective) * 1.01)
  })
})

interface Machine {
  readonly hours: readonly number[]
  readonly weight?: readonly number[]
  readonly due: readonly number[]
}

function tardiness({ hours, weight, due }: Machine, sequence: readonly number[]): number {
  let clock = 0
  let sum = 0
  for (const job of sequence) {
    clock += hours[job]!
    sum += (weight?.[job] ?? 1) * Math.max(0, clock - due[job]!)
  }
  return sum
}

/** Which job is done when, and how late it then is (positional form). */
function tardinessModel({ hours, weight, due }: Machine) {
  const n = hours.length
  const total = hours.reduce((sum, h) => sum + h, 0)
  const builder = new ModelBuilder()
  const at = hours.map(() => Array.from({ length: n }, () => builder.addCol(0, 0, 1, 'whole')))
  for (let j = 0; j < n; j++)
    builder.addRow(
      1,
      1,
      at[j]!,
      at[j]!.map(() => 1),
    )
  for (let k = 0; k < n; k++)
    builder.addRow(
      1,
      1,
      at.map((row) => row[k]!),
      at.map(() => 1),
    )
  for (let j = 0; j < n; j++) {
    const late = builder.addCol(weight?.[j] ?? 1, 0, total)
    for (let k = 0; k < n; k++) {
      // late >= time done at position k - due - total x (1 - job j is there)
      const cols = [late, at[j]![k]!]
      const values = [1, -total]
      for (let i = 0; i < n; i++) {
        for (let before = 0; before <= k; before++) {
          const same = cols.indexOf(at[i]![before]!)
          if (same >= 0) values[same]! -= hours[i]!
          else {
            cols.push(at[i]![before]!)
            values.push(-hours[i]!)
          }
        }
      }
      builder.addRow(-due[j]! - total, ANY, cols, values)
    }
  }
  return builder.build()
}

const permutations = (things: readonly number[]): number[][] =>
  things.length === 0
    ? [[]]
    : things.flatMap((thing) => permutations(things.filter((x) => x !== thing)).map((rest) => [thing, ...rest]))

describe('one machine', () => {
  test.each(SMALL_TARDINESS)(
    'weighted tardiness of $hours is $optimum: counted, solved and searched',
    async (problem) => {
      const jobs = [...problem.hours.keys()]
      expect(Math.min(...permutations(jobs).map((order) => tardiness(problem, order)))).toBe(problem.optimum)
      const solved = await solver.solve(tardinessModel(problem), { relGap: 0 })
      expect(solved.objective).toBeCloseTo(problem.optimum, 5)
      const found = searchLists({ start: [jobs], cost: ([order]) => tardiness(problem, order!), trials: 2000, seed: 1 })
      expect(found.cost).toBe(problem.optimum)
    },
  )

  test('the published sequence of wt40 reaches 913, and so does the search from the order of the due dates', () => {
    const published = WEIGHTED_TARDINESS_40.sequence.map((job) => job - 1)
    expect(tardiness(WEIGHTED_TARDINESS_40, published)).toBe(WEIGHTED_TARDINESS_40.optimum)
    const { due } = WEIGHTED_TARDINESS_40
    const start: Lists = [[...due.keys()].sort((a, b) => due[a]! - due[b]!)]
    const cost = ([order]: Lists) => tardiness(WEIGHTED_TARDINESS_40, order!)
    const found = searchLists({ start, cost, trials: 120_000, seed: 3, shakeAfter: 3000 })
    expect(found.cost).toBe(WEIGHTED_TARDINESS_40.optimum)
  })

  test('Moore and Hodgson: two jobs are late', async () => {
    const { hours, due, optimum } = LATE_JOBS
    const total = hours.reduce((sum, h) => sum + h, 0)
    const builder = new ModelBuilder()
    // Jobs in the order of their due dates; those that are on time come first.
    const late = hours.map(() => builder.addCol(1, 0, 1, 'whole'))
    for (const [k, limit] of due.entries()) {
      const cols = late.slice(0, k + 1)
      const before = hours.slice(0, k + 1)
      const all = before.reduce((sum, h) => sum + h, 0)
      builder.addRow(
        all - limit,
        ANY,
        cols,
        before.map((h, i) => (i === k ? h + total : h)),
      )
    }
    expect((await solver.solve(builder.build(), { relGap: 0 })).objective).toBe(optimum)
  })
})

test('Graham: longest first needs 11 on three machines, the search and the solver 9', async () => {
  const { machines, hours, optimum, longestFirst } = GRAHAM
  const span = (lists: Lists) => Math.max(...lists.map((list) => list.reduce((sum, j) => sum + hours[j]!, 0)))
  const start: number[][] = Array.from({ length: machines }, () => [])
  for (const j of hours.keys()) {
    const load = (list: readonly number[]) => list.reduce((sum, i) => sum + hours[i]!, 0)
    start.sort((a, b) => load(a) - load(b))[0]!.push(j)
  }
  expect(span(start)).toBe(longestFirst)
  expect(searchLists({ start, cost: span, trials: 2000, seed: 1, shakeAfter: 100 }).cost).toBe(optimum)
  const builder = new ModelBuilder()
  const last = builder.addCol(1, 0, 100)
  const on = hours.map(() => Array.from({ length: machines }, () => builder.addCol(0, 0, 1, 'whole')))
  for (const row of on)
    builder.addRow(
      1,
      1,
      row,
      row.map(() => 1),
    )
  for (let m = 0; m < machines; m++) {
    builder.addRow(0, ANY, [last, ...on.map((row) => row[m]!)], [1, ...hours.map((h) => -h)])
  }
  expect((await solver.solve(builder.build(), { relGap: 0 })).objective).toBeCloseTo(optimum, 6)
})
