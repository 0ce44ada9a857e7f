import { afterAll, beforeEach, describe, expect, it } from 'vitest'
import type { Solver } from '#app/solver-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { likeliest } from '#core/planning/optimiser/changes.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { DEMO_NOW } from '#tests/support/demo-day.ts'
import { type DemoPlanning, demoPlanning } from '#tests/support/demo-planning.ts'
import { smallOutfit } from '#tests/support/small-outlook.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

/** Fewer fields than the demo has, so that a plan is quick; one is cut already. */
const FIELDS = ['mill-forty', 'long-eighty', 'far-half', 'twin-elms', 'home-place']
const fewFields = (farm: Farm): Farm => ({ ...farm, fields: farm.fields.filter(({ id }) => FIELDS.includes(id)) })
const start = (by: Solver | undefined) => demoPlanning(by, { farm: fewFields })

/** For who only looks; who decides starts one of his own. */
const shared = await start(solver)
let here: DemoPlanning
beforeEach(() => {
  here = shared
})

const DAY = Temporal.PlainDate.from('2010-09-30')
const pin = (partKey: string, days = 0): PlanChange => ({ kind: 'pin', pin: { partKey, date: DAY.add({ days }) } })
const standing = async () => (await here.desk.standing())!
const tried = async (...changes: PlanChange[]) => {
  const answer = await here.desk.tryOut(changes)
  if (answer.kind !== 'tried') throw new Error(JSON.stringify(answer))
  return answer
}
const decided = async (change: PlanChange, key?: string) => {
  const answer = await here.desk.decide(change, 'pat', key)
  if (answer.kind !== 'decided') throw new Error(JSON.stringify(answer))
  return answer
}
/** A field that the plan does not go to today, and that stands. */
const waiting = async () => {
  const { week, view } = await standing()
  return view.parts.find(({ partKey }) => !week.visits.some((visit) => visit.partKey === partKey))!.partKey
}

