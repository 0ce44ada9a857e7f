import { afterAll, describe, expect, it } from 'vitest'
import { dayPlanner } from '#app/day-planner.ts'
import { foresee } from '#app/make-day.ts'
import { SolverFailure } from '#app/solver-port.ts'
import type { Cut } from '#core/field/cut.ts'
import { brokenDayRules } from '#core/planning/optimiser/check-day.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { splitAt } from '#edges/sources/recorded/index.ts'
import { DEMO_NOW, loadDemo } from '#tests/support/demo-day.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())
const { farm, weather } = await loadDemo()
const foreseen = foresee({
  farm,
  nowEpochH: DEMO_NOW,
  weather: splitAt(weather, DEMO_NOW, 240),
  standingHa: new Map(),
})
const silent = () => {
  throw new Error('nothing to log')
}

describe('the planner of the day', () => {
  it('plans it by the solver, with the week behind it, and no rule broken', async () => {
    const { day, planned } = await dayPlanner(solver, silent).plan(foreseen, [], NO_RULES)
    expect(planned!.week.status).toBe('proven')
    expect(planned!.week.day).toBe(day)
    expect(brokenDayRules(day, planned!.input)).toEqual([])
  })

  it('starts each outfit where it cut last', async () => {
    const cut = {
      id: 'c',
      partKey: 'mill-forty',
      outfitId: 'main-outfit',
      atEpochH: DEMO_NOW - 12,
      areaHa: 4,
      who: 'bo',
    }
    const { planned } = await dayPlanner(undefined, silent).plan(foreseen, [cut as Cut], NO_RULES)
    expect([...planned!.input.at].map(([outfit, { key }]) => [outfit, key])).toEqual([['main-outfit', 'mill-forty']])
  })

  it('plans by hand without a solver, and when the solver breaks down', async () => {
    const broken = { solve: () => Promise.reject(new SolverFailure('out of memory')) }
    for (const by of [undefined, broken]) {
      const { planned } = await dayPlanner(by, silent).plan(foreseen, [], NO_RULES)
      expect(planned!.week.status).toBe('fallback')
    }
  })

  it('hands on the reason of a signal that was aborted, before it starts and while the solver works', async () => {
    const before = AbortSignal.abort(new Error('newer request'))
    await expect(dayPlanner(solver, silent).plan(foreseen, [], NO_RULES, before)).rejects.toThrow('newer request')
    const stop = new AbortController()
    const planning = dayPlanner(solver, silent).plan(foreseen, [], NO_RULES, stop.signal)
    setTimeout(() => stop.abort(new Error('newer still')), 50)
    await expect(planning).rejects.toThrow('newer still')
  })

  it('hands on what is neither a broken plan nor a broken solver', async () => {
    const bug = { solve: () => Promise.reject(new TypeError('a bug')) }
    await expect(dayPlanner(bug, silent).plan(foreseen, [], NO_RULES)).rejects.toThrow('a bug')
  })
})
