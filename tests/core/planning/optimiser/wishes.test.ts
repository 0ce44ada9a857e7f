import { afterAll, describe, expect, test } from 'vitest'
import { orderWeek } from '#app/order-week.ts'
import { planWeek } from '#app/plan-week.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import { differenceOf } from '#core/planning/optimiser/changes.ts'
import { crewDays } from '#core/planning/optimiser/crew-days.ts'
import { laterMovePerHa, usualMoveH } from '#core/planning/optimiser/moves.ts'
import { brokenPromises, liveMember } from '#core/planning/optimiser/order.ts'
import { NO_RULES, type PlanRules } from '#core/planning/optimiser/plan-rules.ts'
import { poolCostPerHa } from '#core/planning/optimiser/pools.ts'
import { bestPerHa, jbm, type PlanProblem } from '#core/planning/optimiser/problem.ts'
import { Recourse, type Visits } from '#core/planning/optimiser/recourse.ts'
import type { CutHa } from '#core/planning/optimiser/solution.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { DATE, randomFarmInput } from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const day = (n: number) => DATE.add({ days: n })

/** Wishes that can hardly all be heard. */
function wishing(keys: readonly string[], outfitId: string): PlanRules {
  return {
    ...NO_RULES,
    pins: keys.slice(0, 3).map((partKey) => ({ partKey, date: day(1) })),
    deadlines: keys.slice(1, 4).map((partKey) => ({ partKey, date: day(1) })),
    promised: keys.slice(2).map((partKey) => ({ outfitId, partKey })),
  }
}

/** Money lost after today, counted cut by cut from what each hectare brings, without any weight. */
function moneyLostLater(p: PlanProblem, cuts: readonly CutHa[], m: number): number {
  const [best, usual] = [bestPerHa(p), usualMoveH(p)]
  const leftHa = p.jobs.map(({ areaHa }) => areaHa)
  let lost = 0
  for (const { pool, job, block, ha } of cuts) {
    leftHa[job]! -= ha
    if (p.blocks[block]!.day === 0) continue
    const brings = p.valuePerHa[jbm(p, job, block, m)]! - poolCostPerHa(p, pool, job) - laterMovePerHa(p, usual, job)
    lost += ha * (best[job * p.members + m]! - brings)
  }
  for (const [job, ha] of leftHa.entries()) {
    const brings = p.leftPerHa[job * p.members + m]! - laterMovePerHa(p, usual, job)
    lost += Math.max(0, ha) * (best[job * p.members + m]! - brings)
  }
  return lost
}

describe('the weight of wishes', () => {
  test('is all that a loss holds beside money, member by member, with a solver and without', async () => {
    let weighed = 0
    for (let seed = 1; seed <= 20; seed++) {
      const free = randomFarmInput(seed)
      const keys = free.outlooks.map(({ part }) => part.key)
      const outfit = free.farm.outfits[0]
      if (!outfit || keys.length === 0) continue
      const input = { ...free, rules: wishing(keys, outfit.id) }
      const farmProblem = buildProblem(input)
      const { problem: p } = farmProblem
      const [recourse, days] = [new Recourse(p), crewDays(input, farmProblem)]
      const none: Visits = p.crews.map(() => [])
      for (const by of [solver, undefined]) {
        const { lists, cuts, lossByMember, wishesByMember } = await orderWeek(recourse, days, none, by, {
          trials: 40,
          explain: false,
        })
        for (const [m, one] of days.entries()) {
          const today = liveMember(recourse, one, lists, m).loss - brokenPromises(p, lists)
          const money = today + moneyLostLater(p, cuts[m]!, m)
          expect(lossByMember[m]! - wishesByMember[m]!).toBeCloseTo(money, 2)
          if (wishesByMember[m]! > 0) weighed++
        }
      }
    }
    expect(weighed).toBeGreaterThan(50)
  })

  test('is nothing where nothing is wished', async () => {
    for (let seed = 1; seed <= 5; seed++) {
      const plan = await planWeek({ ...randomFarmInput(seed), rules: NO_RULES }, solver, { explain: false })
      expect(plan.wishes!.mean).toBe(0)
      expect(plan.wishes!.bad).toBeCloseTo(0, 6)
    }
  })

  test('is left out of what two plans differ by', async () => {
    const plan = await planWeek({ ...randomFarmInput(3), rules: NO_RULES }, solver, { explain: false })
    const heavier = { ...plan, value: plan.value - 500, loss: plan.loss + 500, badLoss: plan.badLoss + 900 }
    const same = differenceOf(plan, { ...heavier, wishes: { mean: 500, bad: 900 } })
    expect(same.money).toBeCloseTo(0, 6)
    expect(same.badMoney).toBeCloseTo(0, 6)
    expect(differenceOf(plan, { ...heavier, wishes: { mean: 200, bad: 900 } }).money).toBeCloseTo(-300, 6)
  })
})
