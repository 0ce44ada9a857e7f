import { beforeAll, describe, expect, it } from 'vitest'
import type { Day } from '#app/make-day.ts'
import { moisturePast } from '#app/moisture-past.ts'
import { DEMO_NOW, type Demo, demoDay, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

let demo: Demo
let day: Day
beforeAll(async () => {
  demo = await loadDemo()
  day = demoMorning(demo)
})
const stateOf = (of: Day, key: string) => of.states.find(({ part }) => part.key === key)!
const pastOf = (of: Day, key: string) => moisturePast(of, stateOf(of, key))!

describe('the moisture since a part ripened', () => {
  it('ends now, and joins what is ahead', () => {
    for (const outlook of day.partOutlooks) {
      const past = pastOf(day, outlook.part.key)
      expect(past.startEpochH + past.hours).toBe(outlook.startEpochH)
      // Grain of a field does not change by more than a few points in an hour of a dry night.
      expect(Math.abs(past.medianWb.at(-1)! - outlook.medianWb[0]!)).toBeLessThan(1)
      for (let h = 0; h < past.hours; h++) {
        expect(past.lowWb[h]!).toBeLessThanOrEqual(past.medianWb[h]!)
        expect(past.medianWb[h]!).toBeLessThanOrEqual(past.highWb[h]!)
      }
    }
  })

  it('goes back to when it ripened, at least three days and at most three weeks', () => {
    const hours = day.states.map(({ part }) => pastOf(day, part.key).hours)
    expect(Math.min(...hours)).toBeGreaterThanOrEqual(3 * 24)
    expect(Math.max(...hours)).toBeLessThanOrEqual(21 * 24)
    const { particles } = stateOf(day, 'creek-bottom')
    const ripe = particles.map(({ matureEpochH }) => matureEpochH).toSorted((a, b) => a - b)
    const past = pastOf(day, 'creek-bottom')
    expect(past.startEpochH).toBeLessThanOrEqual(ripe[Math.floor(ripe.length / 2)]!)
    expect(past.startEpochH).toBeGreaterThan(ripe[Math.floor(ripe.length / 2)]! - 1)
    // Not ripe yet: double-crop beans planted on the second of July.
    expect(pastOf(day, 'church-corner').hours).toBe(3 * 24)
  })

  it('is the state run through the weather: the same hours of two mornings are the same', () => {
    const before = demoDay(demo, DEMO_NOW - 24)
    const [earlier, now] = [pastOf(before, 'dry-slough'), pastOf(day, 'dry-slough')]
    const from = Math.max(earlier.startEpochH, now.startEpochH)
    for (let epochH = from; epochH < earlier.startEpochH + earlier.hours; epochH++) {
      // What growth is thought to have been changes with a day more of weather, by hours.
      expect(now.medianWb[epochH - now.startEpochH]!).toBeCloseTo(earlier.medianWb[epochH - earlier.startEpochH]!, 0)
    }
  })

  it('goes where readings say', () => {
    const reading = {
      id: 'r',
      partKey: 'dry-slough',
      atEpochH: DEMO_NOW - 14,
      moistureWb: 16.5,
      instrument: { id: 'hand', kind: 'hand', sdWb: 0.3 },
      who: 'bo',
    } as const
    const measured = pastOf(demoDay(demo, DEMO_NOW, { readings: [reading] }), 'dry-slough')
    const at = (past: typeof measured) => past.medianWb[Math.floor(DEMO_NOW - 14) - past.startEpochH - 1]!
    const unread = at(pastOf(day, 'dry-slough'))
    expect(unread).toBeLessThan(16)
    expect(Math.abs(at(measured) - 16.5)).toBeLessThan(Math.abs(unread - 16.5) / 2)
  })

  it('is not known where no weather of the past is', () => {
    const state = stateOf(day, 'dry-slough')
    const empty = { moistureWb: new Float32Array(0), depletionMm: new Float32Array(0) }
    expect(moisturePast(day, { ...state, past: empty })).toBeUndefined()
  })
})