describe('the desk', () => {
  it('shows the week that stands, with every part that stands in it and no decision', async () => {
    const { week, view, rules, decisions } = await standing()
    expect(week.status).toBe('proven')
    const { day } = await here.service.current()
    expect(view.parts.map(({ partKey }) => partKey).sort()).toEqual(day!.outlooks.map(({ part }) => part.key).sort())
    expect([rules.pins, decisions]).toEqual([[], []])
  })

  it('tries a pin out and keeps nothing of it', async () => {
    const key = await waiting()
    const { week, difference, rules } = await tried(pin(key))
    expect(week.visits.map(({ partKey }) => partKey)).toContain(key)
    expect(difference.moved.map(({ partKey }) => partKey)).toContain(key)
    expect(rules.pins).toHaveLength(1)
    // A plan with one more rule can't be better than one proven without it, but for the gap of both.
    const before = await standing()
    expect(difference.money).toBeLessThanOrEqual(before.week.loss - before.week.leastLoss + 1)
    expect(before.rules.pins).toEqual([])
    expect(await here.records.history(here.farm.id, 'decision')).toEqual([])
    expect(await here.desk.history(10)).toHaveLength(1)
  })

  it('makes a decision: the plan heeds it, what it costs is told, and the plan is kept with who wanted it', async () => {
    here = await start(solver)
    const key = await waiting()
    const trial = await tried(pin(key))
    here.setClock(DEMO_NOW + 0.05)
    const { desk, difference, isNew } = await decided(pin(key), 'k1')
    expect(isNew).toBe(true)
    expect(desk.week.visits.map(({ partKey }) => partKey)).toContain(key)
    expect(desk.decisions.map((decision) => [decision.key, decision.by])).toEqual([['k1', 'pat']])
    expect(difference.money).toBeCloseTo(trial.difference.money, 6)
    const [newest] = await here.desk.history(1)
    expect(newest!.reason).toMatchObject({ kind: 'planner', personId: 'pat', changes: [{ kind: 'pin' }] })
    expect(newest!.difference!.money).toBeCloseTo(difference.money, 6)
  })

  it('sent again decides nothing new and plans nothing anew', async () => {
    here = await start(solver)
    const key = await waiting()
    await decided(pin(key), 'k1')
    const before = await here.service.current()
    const again = await decided(pin(key), 'k1')
    expect([again.isNew, again.difference]).toEqual([false, { moved: [], money: 0, badMoney: 0 }])
    expect(await here.service.current()).toBe(before)
    expect(await here.desk.decide(pin(key, 1), 'pat', 'k1')).toMatchObject({ fault: { code: 'key-taken' } })
  })

  it('takes a decision back, once, and the week is what it was', async () => {
    here = await start(solver)
    const before = await standing()
    const { partKey } = before.week.visits[0]!
    here.setClock(DEMO_NOW + 0.05)
    // The field that today's plan goes to first, put off to Monday.
    const { desk, difference } = await decided(pin(partKey, 4), 'k1')
    expect(desk.week.visits.map((visit) => visit.partKey)).not.toContain(partKey)
    expect(difference.money).toBeLessThan(0)
    expect(await here.desk.costOfPins()).toBeGreaterThan(0)
    here.setClock(DEMO_NOW + 0.1)
    const undone = await here.desk.undo('pat', 'k1')
    if (undone.kind !== 'decided') throw new Error(undone.kind)
    expect(undone.desk.decisions).toEqual([])
    expect(undone.desk.rules.pins).toEqual([])
    expect(undone.isNew).toBe(true)
    expect(undone.desk.week.visits).toEqual(before.week.visits)
    expect(undone.desk.week.value).toBeCloseTo(before.week.value, 6)
    expect(undone.difference.money).toBeCloseTo(-difference.money, 6)
    expect(await here.desk.undo('pat', 'k1')).toMatchObject({ kind: 'decided', isNew: false })
    expect(await here.desk.undo('pat', 'k1/taken-back')).toMatchObject({ fault: { code: 'unknown-record' } })
    expect(await here.desk.undo('pat', 'never')).toMatchObject({ fault: { code: 'unknown-record' } })
  })

  it('refuses what makes no sense, in a trial as in a decision, and keeps nothing', async () => {
    const cases: [PlanChange, string][] = [
      [pin('no-such-field'), 'unknown-field'],
      [pin('mill-forty', -1), 'date-past'],
      // Cut before the demo starts, as its farm file says.
      [pin('home-place'), 'nothing-stands'],
      [{ kind: 'hours', outfitId: 'nobody', startMinute: 0, endMinute: 60 }, 'unknown-outfit'],
      [{ kind: 'days-off', outfitId: 'main-outfit', daysOff: [8] }, 'weekday-impossible'],
    ]
    for (const [change, code] of cases) {
      expect(await here.desk.tryOut([change])).toMatchObject({ kind: 'refused', fault: { code } })
      expect(await here.desk.decide(change, 'pat')).toMatchObject({ kind: 'refused', fault: { code } })
    }
    expect(await here.records.history(here.farm.id, 'decision')).toEqual([])
  })

  it('says of a patch that is cut through that it goes with its field, not that nothing stands', async () => {
    const cutThrough = (farm: Farm): Farm => ({
      ...farm,
      fields: farm.fields
        .filter(({ id }) => id === 'long-eighty')
        .map((field) => ({ ...field, patches: field.patches.map((patch) => ({ ...patch, handling: 'blend' })) })),
    })
    here = await demoPlanning(undefined, { farm: cutThrough })
    const keepOff: PlanChange = { kind: 'keep-off', keepOff: { partKey: 'long-eighty/north-end', from: DAY, to: DAY } }
    const fault = { code: 'cut-through', partName: 'Long Eighty (North end)', fieldName: 'Long Eighty' }
    for (const change of [pin('long-eighty/north-end'), keepOff]) {
      expect(await here.desk.tryOut([change])).toMatchObject({ kind: 'refused', fault })
      expect(await here.desk.decide(change, 'pat')).toMatchObject({ kind: 'refused', fault })
    }
    expect((await tried(pin('long-eighty'))).rules.pins).toHaveLength(1)
  })

  it('tries several changes in their order: an outfit hired in one has its hours set in the next', async () => {
    const outfit = smallOutfit('hired')
    const hours: PlanChange = { kind: 'hours', outfitId: 'hired', startMinute: 600, endMinute: 1200 }
    const { farm, difference } = await tried({ kind: 'add-outfit', outfit }, hours)
    expect(farm.outfits.find(({ id }) => id === 'hired')!.crewHours).toEqual({ startMinute: 600, endMinute: 1200 })
    expect(difference.money).toBeGreaterThan(0)
    expect(await here.desk.tryOut([hours, { kind: 'add-outfit', outfit }])).toMatchObject({
      fault: { code: 'unknown-outfit' },
    })
  })

  it('a keep-off is heeded: the plan goes there on none of its days', async () => {
    const { week } = await standing()
    const { partKey } = week.visits[0]!
    const { week: without } = await tried({
      kind: 'keep-off',
      keepOff: { partKey, from: DAY, to: DAY.add({ days: 2 }) },
    })
    const days = without.later.filter((cut) => cut.partKey === partKey).map(({ date }) => DAY.until(date).days)
    expect(days.every((day) => day > 2)).toBe(true)
    expect(likeliest(week, partKey)!.date.equals(DAY)).toBe(true)
  })

  it('says what one more of each would be worth, nothing of it below nothing, and reckons it once a plan', async () => {
    const worths = await here.desk.worthOfMore()
    expect(worths.map(({ what }) => what).sort()).toEqual(['cart', 'hour', 'truck'])
    for (const { money } of worths) expect(money).toBeGreaterThanOrEqual(0)
    expect(await here.desk.worthOfMore()).toBe(worths)
    here.service.changed()
    expect(await here.desk.worthOfMore()).not.toBe(worths)
  })

  it('without a solver plans by hand and knows no worth of more', async () => {
    const byHand = await start(undefined)
    expect((await byHand.desk.standing())!.week.status).toBe('fallback')
    expect(await byHand.desk.worthOfMore()).toEqual([])
    expect(await byHand.desk.tryOut([pin('mill-forty', 1)])).toMatchObject({ kind: 'tried' })
  })

  it('without weather has no plan and keeps nothing', async () => {
    const blind = await demoPlanning(solver, { noWeather: true })
    expect(await blind.desk.standing()).toBeUndefined()
    expect(await blind.desk.tryOut([pin('mill-forty')])).toEqual({ kind: 'no-plan' })
    expect(await blind.desk.decide(pin('mill-forty'), 'pat')).toEqual({ kind: 'no-plan' })
    expect(await blind.desk.undo('pat', 'k')).toEqual({ kind: 'no-plan' })
    expect([await blind.desk.costOfPins(), await blind.desk.worthOfMore()]).toEqual([0, []])
    expect(await blind.records.history(blind.farm.id, 'decision')).toEqual([])
  })
})

