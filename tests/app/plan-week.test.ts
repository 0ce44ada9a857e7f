import { afterAll, describe, expect, test } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import type { Solver } from '#app/solver-port.ts'
import { SolverFailure } from '#app/solver-port.ts'
import { partsOf } from '#core/field/parts.ts'
import { brokenDayRules } from '#core/planning/optimiser/check-day.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import {
  DATE,
  dryFrom,
  MIDNIGHT,
  planInput,
  randomFarmInput,
  smallFarm,
  smallField,
  smallOutfit,
  smallOutlook,
} from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const QUICK = { trials: 60, orderTrials: 40, explain: false } as const

describe('the week planned', () => {
  test('timed runs of 400 random farms break no rule of the farm, by a check of their own', {
    timeout: 240_000,
  }, async () => {
    let runs = 0
    for (let seed = 1; seed <= 400; seed++) {
      const input = randomFarmInput(seed)
      const plan = await planWeek(input, solver, QUICK)
      const rules = plan.conflict.length > 0 ? { ...input.rules, pins: [] } : input.rules
      expect({ seed, broken: brokenDayRules(plan.day, { ...input, rules }) }).toEqual({ seed, broken: [] })
      expect(plan.leastLoss).toBeLessThanOrEqual(plan.loss + 1e-6)
      runs += plan.day.runs.length
    }
    expect(runs).toBeGreaterThan(400)
  })

  test('of two fields the one that falls faster is cut first, and the reason says so', async () => {
    const fields = [smallField('slow', { areaHa: 60 }), smallField('fast', { areaHa: 60 })]
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const outlooks = fields.flatMap(partsOf).map((part) =>
      // The last two days are wet: what is not cut in the first two is late.
      smallOutlook(
        part,
        5,
        4,
        (hour, day) => (day < 2 ? dryFrom(10, 20)(hour) : { fit: false, moistureWb: 17 }),
        part.key === 'fast' ? 0.02 : 0.001,
      ),
    )
    const plan = await planWeek(planInput(farm, outlooks), solver)
    expect(plan.day.runs[0]!.part.key).toBe('fast')
    const choice = plan.choices.find(({ partKey }) => partKey === 'fast')
    if (choice?.instead) expect(choice.instead.costs).toBeGreaterThanOrEqual(-plan.gap * plan.loss - 1)
    expect(plan.status).toBe('proven')
  })

  test('a pin is kept although it costs; a field kept off is not touched', async () => {
    const fields = [smallField('one', { areaHa: 60 }), smallField('two', { areaHa: 60 })]
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const outlooks = fields
      .flatMap(partsOf)
      .map((part) => smallOutlook(part, 5, 4, dryFrom(10, 20), part.key === 'one' ? 0.02 : 0.001))
    const pinned = await planWeek(
      planInput(farm, outlooks, { rules: { ...NO_RULES, pins: [{ partKey: 'two', date: DATE }] } }),
      solver,
    )
    expect(pinned.day.runs.some(({ part }) => part.key === 'two')).toBe(true)
    expect(pinned.choices.find(({ partKey }) => partKey === 'two')?.reason).toBe('pinned')
    const off = await planWeek(
      planInput(farm, outlooks, { rules: { ...NO_RULES, keepOffs: [{ partKey: 'one', from: DATE, to: DATE }] } }),
      solver,
    )
    expect(off.day.runs.every(({ part }) => part.key !== 'one')).toBe(true)
  })

  test('pins that ask for too much are named, the smallest set of them, and a plan comes all the same', async () => {
    const fields = ['a', 'b', 'c'].map((id) => smallField(id, { areaHa: id === 'c' ? 5 : 35 }))
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const outlooks = fields.flatMap(partsOf).map((part) => smallOutlook(part, 5, 4, dryFrom(10, 20)))
    const pins = fields.map(({ id }) => ({ partKey: id, date: DATE }))
    const plan = await planWeek(planInput(farm, outlooks, { rules: { ...NO_RULES, pins } }), solver)
    expect(plan.conflict.map(({ partKey, because }) => `${partKey}: ${because}`)).toEqual([
      'a: not-enough-hours',
      'b: not-enough-hours',
    ])
    expect(plan.day.runs.length).toBeGreaterThan(0)
  })

  test('a pin on the crew’s day off is a conflict of its own', async () => {
    const fields = [smallField('a')]
    const farm = smallFarm(fields, [smallOutfit('outfit', { daysOff: [DATE.dayOfWeek] })])
    const outlooks = fields.flatMap(partsOf).map((part) => smallOutlook(part, 5, 4, dryFrom(10, 20)))
    const rules = { ...NO_RULES, pins: [{ partKey: 'a', date: DATE }] }
    const plan = await planWeek(planInput(farm, outlooks, { rules }), solver)
    expect(plan.conflict.map(({ because }) => because)).toEqual(['day-off'])
    expect(plan.day.runs).toEqual([])
  })

  test('when the solver breaks down the plan is made by hand, and says so', async () => {
    const broken: Solver = { solve: () => Promise.reject(new SolverFailure('out of memory')) }
    const input = randomFarmInput(7)
    const plan = await planWeek(input, broken, QUICK)
    expect(plan.status).toBe('fallback')
    expect(brokenDayRules(plan.day, input)).toEqual([])
  })

  test('nothing standing, nothing planned', async () => {
    const fields = [smallField('a')]
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const outlooks = fields.flatMap(partsOf).map((part) => smallOutlook(part, 3, 4, dryFrom(10, 20)))
    const plan = await planWeek(planInput(farm, outlooks, { standingHa: new Map([['a', 0]]) }), solver)
    expect(plan.day.runs).toEqual([])
    expect(plan.loss).toBe(0)
  })

  test('an aborted request rejects with its reason', async () => {
    const input = planInput(
      smallFarm([smallField('a')], [smallOutfit('outfit')]),
      partsOf(smallField('a')).map((part) => smallOutlook(part, 3, 4, dryFrom(10, 20))),
    )
    const signal = AbortSignal.abort(new Error('newer request'))
    await expect(planWeek(input, solver, { signal })).rejects.toThrow('newer request')
  })

  test('the check bites: each rule broken on purpose is found', async () => {
    const fields = [smallField('a', { areaHa: 60 }), smallField('b', { centre: { latDeg: 40.3, lonDeg: -88 } })]
    const farm = smallFarm(fields, [smallOutfit('outfit')])
    const outlooks = fields.flatMap(partsOf).map((part) => smallOutlook(part, 5, 4, dryFrom(10, 20)))
    const input = planInput(farm, outlooks)
    const plan = await planWeek(input, solver, QUICK)
    const [run] = plan.day.runs
    const with_ = (changed: Partial<NonNullable<typeof run>>, more = {}) =>
      brokenDayRules({ ...plan.day, runs: [{ ...run!, ...changed }] }, { ...input, ...more }).map(({ rule }) => rule)
    expect(with_({})).toEqual([])
    expect(with_({ areaHa: Number.NaN })).toContain('not-a-number')
    expect(with_({ areaHa: 500 })).toEqual(expect.arrayContaining(['too-fast', 'more-than-stands']))
    expect(with_({ startEpochH: MIDNIGHT + 8.5 })).toContain('not-fit')
    expect(with_({ endEpochH: MIDNIGHT + 22 })).toContain('outside-crew-hours')
    const off = { ...farm, outfits: [smallOutfit('outfit', { daysOff: [DATE.dayOfWeek] })] }
    expect(with_({}, { farm: off })).toContain('day-off')
    const shut = { ...farm, buyers: farm.buyers.map((buyer) => ({ ...buyer, closedOn: [DATE.dayOfWeek] })) }
    expect(with_({}, { farm: shut })).toContain('buyer-closed')
    const full = { ...farm, buyers: farm.buyers.map((buyer) => ({ ...buyer, dailyT: 1 })) }
    expect(with_({}, { farm: full })).toContain('buyer-full')
    const keepOffs = [{ partKey: run!.part.key, from: DATE, to: DATE }]
    expect(with_({}, { rules: { ...NO_RULES, keepOffs } })).toContain('kept-off')
    const other = run!.part.key === 'a' ? 'b' : 'a'
    expect(with_({}, { rules: { ...NO_RULES, pins: [{ partKey: other, date: DATE }] } })).toContain('pin-unheard')
    const part = outlooks.find((outlook) => outlook.part.key === other)!.part
    const soon = { ...run!, part, startEpochH: run!.endEpochH + 0.1, endEpochH: run!.endEpochH + 1, areaHa: 1 }
    const two = (next: typeof soon) =>
      brokenDayRules({ ...plan.day, runs: [run!, next] }, input).map(({ rule }) => rule)
    expect(two(soon)).toContain('no-time-to-move')
    expect(two({ ...soon, startEpochH: run!.startEpochH + 1 })).toContain('overlap')
  })
})
