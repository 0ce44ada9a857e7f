import { afterAll, describe, expect, test } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import { HOLDBACK_BIT } from '#core/outlook/holdback.ts'
import { buildProblem, type FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { crewDays } from '#core/planning/optimiser/crew-days.ts'
import { livedLoss } from '#core/planning/optimiser/order.ts'
import { bestValue } from '#core/planning/optimiser/problem.ts'
import { Recourse } from '#core/planning/optimiser/recourse.ts'
import { priceRules, ruleLists, SIMPLE_RULES, type SimpleRule } from '#core/planning/optimiser/simple-rules.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import {
  dryFrom,
  planInput,
  randomFarmInput,
  smallFarm,
  smallField,
  smallOutfit,
  smallOutlook,
} from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

/** Far and driest; near and ripe longest; in between, and what loses most by waiting. */
const PLACES = [
  { id: 'far', lonDeg: -88.4, wb: 10.5, lossPerDay: 0.002, lost: 0.01 },
  { id: 'near', lonDeg: -88.01, wb: 12.5, lossPerDay: 0.004, lost: 0.05 },
  { id: 'between', lonDeg: -88.2, wb: 11.5, lossPerDay: 0.03, lost: 0.02 },
] as const

function threeFields(): FarmPlanInput {
  const fields = PLACES.map(({ id, lonDeg }) => smallField(id, { centre: { latDeg: 40, lonDeg } }))
  const outlooks = fields.flatMap(partsOf).map((part, k) => {
    const { wb, lossPerDay, lost } = PLACES[k]!
    const outlook = smallOutlook(part, 4, 3, dryFrom(10, 20, wb), lossPerDay)
    return { ...outlook, standingLoss: outlook.standingLoss.map((loss) => loss + lost) }
  })
  return planInput(smallFarm(fields, [smallOutfit('outfit')]), outlooks)
}

const orderBy = (rule: SimpleRule, input: FarmPlanInput): string[] => {
  const farmProblem = buildProblem(input)
  return ruleLists(rule, input, farmProblem)[0]!.map((j) => farmProblem.problem.jobs[j]!.key)
}

describe('simple rules', () => {
  test('order three fields as their names say', () => {
    const input = threeFields()
    expect(orderBy('ripest-first', input)).toEqual(['near', 'between', 'far'])
    expect(orderBy('driest-first', input)).toEqual(['far', 'between', 'near'])
    expect(orderBy('nearest-first', input)).toEqual(['near', 'between', 'far'])
    expect(orderBy('fixed-order', input)).toEqual(['far', 'near', 'between'])
    expect(orderBy('greedy-by-dollars', input)[0]).toBe('between')
  })

  test('ripest first puts what is not ripe in most courses last, and nearest first starts where the outfit stands', () => {
    const input = threeFields()
    const [far, near, between] = input.outlooks
    const green = { ...near!, holdbackBits: near!.holdbackBits.map((bits) => bits | HOLDBACK_BIT.unripe) }
    // Fit hours elsewhere in its days keep it visitable: only the first hour says whether it is ripe now.
    const fresh = {
      ...near!,
      holdbackBits: near!.holdbackBits.map((b, i) => (i % near!.hours === 0 ? green.holdbackBits[i]! : b)),
    }
    expect(orderBy('ripest-first', { ...input, outlooks: [far!, fresh, between!] }).at(-1)).toBe('near')
    const at = new Map([['outfit', far!.part]])
    expect(orderBy('nearest-first', { ...input, at })).toEqual(['far', 'between', 'near'])
  })

  test('are priced by living the day: the same as the lists lived one by one', () => {
    const input = threeFields()
    const farmProblem = buildProblem(input)
    const recourse = new Recourse(farmProblem.problem)
    const days = crewDays(input, farmProblem)
    const prices = priceRules(input, farmProblem, {
      recourse,
      days,
      lossAfter: (leftHa, m) => recourse.lossAfterToday(leftHa, m),
    })
    expect(prices.map(({ rule }) => rule)).toEqual([...SIMPLE_RULES])
    for (const { rule, loss, value } of prices) {
      expect(loss).toBeCloseTo(livedLoss(recourse, days, ruleLists(rule, input, farmProblem)), 9)
      expect(value + loss).toBeCloseTo(bestValue(farmProblem.problem), 6)
    }
    // Cut last, the field that loses 3 % a day costs more than cut first.
    const lossOf = (rule: SimpleRule) => prices.find((price) => price.rule === rule)!.loss
    expect(lossOf('fixed-order')).toBeGreaterThan(lossOf('greedy-by-dollars'))
  })

  test('never beat the plan by its own measure, where a single outfit may go by any of them', async () => {
    let saves = 0
    for (let seed = 1; seed <= 60 && saves < 12; seed++) {
      const input = randomFarmInput(seed)
      if (input.farm.outfits.length > 1 || input.rules.pins.length + input.rules.promised.length > 0) continue
      const plan = await planWeek(input, solver, { trials: 60, orderTrials: 60 })
      for (const { loss } of plan.against!) {
        expect(plan.loss).toBeLessThanOrEqual(loss + 1e-6)
        if (loss > plan.loss + 1) saves++
      }
    }
    expect(saves).toBeGreaterThan(5)
  })

  test('are priced in a tenth of a second on a farm of 15 fields, 14 days and 20 members', () => {
    const fields = Array.from({ length: 15 }, (_, k) =>
      smallField(`f${k}`, { areaHa: 30 + k, centre: { latDeg: 40 + k / 100, lonDeg: -88 } }),
    )
    const outlooks = fields.flatMap(partsOf).map((part, k) =>
      smallOutlook(part, 14, 20, (hour, day, c) => ({
        fit: hour > 10 && hour < 20 && (day + c + k) % 4 > 0,
        moistureWb: 12,
      })),
    )
    const input = planInput(smallFarm(fields, [smallOutfit('one'), smallOutfit('two')]), outlooks, {
      days: 14,
      members: 20,
    })
    const farmProblem = buildProblem(input)
    const recourse = new Recourse(farmProblem.problem)
    const today = {
      recourse,
      days: crewDays(input, farmProblem),
      lossAfter: (leftHa: Float64Array, m: number) => recourse.lossAfterToday(leftHa, m),
    }
    priceRules(input, farmProblem, today)
    const took = Array.from({ length: 5 }, () => {
      const begun = performance.now()
      priceRules(input, farmProblem, today)
      return performance.now() - begun
    })
    expect(Math.min(...took)).toBeLessThan(100)
  })
})