describe('a plan that is overtaken', () => {
  it('ends at once, and who asked for it gets the newer day', async () => {
    const asked: AbortSignal[] = []
    // The first solve never ends by itself.
    const stuck: Solver = {
      solve: (model, options = {}) => {
        if (options.signal) asked.push(options.signal)
        if (asked.length > 1) return solver.solve(model, options)
        return new Promise((_, reject) =>
          options.signal!.addEventListener('abort', () => reject(options.signal!.reason)),
        )
      },
    }
    const run = await start(stuck)
    const early = run.service.current()
    while (asked.length === 0) await new Promise((resolve) => setTimeout(resolve, 5))
    run.service.changed({ kind: 'reading', partKey: 'mill-forty' })
    expect(asked[0]!.aborted).toBe(true)
    const late = await run.service.current()
    expect(await early).toBe(late)
    expect(late.day!.planned!.week.status).toBe('proven')
    expect((await run.desk.history(5)).map(({ reason }) => reason)).toEqual([
      { kind: 'reading', partKey: 'mill-forty' },
    ])
  })

  it('a trial ends when its asker has gone, and the next one is served', async () => {
    const stop = new AbortController()
    await standing()
    const trial = here.desk.tryOut([pin(await waiting())], stop.signal)
    stop.abort(new Error('gone'))
    await expect(trial).rejects.toThrow('gone')
    expect((await tried(pin(await waiting()))).week.status).toBe('proven')
  })
})
