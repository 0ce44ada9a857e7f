import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FieldPart } from '#core/field/parts.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { moveHours } from '#core/planning/moving.ts'
import { zonedAt } from '#core/units/time.ts'
import {
  DATE,
  type Given,
  HOURS,
  midnight,
  outlookOf,
  plan,
  rateIn,
} from '#tests/core/planning/support/first-plan-day.ts'
import { testBuyer, testFarm, testField, testOutfit } from '#tests/support/fields.ts'
import { handOutlook } from '#tests/support/outlooks.ts'

describe('one outfit, two fields', () => {
  const haPerH = rateIn(testOutfit(), outlookOf('a').part, 12)!.haPerH

  it('begins with the field that loses most, moves, and goes on until it is dark for it', () => {
    const day = plan(
      testFarm(),
      [outlookOf('calm', { lossPerDay: 0.001 }), outlookOf('frail', { lossPerDay: 0.03 })],
      midnight(),
    )
    expect(day.runs.map(({ part }) => part.key)).toEqual(['frail', 'calm'])
    const [first, second] = day.runs
    expect(first!.startEpochH).toBe(midnight() + 10)
    expect(first!.areaHa).toBeCloseTo(40, 9)
    expect(first!.endEpochH - first!.startEpochH).toBeCloseTo(40 / haPerH, 6)
    expect(second!.startEpochH).toBeCloseTo(first!.endEpochH + moveHours(first!.part, second!.part), 9)
    expect(second!.endEpochH).toBeLessThanOrEqual(midnight() + 20)
  })

  it('ranks all parts by what they lose, unknown ones last', () => {
    const day = plan(
      testFarm(),
      [
        outlookOf('unknown', { moistureWb: () => Number.NaN, fitShare: () => 0 }),
        outlookOf('calm', { lossPerDay: 0.001 }),
        outlookOf('frail', { lossPerDay: 0.03 }),
        outlookOf('worn', { lossPerDay: 0.01 }),
      ],
      midnight(),
    )
    expect(day.ranking.map(({ part }) => part.key)).toEqual(['frail', 'worn', 'calm', 'unknown'])
    expect(day.ranking[3]!.atRiskPerHaDay).toBeNaN()
  })

  it('leaves for a field worth the move that opens later, after a run that is worth a start', () => {
    const day = plan(
      testFarm(),
      [
        outlookOf('calm', { lossPerDay: 0.001 }),
        outlookOf('frail', { lossPerDay: 0.04, fitShare: (h) => (h % 24 >= 14 && h % 24 < 20 ? 1 : 0) }),
      ],
      midnight(),
    )
    expect(day.runs.map(({ part }) => part.key).slice(0, 2)).toEqual(['calm', 'frail'])
    expect(day.runs[1]!.startEpochH).toBeCloseTo(midnight() + 14, 6)
  })

  it('waits for it instead where too little time is left for a run before it', () => {
    const day = plan(
      testFarm(),
      [
        outlookOf('calm', { lossPerDay: 0.001 }),
        outlookOf('frail', { lossPerDay: 0.04, fitShare: (h) => (h % 24 >= 11 && h % 24 < 20 ? 1 : 0) }),
      ],
      midnight(),
    )
    expect(day.runs[0]!.part.key).toBe('frail')
    expect(day.runs[0]!.startEpochH).toBe(midnight() + 11)
  })
})

describe('patches', () => {
  const green = { id: 'p', name: 'P', share: 0.1, kind: 'green', laterDays: 4, handling: 'leave' } as const
  const field = testField({ id: 'a', name: 'a', areaHa: 40, patches: [green] })
  const main = (more: Given = {}) => handMade({ key: 'a', field, areaHa: 36 }, more)
  const patch = (more: Given = {}) => handMade({ key: 'a/p', field, patch: green, areaHa: 4 }, more)
  const handMade = (part: FieldPart, { field: _, ...more }: Given) =>
    handOutlook({
      part,
      startEpochH: midnight(),
      hours: HOURS,
      fitShare: (h) => (h % 24 >= 10 && h % 24 < 20 ? 1 : 0),
      ...more,
    })
  const keys = (outlooks: readonly Outlook[]) => plan(testFarm(), outlooks, midnight()).runs.map(({ part }) => part.key)

  it('are cut right after their field, whatever else loses more', () => {
    expect(keys([patch(), main({ lossPerDay: 0.04 }), outlookOf('b', { lossPerDay: 0.02 })])).toEqual(['a', 'a/p', 'b'])
  })

  it('are no reason to move while the field around them stands', () => {
    const wet = main({ fitShare: () => 0 })
    expect(keys([patch({ lossPerDay: 0.05 }), wet])).toEqual([])
    const cut = plan(testFarm(), [patch()], midnight(), new Map([['a', 0]]))
    expect(cut.runs.map(({ part }) => part.key)).toEqual(['a/p'])
  })

  it('do not draw an outfit out of their own field half way', () => {
    const late = patch({ lossPerDay: 0.05, fitShare: (h) => (h % 24 >= 12 && h % 24 < 20 ? 1 : 0) })
    const { runs } = plan(testFarm(), [main(), late], midnight())
    expect(runs.map(({ part, areaHa }) => [part.key, Math.round(areaHa)])).toEqual([
      ['a', 36],
      ['a/p', 4],
    ])
  })
})

