import { afterAll, describe, expect, test } from 'vitest'
import { ModelBuilder } from '#core/planning/optimiser/linear/linear-model.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

/** The workshop of the HiGHS package's readme: 30 chairs + 50 tables, optimum 1100 with 20 chairs and 10 tables. */
function workshop(wood = 40) {
  const builder = new ModelBuilder()
  const chairs = builder.addCol(-30, 0, 100, 'whole')
  const tables = builder.addCol(-50, 0, 100, 'whole')
  builder.addRow(Number.NEGATIVE_INFINITY, wood, [chairs, tables], [1, 2])
  builder.addRow(Number.NEGATIVE_INFINITY, 50, [chairs, tables], [2, 1])
  return builder.build()
}

/** Hard on purpose: a market split instance (Cornuejols & Dawande 1999), random but fixed. */
function hardProblem() {
  const builder = new ModelBuilder()
  const cols = Array.from({ length: 40 }, () => builder.addCol(0, 0, 1, 'whole'))
  for (let row = 0; row < 5; row++) {
    const weights = cols.map((_, j) => (j * 7919 + row * 104_729 + j * j * 31) % 100)
    const half = Math.floor(weights.reduce((a, b) => a + b, 0) / 2)
    const slack = [builder.addCol(1, 0, 1000), builder.addCol(1, 0, 1000)]
    builder.addRow(half, half, [...cols, ...slack], [...weights, 1, -1])
  }
  return builder.build()
}

describe('a solver behind one function', () => {
  test('finds the published optimum, and its bound meets it', async () => {
    const solved = await solver.solve(workshop(), { relGap: 0 })
    expect(solved.status).toBe('optimal')
    expect(solved.objective).toBe(-1100)
    expect(solved.bound).toBeCloseTo(-1100, 6)
    expect([...solved.values!]).toEqual([20, 10])
  })

  test('says so when nothing is possible', async () => {
    const builder = new ModelBuilder()
    builder.addRow(3, 4, [builder.addCol(1, 0, 1), builder.addCol(1, 0, 1)], [1, 1])
    const solved = await solver.solve(builder.build())
    expect(solved.status).toBe('infeasible')
    expect(solved.values).toBeUndefined()
  })

  test('refuses a model with a NaN in it before HiGHS, which would take it, sees it', async () => {
    const model = workshop()
    model.cost[0] = Number.NaN
    await expect(solver.solve(model)).rejects.toThrow('cost is not finite')
  })

  test('a request already under way ends at once when it is aborted, and the next one is served', async () => {
    const control = new AbortController()
    const begun = performance.now()
    const long = solver.solve(hardProblem(), { relGap: 0, signal: control.signal })
    setTimeout(() => control.abort(new Error('newer request')), 300)
    await expect(long).rejects.toThrow('newer request')
    expect(performance.now() - begun).toBeLessThan(5000)
    expect((await solver.solve(workshop(), { relGap: 0 })).objective).toBe(-1100)
  })

  test('stops at a node limit with a bound, the same each time', async () => {
    const first = await solver.solve(hardProblem(), { nodes: 5 })
    const second = await solver.solve(hardProblem(), { nodes: 5 })
    expect(first.status).toBe('limit')
    expect(first.bound).toBeLessThanOrEqual(first.objective)
    expect(second.objective).toBe(first.objective)
    expect(second.values).toEqual(first.values)
  })

  test('a start that breaks the model is left aside, a good one is used', async () => {
    const bad = await solver.solve(workshop(), { relGap: 0, start: Float64Array.of(100, 100) })
    expect(bad.objective).toBe(-1100)
    const good = await solver.solve(workshop(), { relGap: 0.9, start: Float64Array.of(20, 10) })
    expect(good.objective).toBe(-1100)
  })
})
