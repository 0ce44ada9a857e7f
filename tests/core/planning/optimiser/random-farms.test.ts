import { afterAll, describe, expect, test } from 'vitest'
import { solveProblem } from '#app/plan-week.ts'
import { planByHand } from '#core/planning/optimiser/by-hand.ts'
import { brokenRules } from '#core/planning/optimiser/check-solution.ts'
import { dualBound } from '#core/planning/optimiser/linear/dual-bound.ts'
import { relaxed } from '#core/planning/optimiser/linear/linear-model.ts'
import { decided, extensiveForm } from '#core/planning/optimiser/linear/two-stage.ts'
import { planModel } from '#core/planning/optimiser/model.ts'
import type { Pin, PlanProblem } from '#core/planning/optimiser/problem.ts'
import type { Amount } from '#core/planning/optimiser/recourse.ts'
import { startFrom } from '#core/planning/optimiser/solution.ts'
import { seededRandom } from '#core/units/random.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { randomPlan } from '#tests/support/random-plan.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

/** A small random farm with rules of all kinds. */
function randomFarm(seed: number): PlanProblem {
  const random = seededRandom(seed * 7919)
  const whole = (least: number, most: number) => least + Math.floor(random.uniform() * (most - least + 1))
  const jobs = whole(1, 7)
  const crews = whole(1, 3)
  const days = whole(1, 5)
  const plan = randomPlan({ seed, jobs, days, crews, members: whole(1, 3) })
  const keptOff = plan.rules.keptOff.map(() => (random.uniform() < 0.08 ? 1 : 0))
  const pins: Pin[] = []
  if (random.uniform() < 0.4) {
    const [job, day] = [whole(0, jobs - 1), whole(0, days - 1)]
    const crew = random.uniform() < 0.5 ? -1 : whole(0, crews - 1)
    const possible = (c: number) => plan.haPerH[c * jobs + job]! > 0 && keptOff[job * days + day] === 0
    const fits = (c: number) =>
      plan.blocks.some((block, b) =>
        block.day === day
          ? Array.from({ length: plan.members }, (_, m) => m).some(
              (m) => plan.fitH[((c * jobs + job) * plan.blocks.length + b) * plan.members + m]! > 0,
            )
          : false,
      )
    const able = crew >= 0 ? possible(crew) && fits(crew) : [...plan.crews.keys()].some((c) => possible(c) && fits(c))
    if (able) pins.push({ job, day, crew, areaHa: plan.jobs[job]!.areaHa })
  }
  const noHead = (i: number) => random.uniform() < 0.15 && !pins.some(({ job }) => job === i % jobs)
  return {
    ...plan,
    buyers: [{ id: 'elevator', dailyT: random.uniform() < 0.3 ? 60 : Number.POSITIVE_INFINITY }],
    haPerH: plan.haPerH.map((rate, i) => (noHead(i) ? 0 : rate)),
    rules: {
      ...plan.rules,
      pins,
      keptOff,
      lastDay: plan.rules.lastDay.map(() => (random.uniform() < 0.2 ? whole(0, days - 1) : Number.POSITIVE_INFINITY)),
      crewsPerField: whole(1, 2),
      fieldsPerDay: whole(1, 4),
      promised: plan.rules.promised.map(() => (random.uniform() < 0.1 ? 100 : 0)),
      aversion: random.uniform() < 0.2 ? { weight: 0.5, tail: 0.3 } : undefined,
    },
  }
}

const FARMS = 2000

