import { afterAll, describe, expect, test } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { costOfPins, replan, worthOfMore } from '#app/replan.ts'
import { weekJson, weekText } from '#app/week-text.ts'
import { partsOf } from '#core/field/parts.ts'
import { applyChanges, differenceOf } from '#core/planning/optimiser/changes.ts'
import { promisedFor, recordPlan } from '#core/planning/optimiser/plan-record.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { weekView } from '#core/planning/optimiser/week-view.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import {
  DATE,
  MORNING,
  planInput,
  smallFarm,
  smallField,
  smallOutfit,
  smallOutlook,
  TIME_ZONE,
} from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

const fields = ['north', 'south', 'east', 'west'].map((id, k) => smallField(id, { areaHa: 45 + 5 * k }))
const farm = smallFarm(fields, [smallOutfit('outfit')])
const outlooks = fields.flatMap(partsOf).map((part, k) =>
  smallOutlook(
    part,
    6,
    6,
    (hour, day, course) => ({
      fit: hour >= 11 && hour < 19 && (day + course) % 3 !== 2,
      moistureWb: 12,
    }),
    0.002 + 0.004 * k,
  ),
)
const input = planInput(farm, outlooks, { days: 6, members: 6 })

describe("the planner's loop", () => {
  test('a pin moves fields, costs money, and is told in the difference', async () => {
    const before = await planWeek(input, solver)
    const [first] = before.visits
    const other = fields.find(({ id }) => id !== first!.partKey && id !== 'west')!.id
    const pin = { partKey: other, date: DATE, outfitId: 'outfit' }
    const { plan, difference, input: next } = await replan(input, before, [{ kind: 'pin', pin }], solver)
    expect(plan.visits.some(({ partKey }) => partKey === other)).toBe(true)
    expect(difference.money).toBeLessThanOrEqual(before.gap * before.loss + 1)
    expect(difference.moved.every(({ was, now }) => was !== undefined || now !== undefined)).toBe(true)
    expect(await costOfPins(next, plan, solver)).toBeGreaterThanOrEqual(0)
  })

  test('another outfit never makes it worse, and more hours are worth something when hours are short', async () => {
    const before = await planWeek(input, solver)
    const change = { kind: 'add-outfit', outfit: smallOutfit('second') } as const
    const { difference } = await replan(input, before, [change], solver)
    expect(difference.money).toBeGreaterThan(0)
    const worths = await worthOfMore(planInput(farm, outlooks, { days: 6, members: 6 }), solver)
    expect(worths.map(({ what }) => what).sort()).toEqual(['cart', 'hour', 'truck'])
    for (const { money } of worths) expect(money).toBeGreaterThanOrEqual(0)
  })

  test('the same plan twice has no difference', async () => {
    const plan = await planWeek(input, solver)
    expect(differenceOf(plan, plan)).toEqual({ moved: [], money: 0, badMoney: 0 })
  })

  test('what was published is kept with its reason, and holds for its own day only', async () => {
    const plan = await planWeek(input, solver)
    const first = recordPlan(plan, MORNING, { kind: 'first' }, undefined)
    const second = recordPlan(plan, MORNING + 1, { kind: 'new-weather' }, first)
    expect(first.difference).toBeUndefined()
    expect(second.difference).toEqual({ moved: [], money: 0, badMoney: 0 })
    expect(promisedFor(DATE, second)).toEqual(plan.visits)
    expect(promisedFor(DATE.add({ days: 1 }), second)).toEqual([])
  })

  test('of two fields alike the one promised yesterday is kept; a field that gains much more takes its place', async () => {
    const alike = ['left', 'right'].map((id) => smallField(id, { areaHa: 70 }))
    const twin = smallFarm(alike, [smallOutfit('outfit', { trucks: [] })])
    const seen = (lossOfLeft: number) =>
      alike
        .flatMap(partsOf)
        .map((part) =>
          smallOutlook(
            part,
            4,
            3,
            (hour) => ({ fit: hour >= 12 && hour < 18, moistureWb: 12 }),
            part.key === 'left' ? lossOfLeft : 0.004,
          ),
        )
    const first = async (lossOfLeft: number, partKey: string) => {
      const rules = { ...NO_RULES, promised: [{ outfitId: 'outfit', partKey }], fieldsPerDay: 1 }
      const plan = await planWeek(planInput(twin, seen(lossOfLeft), { rules, days: 4, members: 3 }), solver)
      return plan.visits[0]!.partKey
    }
    expect(await first(0.004, 'left')).toBe('left')
    expect(await first(0.004, 'right')).toBe('right')
    expect(await first(0.04, 'right')).toBe('left')
  })

  test('changes are made on a copy; what is not there changes nothing', () => {
    const start = { farm, rules: NO_RULES }
    const changed = applyChanges(start, [
      { kind: 'hours', outfitId: 'outfit', startMinute: 300, endMinute: 1400 },
      { kind: 'add-truck', outfitId: 'outfit', truck: farm.outfits[0]!.trucks[0]! },
      { kind: 'pin', pin: { partKey: 'north', date: DATE } },
      { kind: 'pin', pin: { partKey: 'north', date: DATE.add({ days: 1 }) } },
      { kind: 'drop-outfit', outfitId: 'nobody' },
    ])
    expect(changed.farm.outfits[0]!.crewHours).toEqual({ startMinute: 300, endMinute: 1400 })
    expect(changed.farm.outfits[0]!.trucks).toHaveLength(4)
    expect(changed.rules.pins).toHaveLength(1)
    expect(farm.outfits[0]!.trucks).toHaveLength(3)
    expect(applyChanges(changed, [{ kind: 'unpin', partKey: 'north' }]).rules.pins).toEqual([])
  })

  test('the week view: chances are chances, areas add up, words and JSON come out', async () => {
    const plan = await planWeek(input, solver)
    const view = weekView(plan, outlooks, input.standingHa, TIME_ZONE)
    expect(view.parts).toHaveLength(fields.length)
    for (const part of view.parts) {
      const cut = part.days.reduce((sum, { meanHa }) => sum + meanHa, 0)
      expect(cut + part.leftHa).toBeCloseTo(part.areaHa, 1)
      for (const { fitChance, cutChance } of part.days) {
        expect(fitChance).toBeGreaterThanOrEqual(cutChance > 0 ? Number.MIN_VALUE : 0)
        expect(fitChance).toBeLessThanOrEqual(1)
        expect(cutChance).toBeLessThanOrEqual(1 + 1e-9)
      }
    }
    const text = weekText(view, plan, farm)
    for (const { name } of fields) expect(text).toContain(name)
    expect(text).not.toMatch(/NaN|undefined/)
    expect(JSON.parse(JSON.stringify(weekJson(view, plan)))).toMatchObject({ from: DATE.toString() })
  })
})
