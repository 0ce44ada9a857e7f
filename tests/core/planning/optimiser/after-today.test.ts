import { afterAll, describe, expect, test } from 'vitest'
import { AfterToday } from '#core/planning/optimiser/after-today.ts'
import { objectiveOf } from '#core/planning/optimiser/linear/linear-model.ts'
import { seededRandom } from '#core/units/random.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { randomPlan } from '#tests/support/random-plan.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

describe('what the days after today lose', () => {
  const problem = randomPlan({ seed: 3, jobs: 8, days: 6, crews: 2, members: 4 })
  const { jobs, members } = problem
  const random = seededRandom(11)
  const someLeft = () =>
    Float64Array.from({ length: jobs.length * members }, (_, i) => {
      const share = random.uniform()
      return share < 0.2 ? 0 : jobs[Math.floor(i / members)]!.areaHa * Math.min(1, share * 1.3)
    })
  const ofMember = (leftHa: Float64Array, m: number) => Float64Array.from(jobs, (_, j) => leftHa[j * members + m]!)

  test('a tangent touches the optimum where it was taken and lies nowhere above it (Van Slyke & Wets 1969)', async () => {
    const after = new AfterToday(problem)
    const other = new AfterToday(problem)
    for (let round = 0; round < 12; round++) {
      const leftHa = someLeft()
      const model = after.modelFor(leftHa)
      const { values, rowPrices, objective } = await solver.solve(model)
      const truth = other.learn(leftHa, values!, rowPrices!)
      expect(truth.reduce((sum, loss) => sum + loss, 0)).toBeCloseTo(objective, 4)
      expect(objectiveOf(model, values!)).toBeCloseTo(objective, 6)
      if (round > 0) {
        for (let m = 0; m < members; m++) {
          expect(after.lossOf(ofMember(leftHa, m), m)).toBeLessThanOrEqual(truth[m]! + 1e-4)
        }
      }
      after.learn(leftHa, values!, rowPrices!)
      for (let m = 0; m < members; m++) expect(after.lossOf(ofMember(leftHa, m), m)).toBeCloseTo(truth[m]!, 3)
    }
  })

  test('it cuts nothing today, and no more than is left', async () => {
    const after = new AfterToday(problem)
    const leftHa = someLeft()
    const { values } = await solver.solve(after.modelFor(leftHa))
    let cutHa = 0
    for (const [m, list] of after.cutsOf(values!).entries()) {
      const cut = new Float64Array(jobs.length)
      for (const { job, block, ha } of list) {
        expect(problem.blocks[block]!.day).toBeGreaterThan(0)
        cut[job]! += ha
        cutHa += ha
      }
      for (const j of jobs.keys()) expect(cut[j]!).toBeLessThanOrEqual(leftHa[j * members + m]! + 1e-6)
    }
    expect(cutHa).toBeGreaterThan(0)
  })
})