describe('plans of random farms', () => {
  test(`no plan of ${FARMS} breaks a rule, and no bound lies above a plan`, { timeout: 240_000 }, async () => {
    const met = { farms: 0, cutting: 0, today: 0, pinned: 0, keptOff: 0, late: 0, buyerFull: 0, noHead: 0, averse: 0 }
    for (let seed = 1; seed <= FARMS; seed++) {
      const problem = randomFarm(seed)
      const { found } = await solveProblem(problem, solver, { trials: 20 })
      expect({ seed, broken: brokenRules(problem, found.solution) }).toEqual({ seed, broken: [] })
      expect(found.status, `farm ${seed}`).not.toBe('fallback')
      expect(found.leastLoss).toBeLessThanOrEqual(found.loss + 1e-6)
      const { cuts, visits } = found.solution
      const { rules } = problem
      met.farms++
      if (cuts.some((list) => list.length > 0)) met.cutting++
      if (visits.some((list) => list.length > 0)) met.today++
      if (rules.pins.length > 0) met.pinned++
      if (rules.keptOff.includes(1)) met.keptOff++
      if (rules.lastDay.some(Number.isFinite)) met.late++
      if (Number.isFinite(problem.buyers[0]!.dailyT)) met.buyerFull++
      if (problem.haPerH.includes(0)) met.noHead++
      if (rules.aversion) met.averse++
      // Spoiled on purpose, each such plan is found out: the check sleeps on no farm.
      const [job] = visits.flat()
      const spoiled = { visits, cuts: cuts.map((list) => list.map((cut) => ({ ...cut, ha: cut.ha * 3 + 1 }))) }
      if (spoiled.cuts.some((list) => list.length > 0))
        expect(brokenRules(problem, spoiled), `farm ${seed}`).not.toEqual([])
      if (job !== undefined && cuts.some((list) => list.some((cut) => problem.blocks[cut.block]!.day === 0))) {
        const unsent = { visits: visits.map(() => []), cuts }
        expect(
          brokenRules(problem, unsent).map(({ rule }) => rule),
          `farm ${seed}`,
        ).toContain('no-visit')
      }
    }
    expect(met.farms).toBe(FARMS)
    expect(met.cutting).toBeGreaterThan(0.9 * FARMS)
    expect(met.today).toBeGreaterThan(0.5 * FARMS)
    for (const [kind, count] of Object.entries(met)) expect(count, kind).toBeGreaterThan(0.1 * FARMS)
  })

  test('what is followed by hand is a solution of the model: the solver, bound to its visits, loses no more', async () => {
    for (let seed = 1; seed <= 60; seed++) {
      const base = randomFarm(seed)
      const problem: PlanProblem = { ...base, rules: { ...base.rules, aversion: undefined, pins: [] } }
      const hand = planByHand(problem, 50)
      const cuts: Amount[][] = Array.from({ length: problem.members }, () => [])
      hand.recourse.follow(hand.visits, (m, amount) => cuts[m]!.push(amount))
      expect(brokenRules(problem, { visits: hand.visits, cuts })).toEqual([])
      const model = planModel(problem)
      const bound = await solver.solve(decided(model.stages, startFrom(model, hand.visits)))
      expect(bound.objective).toBeLessThanOrEqual(hand.loss + 1e-4)
    }
  })

  test("the solver's prices, put into the bound that needs no solver, give its optimum", async () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { model } = extensiveForm(planModel(randomFarm(seed)).stages)
      const linear = await solver.solve(relaxed(model))
      const own = dualBound(model, linear.rowPrices!)
      expect(Math.abs(own - linear.objective)).toBeLessThanOrEqual(1e-6 * Math.max(1, linear.objective))
    }
  })

  test('the same farm, the same plan, bit for bit', async () => {
    const problem = randomPlan({ seed: 5, jobs: 12, days: 6, crews: 2, members: 5 })
    const first = await solveProblem(problem, solver)
    const other = createHighsSolver()
    const second = await solveProblem(problem, other)
    await other.close()
    expect(second.found.loss).toBe(first.found.loss)
    expect(second.found.leastLoss).toBe(first.found.leastLoss)
    expect(second.found.solution).toEqual(first.found.solution)
  })

  test('without a solver: sound, and within 5 % of a bound of its own', async () => {
    for (const seed of [1, 2, 3]) {
      const problem = randomPlan({ seed, jobs: 15, days: 8, crews: 2, members: 8 })
      const { found } = await solveProblem(problem, undefined)
      expect(found.status).toBe('fallback')
      expect(brokenRules(problem, found.solution)).toEqual([])
      expect((found.loss - found.leastLoss) / found.loss).toBeLessThan(0.05)
    }
  })
})
