import { afterAll, describe, expect, test } from 'vitest'
import { ascend, dualBound } from '#core/planning/optimiser/linear/dual-bound.ts'
import { type LinearModel, ModelBuilder, relaxed } from '#core/planning/optimiser/linear/linear-model.ts'
import {
  decided,
  extensiveForm,
  forTheMean,
  knowing,
  type TwoStage,
} from '#core/planning/optimiser/linear/two-stage.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { FARMER } from '#tests/truth/planning.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const NONE = Number.NEGATIVE_INFINITY
const ANY = Number.POSITIVE_INFINITY

function farmer(): TwoStage {
  const first = new ModelBuilder()
  for (const cost of FARMER.plantingCost) first.addCol(cost, 0, FARMER.acres)
  first.addRow(NONE, FARMER.acres, [0, 1, 2], [1, 1, 1])
  return {
    first: first.build(),
    scenarios: FARMER.yieldFactors.map((factor) => ({ chance: 1 / 3, model: year(factor) })),
  }
}

function year(factor: number): LinearModel {
  const builder = new ModelBuilder()
  for (let crop = 0; crop < 3; crop++) builder.addCol(0, 0, FARMER.acres)
  for (const crop of [0, 1]) {
    const bought = builder.addCol(FARMER.buyPrice[crop]!, 0, 1000)
    const sold = builder.addCol(-FARMER.sellPrice[crop]!, 0, 10_000)
    builder.addRow(FARMER.needT[crop]!, ANY, [crop, bought, sold], [FARMER.yieldT[crop]! * factor, 1, -1])
  }
  const quota = builder.addCol(-FARMER.beetPrice, 0, FARMER.beetQuotaT)
  const over = builder.addCol(-FARMER.beetPriceOverQuota, 0, 20_000)
  builder.addRow(0, ANY, [2, quota, over], [FARMER.yieldT[2] * factor, -1, -1])
  return builder.build()
}

const best = async (model: LinearModel) => (await solver.solve(model, { relGap: 0 })).objective

describe('the farmer of Birge & Louveaux', () => {
  const problem = farmer()

  test('recourse: 108,390 with 170, 80 and 250 acres', async () => {
    const { model } = extensiveForm(problem)
    const solved = await solver.solve(model)
    expect(-solved.objective).toBeCloseTo(FARMER.recourseProfit, 4)
    expect([...solved.values!.subarray(0, 3)]).toEqual(FARMER.recoursePlan.map((acres) => expect.closeTo(acres, 6)))
  })

  test('planning for the mean: 118,600 hoped for, 107,240 had; the stochastic solution is worth 1,150', async () => {
    const mean = await solver.solve(extensiveForm(forTheMean(problem)).model)
    expect(-mean.objective).toBeCloseTo(FARMER.meanValueProfit, 4)
    const plan = mean.values!.subarray(0, 3)
    expect([...plan]).toEqual(FARMER.meanValuePlan.map((acres) => expect.closeTo(acres, 6)))
    const had = -(await best(decided(problem, plan)))
    expect(had).toBeCloseTo(FARMER.profitOfMeanValuePlan, 4)
    expect(FARMER.recourseProfit - had).toBeCloseTo(FARMER.valueOfStochasticSolution, 4)
  })

  test('knowing the year: 115,405.56 on average; perfect information is worth 7,015.56', async () => {
    const each = await Promise.all(problem.scenarios.map((_, s) => best(knowing(problem, s))))
    expect(each.map((loss) => -loss)).toEqual(FARMER.knowingProfit.map((profit) => expect.closeTo(profit, 2)))
    const waitAndSee = -each.reduce((sum, loss) => sum + loss / 3, 0)
    expect(waitAndSee).toBeCloseTo(FARMER.waitAndSeeProfit, 2)
    expect(waitAndSee - FARMER.recourseProfit).toBeCloseTo(FARMER.valueOfPerfectInformation, 2)
  })

  test("the solver's prices prove its optimum without it; prices found without it come near", async () => {
    const { model } = extensiveForm(problem)
    const solved = await solver.solve(model)
    expect(-dualBound(model, solved.rowPrices!)).toBeCloseTo(FARMER.recourseProfit, 4)
    const own = -ascend(model, 4000).bound
    expect(own).toBeGreaterThanOrEqual(FARMER.recourseProfit - 1e-6)
    expect(own).toBeLessThan(FARMER.recourseProfit * 1.01)
  })

  test('the more averse, the better the worst year and the worse the mean', async () => {
    const worstAndMean = async (weight: number) => {
      const { model } = extensiveForm({ ...problem, aversion: { weight, tail: 1 / 3 } })
      const plan = (await solver.solve(model)).values!.subarray(0, 3)
      const each = await Promise.all(
        problem.scenarios.map(({ model }) => best(decided({ ...problem, scenarios: [{ chance: 1, model }] }, plan))),
      )
      return { worst: -Math.max(...each), mean: -each.reduce((sum, loss) => sum + loss / 3, 0) }
    }
    const neutral = await worstAndMean(0)
    const averse = await worstAndMean(1)
    expect(neutral.mean).toBeCloseTo(FARMER.recourseProfit, 4)
    expect(averse.mean).toBeLessThan(neutral.mean)
    expect(averse.worst).toBeGreaterThan(neutral.worst)
    // Of one who only thinks of the bad year: its known best, 59,950.
    expect(averse.worst).toBeCloseTo(FARMER.knowingProfit[2]!, 2)
  })
})

test('leaving wholeness out never raises the optimum', async () => {
  const builder = new ModelBuilder()
  const cols = [3, 5, 7].map((cost) => builder.addCol(-cost, 0, 1, 'whole'))
  builder.addRow(NONE, 7, cols, [2, 4, 5])
  const model = builder.build()
  expect(await best(relaxed(model))).toBeLessThanOrEqual(await best(model))
})
