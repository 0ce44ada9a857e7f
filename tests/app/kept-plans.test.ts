import { beforeEach, describe, expect, it } from 'vitest'
import { decide } from '#app/decisions.ts'
import { decidedBy, keepPlan } from '#app/kept-plans.ts'
import type { PlanStore } from '#app/plan-store.ts'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import type { ChangeReason } from '#core/planning/optimiser/plan-record.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { openAt } from '#edges/storage/open.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { memoryBook } from '#tests/app/support/book.ts'
import {
  DATE,
  MORNING,
  planInput,
  smallFarm,
  smallField,
  smallOutfit,
  smallOutlook,
} from '#tests/support/small-outlook.ts'

const fields = ['north', 'south'].map((id) => smallField(id))
const farm = smallFarm(fields, [smallOutfit('outfit')])
const outlooks = fields
  .flatMap(partsOf)
  .map((part) => smallOutlook(part, 4, 3, (hour) => ({ fit: hour >= 10 && hour < 20, moistureWb: 12 })))
const week: WeekPlan = await planWeek(planInput(farm, outlooks, { days: 4, members: 3 }), undefined)

let plans: PlanStore
beforeEach(async () => {
  plans = planStore(await openAt<PlanTables>(':memory:'))
})
const keep = async (of: WeekPlan, atEpochH: number, why?: ChangeReason) =>
  await keepPlan(farm.id, of, atEpochH, { plans, last: await plans.last(farm.id), why })
/** The same plan with another first visit. */
const turned: WeekPlan = {
  ...week,
  value: week.value - 50,
  visits: [{ outfitId: 'outfit', partKey: week.visits[0]!.partKey === 'north' ? 'south' : 'north' }],
}
const onDay = (of: WeekPlan, date: Temporal.PlainDate): WeekPlan => ({ ...of, day: { ...of.day, date } })

describe('published plans', () => {
  it('are kept when they say something new, each with its reason', async () => {
    expect(await keep(week, MORNING)).toEqual({ kind: 'first' })
    expect(await keep(week, MORNING + 1)).toBeUndefined()
    expect(await keep(turned, MORNING + 2)).toEqual({ kind: 'new-weather' })
    expect(await keep(week, MORNING + 3, { kind: 'progress', partKey: 'north' })).toEqual({
      kind: 'progress',
      partKey: 'north',
    })
    expect(await keep(onDay(week, DATE.add({ days: 1 })), MORNING + 24)).toEqual({ kind: 'new-morning' })
    const kept = await plans.history(farm.id, 9)
    expect(kept.map(({ reason }) => reason.kind)).toEqual(['new-morning', 'progress', 'new-weather', 'first'])
    expect(kept.map(({ difference }) => difference?.money)).toEqual([0, 50, -50, undefined])
  })

  it('that say nothing new are not kept, whoever asked for them', async () => {
    await keep(week, MORNING)
    expect(await keep(week, MORNING + 1, { kind: 'planner', changes: [], personId: 'ann' })).toBeUndefined()
    expect(await plans.history(farm.id, 9)).toHaveLength(1)
  })
})

describe('what a plan is made for', () => {
  it('is the farm and the rules as decisions leave them, with what was promised for this day', async () => {
    const book = await memoryBook()
    const at = book.nowEpochH
    const today = Temporal.PlainDate.from('2010-09-20')
    const pin = { partKey: 'alpha', date: today.add({ days: 2 }) }
    await decide(book, { kind: 'pin', pin }, 'ann')
    await decide(book, { kind: 'days-off', outfitId: 'outfit', daysOff: [7] }, 'ann')
    await keep(onDay(week, today), at - 1)
    const last = await plans.last(farm.id)
    const { farm: decided, rules } = await decidedBy(book.farm, at, last, book.store)
    expect(rules.pins.map(({ partKey, date }) => `${partKey} ${date.toString()}`)).toEqual(['alpha 2010-09-22'])
    expect(decided.outfits[0]!.daysOff).toEqual([7])
    expect(rules.promised).toEqual(week.visits)
    // Tomorrow nothing is promised yet.
    expect((await decidedBy(book.farm, at + 24, last, book.store)).rules.promised).toEqual([])
  })

  it('is the farm as it is without a book', async () => {
    expect((await decidedBy(farm, MORNING, undefined, undefined)).farm).toBe(farm)
  })
})
