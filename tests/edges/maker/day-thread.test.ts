import { afterAll, describe, expect, it } from 'vitest'
import { dayJson } from '#app/day-json.ts'
import { type DayPlanner, dayPlanner } from '#app/day-planner.ts'
import { type DayInput, tellDay } from '#app/make-day.ts'
import { weekWork } from '#app/week-work.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { preparedBy } from '#edges/maker/day-thread.ts'
import { openThread } from '#edges/maker/thread.ts'
import { weekWorkBy } from '#edges/maker/week-thread.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { splitAt } from '#edges/sources/recorded/index.ts'
import { DEMO_NOW, loadDemo } from '#tests/support/demo-day.ts'

const SCRIPT = new URL('../../../src/day-worker.ts', import.meta.url)
/** No clock bounds the solver, so that both make the same. */
const OPTIONS = { explain: false }
const { farm, weather } = await loadDemo()
const input: DayInput = {
  farm,
  nowEpochH: DEMO_NOW,
  weather: splitAt(weather, DEMO_NOW, 240),
  standingHa: new Map(),
}
const open: { close(): Promise<void> }[] = []
function thread() {
  const opened = openThread(SCRIPT, OPTIONS, () => {})
  open.push(opened)
  return { thread: opened, prepare: preparedBy(opened), close: () => opened.close() }
}
afterAll(async () => {
  for (const opened of open) await opened.close()
})

describe('a day made in another thread', () => {
  it('is the day made here, to the last byte, twice, and the weather is still here', async () => {
    const solver = createHighsSolver()
    open.push(solver)
    const told = async (planner: Pick<DayPlanner, 'prepare'>) => {
      const { foreseen, planned } = await planner.prepare(input, [], NO_RULES)
      return tellDay(foreseen, planned)
    }
    const here = await told(dayPlanner(solver, () => {}, OPTIONS))
    const away = thread()
    for (let round = 0; round < 2; round++) {
      const there = await told(away)
      expect(JSON.stringify(dayJson(there))).toBe(JSON.stringify(dayJson(here)))
      const { rateOf: _, ...hereInput } = here.planned!.input
      const { rateOf, ...thereInput } = there.planned!.input
      expect(thereInput).toEqual(hereInput)
      expect({ ...there.planned!.week, seconds: 0 }).toEqual({ ...here.planned!.week, seconds: 0 })
      expect(there.states).toEqual(here.states)
      expect(there.belief).toEqual(here.belief)
      // One field is one thing throughout, as what was made here has it.
      expect(there.farm.fields).toContain(there.outlooks[0]!.part.field)
      expect(there.planned!.input.outlooks[0]).toBe(there.outlooks[0])
      const [outfit] = farm.outfits
      expect(rateOf(outfit!, there.outlooks[0]!.part, 13)).toEqual(
        here.planned!.input.rateOf(outfit!, here.outlooks[0]!.part, 13),
      )
    }
    expect(input.weather.past.airTempC.length).toBeGreaterThan(0)
  }, 60_000)

  it('leaves this thread free while it is made', async () => {
    const away = thread()
    await away.prepare(input, [], NO_RULES)
    let longest = 0
    let last = performance.now()
    const ticking = setInterval(() => {
      longest = Math.max(longest, performance.now() - last)
      last = performance.now()
    }, 1)
    const started = performance.now()
    await away.prepare(input, [], NO_RULES)
    const whole = performance.now() - started
    clearInterval(ticking)
    expect(longest).toBeLessThan(whole / 2)
  }, 60_000)

  it('is given up when a newer one is wanted, with the reason', async () => {
    const away = thread()
    await expect(away.prepare(input, [], NO_RULES, AbortSignal.abort(new Error('newer')))).rejects.toThrow('newer')
    const stopping = new AbortController()
    const first = away.prepare(input, [], NO_RULES, stopping.signal)
    stopping.abort(new Error('newer still'))
    await expect(first).rejects.toThrow('newer still')
    expect((await away.prepare(input, [], NO_RULES)).foreseen.outlooks.length).toBeGreaterThan(0)
  }, 60_000)

  it('tells of a bug there, and of a thread that ended; the next asking starts a new one', async () => {
    const away = thread()
    await expect(away.prepare({ ...input, farm: {} as never }, [], NO_RULES)).rejects.toThrow('Time zone')
    const asked = away.prepare(input, [], NO_RULES)
    await away.close()
    await expect(asked).rejects.toThrow('has ended')
    expect((await away.prepare(input, [], NO_RULES)).foreseen.outlooks.length).toBeGreaterThan(0)
  }, 60_000)
})

describe("a planner's question answered in another thread", () => {
  it('has the answer that it has here', async () => {
    const solver = createHighsSolver()
    open.push(solver)
    const { planned } = await dayPlanner(solver, () => {}, OPTIONS).prepare(input, [], NO_RULES)
    const { week, input: planInput } = planned.planned!
    const { partKey } = week.visits[0]!
    const keepOff = { partKey, from: planInput.date, to: planInput.date }
    const away = weekWorkBy(thread().thread)
    const here = weekWork(solver)
    const changes: PlanChange[] = [{ kind: 'keep-off', keepOff }]
    const [there, known] = [await away.replan(planInput, week, changes), await here.replan(planInput, week, changes)]
    expect({ ...there.plan, seconds: 0 }).toEqual({ ...known.plan, seconds: 0 })
    expect(there.difference).toEqual(known.difference)
    expect({ ...there.input, rateOf: 0 }).toEqual({ ...known.input, rateOf: 0 })
    expect(await away.costOfPins(planInput, week)).toBe(0)
    expect(await away.worthOfMore(planInput)).toEqual(await here.worthOfMore(planInput))
  }, 60_000)
})
