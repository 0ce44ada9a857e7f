import { afterAll, describe, expect, test } from 'vitest'
import { orderWeek } from '#app/order-week.ts'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import { buildProblem, type FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { crewDays } from '#core/planning/optimiser/crew-days.ts'
import { keepsToday, liveMember, splitLists } from '#core/planning/optimiser/order.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { Recourse, type Visits } from '#core/planning/optimiser/recourse.ts'
import { weekView } from '#core/planning/optimiser/week-view.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import {
  DATE,
  planInput,
  randomFarmInput,
  smallFarm,
  smallField,
  smallOutfit,
  smallOutlook,
  TIME_ZONE,
} from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const OPTIONS = { trials: 120, explain: false } as const

/** Four fields for one outfit that gets through about two a day; weather that differs between the courses. */
function tightFarm(): FarmPlanInput {
  const fields = ['a', 'b', 'c', 'd'].map((id, k) => smallField(id, { areaHa: 25 + 5 * k }))
  const outlooks = fields
    .flatMap(partsOf)
    .map((part, k) =>
      smallOutlook(
        part,
        5,
        4,
        (hour, day, course) => ({ fit: hour >= 10 + k && hour < 19 && (day + course) % 4 !== 3, moistureWb: 12 }),
        0.003 + 0.004 * ((k * 2) % 3),
      ),
    )
  return planInput(smallFarm(fields, [smallOutfit('outfit')]), outlooks)
}

function prepared(input: FarmPlanInput) {
  const farmProblem = buildProblem(input)
  return { p: farmProblem.problem, recourse: new Recourse(farmProblem.problem), days: crewDays(input, farmProblem) }
}

describe("today's lists", () => {
  test('are one decision: what any member cuts today is what it cuts living the same lists, and no more', async () => {
    let todays = 0
    for (let seed = 1; seed <= 25; seed++) {
      const { p, recourse, days } = prepared(randomFarmInput(seed))
      if (p.jobs.length === 0) continue
      const none: Visits = p.crews.map(() => [])
      const { lists, cuts } = await orderWeek(recourse, days, none, solver, OPTIONS)
      expect(keepsToday(p, lists)).toBe(true)
      for (const [m, day] of days.entries()) {
        const lived = new Map<string, number>()
        liveMember(recourse, day, lists, m, ({ crew, job, ha }) => {
          lived.set(`${crew}/${job}`, (lived.get(`${crew}/${job}`) ?? 0) + ha)
        })
        const told = new Map<string, number>()
        for (const { pool, job, block, ha } of cuts[m]!) {
          if (p.blocks[block]!.day > 0) continue
          const key = `${pool.crews[0]}/${job}`
          told.set(key, (told.get(key) ?? 0) + ha)
        }
        expect([...told.keys()].sort()).toEqual([...lived.keys()].sort())
        for (const [key, ha] of lived) expect(told.get(key)).toBeCloseTo(ha, 6)
        todays += told.size
      }
    }
    expect(todays).toBeGreaterThan(100)
  })

  test('are the best of all there are, on a farm small enough to try them all', async () => {
    const { p, recourse, days } = prepared(tightFarm())
    const { lists, loss, today } = await orderWeek(recourse, days, [[]], solver, { ...OPTIONS, trials: 400 })
    const all = (left: readonly number[]): number[][] => [
      [],
      ...left.flatMap((job) => all(left.filter((j) => j !== job)).map((rest) => [job, ...rest])),
    ]
    const every = all([...p.jobs.keys()])
    expect(every).toHaveLength(65)
    const losses: number[] = []
    for (const list of every) {
      const one = await orderWeek(recourse, days, [list], solver, { ...OPTIONS, trials: 0 })
      losses.push(one.loss)
    }
    expect(lists[0]!.length).toBeGreaterThan(0)
    expect(loss).toBeLessThanOrEqual(Math.min(...losses) * 1.0001)
    expect(
      today.lossAfter(
        Float64Array.from(p.jobs, () => 0),
        0,
      ),
    ).toBeLessThan(1e-6)
  })

  test('hold fast to pins, and put no more crews in a field than fit', async () => {
    const base = tightFarm()
    const pins = [{ partKey: 'd', date: DATE }]
    const pinned = prepared({ ...base, rules: { ...NO_RULES, pins } })
    const { lists } = await orderWeek(pinned.recourse, pinned.days, [[3]], solver, OPTIONS)
    expect(lists[0]![0]).toBe(3)
    expect(keepsToday(pinned.p, [[0, 3]])).toBe(false)
    expect(keepsToday(pinned.p, [[0]])).toBe(false)
    const two = smallFarm(base.farm.fields, [smallOutfit('one'), smallOutfit('two')])
    const { p } = prepared({ ...base, farm: two, rules: { ...NO_RULES, outfitsPerField: 1 } })
    expect(keepsToday(p, [[0], [0]])).toBe(false)
    expect(keepsToday(p, [[0], [1, 2]])).toBe(true)
  })

  test('named are the places that are likely to be got to; what comes after stands by', () => {
    const { p } = prepared(tightFarm())
    const cut = (job: number) => ({ pool: { crews: [0] }, job, block: 0, ha: 1 })
    const cuts = [[cut(1), cut(0)], [cut(1), cut(0)], [cut(1)], [cut(2)]]
    expect(splitLists(p, [[1, 0, 2]], cuts)).toEqual({ visits: [[1, 0]], backups: [[2]] })
  })
})

describe('the week told', () => {
  test('agrees with the plan: nothing is likely cut today but what the lists name, and the areas add up', async () => {
    for (const input of [tightFarm(), randomFarmInput(4), randomFarmInput(9), randomFarmInput(12)]) {
      for (const by of [solver, undefined]) {
        const plan = await planWeek(input, by, { trials: 60, orderTrials: 60, explain: false })
        const view = weekView(plan, input.outlooks, input.standingHa, TIME_ZONE)
        const named = new Set([...plan.visits, ...plan.backups].map(({ partKey }) => partKey))
        for (const { partKey, days, leftHa, areaHa } of view.parts) {
          const [today] = days
          if (!named.has(partKey)) expect(today!.cutChance).toBe(0)
          const cutHa = days.reduce((sum, { meanHa }) => sum + meanHa, 0)
          if (areaHa > 0.2) expect(cutHa + leftHa).toBeCloseTo(areaHa, 1)
        }
        const likely = view.parts.filter(({ days }) => days[0]!.cutChance >= 0.5).map(({ partKey }) => partKey)
        const visits = plan.visits.map(({ partKey }) => partKey)
        expect(visits).toEqual(expect.arrayContaining(likely))
      }
    }
  })
})