describe('small fields', () => {
  it('that take less than three quarters of an hour are cut all the same, whatever the instant', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 5, noNaN: true }), fc.integer({ min: 0, max: 9 }), (areaHa, shift) => {
        const small = outlookOf('small', { field: { areaHa } })
        const day = plan(testFarm(), [small], midnight() + 10 + shift / 7)
        expect(day.runs.map((run) => run.areaHa)).toEqual([expect.closeTo(areaHa, 6)])
      }),
    )
  })
})

describe('what a plan keeps to', () => {
  it('the clock of the crew, on days of 23 and 25 hours', () => {
    for (const [day, zone] of [
      ['2010-03-14', 'America/Chicago'],
      ['2010-11-07', 'America/Chicago'],
      ['2010-11-07', 'Asia/Kolkata'],
    ] as const) {
      const date = Temporal.PlainDate.from(day)
      const farm = testFarm({
        timeZone: zone,
        outfits: [testOutfit({ crewHours: { startMinute: 480, endMinute: 600 } })],
      })
      const startEpochH = Math.floor(midnight(zone, date))
      const field = testField({ areaHa: 400 })
      const open = handOutlook({
        part: { key: 'alder', field, areaHa: 400 },
        startEpochH,
        hours: 50,
        fitShare: () => 1,
      })
      const [run] = plan(farm, [open], startEpochH, new Map(), date).runs
      expect(zonedAt(run!.startEpochH, zone).toPlainTime().toString({ smallestUnit: 'minute' })).toBe('08:00')
      expect(zonedAt(run!.endEpochH, zone).toPlainTime().toString({ smallestUnit: 'minute' })).toBe('10:00')
    }
  })

  it('what a buyer takes in a day', () => {
    const farm = testFarm({ buyers: [testBuyer({ dailyT: 50 })] })
    const { runs } = plan(farm, [outlookOf('a'), outlookOf('b')], midnight())
    expect(runs.reduce((sum, run) => sum + run.massT, 0)).toBeLessThanOrEqual(50)
    expect(runs.reduce((sum, run) => sum + run.massT, 0)).toBeGreaterThan(40)
  })

  it('what the wheels hold after the buyer shut, once and not once for each field', () => {
    const farm = testFarm({ buyers: [testBuyer({ hours: { openMinute: 360, closeMinute: 600 } })] })
    const open = { fitShare: () => 1 }
    const { runs } = plan(farm, [outlookOf('a', open), outlookOf('b', open), outlookOf('c', open)], midnight() + 10)
    const wheelsL = 3 * 33_000 + 35_000 + 2 * 11_000
    expect(runs.reduce((sum, run) => sum + run.volumeL, 0)).toBeLessThanOrEqual(wheelsL * 1.02)
  })

  it('what still stands: a part of which the rest is told', () => {
    const day = plan(testFarm(), [outlookOf('a')], midnight(), new Map([['a', 7]]))
    expect(day.runs[0]).toMatchObject({ areaHa: expect.closeTo(7, 9), ofAreaHa: 7 })
    expect(plan(testFarm(), [outlookOf('a')], midnight(), new Map([['a', 0]])).ranking).toEqual([])
  })

  it('days off: an outfit that rests runs nothing', () => {
    const farm = testFarm({ outfits: [testOutfit({ daysOff: [DATE.dayOfWeek] })] })
    expect(plan(farm, [outlookOf('a')], midnight()).runs).toEqual([])
  })

  it('heads: nothing is run that no combine can cut', () => {
    const day = plan(testFarm(), [outlookOf('c', { field: { crop: 'canola' } })], midnight())
    expect(day.runs).toEqual([])
    expect(day.waiting[0]!.reason).toBe('no-outfit')
  })
})
