import { describe, expect, it } from 'vitest'
import { changesSince, type Expectation, type PublishedDay, publish } from '#core/messages/published.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { testPart } from '#tests/support/fields.ts'
import { handOutlook } from '#tests/support/outlooks.ts'

const CHICAGO = 'America/Chicago'
const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const MIDNIGHT = hours('2010-09-30T05:00Z')
const MORNING = MIDNIGHT + 5.5
const DATE = Temporal.PlainDate.from('2010-09-30')
const ALDER = [{ key: 'alder', name: 'Alder' }]

const NO_PLAN = { date: DATE, runs: [], waiting: [], ranking: [] } as DayPlan
const outlook = handOutlook({
  part: testPart(),
  startEpochH: MIDNIGHT + 5,
  hours: 60,
  fitShare: (h) => ((h + 5) % 24 >= 10 && (h + 5) % 24 < 20 ? 1 : 0),
  moistureWb: (h) => 20 - h / 10,
})

describe('what is published', () => {
  const day = publish(DATE, MORNING, CHICAGO, NO_PLAN, [outlook], () => 0.3)

  it('is moisture at three in the afternoon and the first window of three days, by part', () => {
    expect(day.expected.map(({ date }) => date)).toEqual(['2010-09-30', '2010-10-01', '2010-10-02'])
    expect(day.expected[0]).toMatchObject({
      partKey: 'alder',
      afternoonWb: expect.closeTo(19, 4),
      opensEpochH: MIDNIGHT + 10,
      closesEpochH: MIDNIGHT + 20,
    })
    expect(day.expected[1]!.opensEpochH).toBe(MIDNIGHT + 34)
    expect(day).toMatchObject({ firstPart: undefined, atEpochH: MORNING })
  })

  it('is the chance of rain in the three days that tomorrow will be held against', () => {
    const from = MIDNIGHT + 5 + 24
    const asked = (fromEpochH: number, toEpochH: number) => (toEpochH - fromEpochH) / 100
    const { rainAhead } = publish(DATE, MORNING, CHICAGO, NO_PLAN, [outlook], asked)
    expect(rainAhead).toEqual({ fromEpochH: from, toEpochH: from + 72, chance: 0.72 })
  })

  it('is not known beyond what is in sight', () => {
    expect(day.expected[2]).toMatchObject({ afternoonWb: expect.closeTo(14.2, 4) })
    const short = publish(DATE, MORNING, CHICAGO, NO_PLAN, [{ ...outlook, hours: 6, windows: [] }], () => 0)
    expect([short.expected[0]!.afternoonWb, short.expected[0]!.opensEpochH]).toEqual([Number.NaN, Number.NaN])
  })

  it('is by the clock of the day on which it changes', () => {
    const sunday = Temporal.PlainDate.from('2010-11-07')
    const open = handOutlook({
      part: testPart(),
      startEpochH: hours('2010-11-07T05:00Z'),
      hours: 30,
      fitShare: () => 0,
      moistureWb: (h) => 10 + h,
    })
    // 15:00 standard time is 16 hours after the midnight of a day of 25 hours.
    expect(
      publish(sunday, hours('2010-11-07T05:00Z'), CHICAGO, NO_PLAN, [open], () => 0).expected[0]!.afternoonWb,
    ).toBe(26)
  })
})

const expectation = (more: Partial<Expectation> = {}): Expectation => ({
  date: '2010-09-30',
  partKey: 'alder',
  afternoonWb: 12,
  opensEpochH: MIDNIGHT + 10,
  closesEpochH: MIDNIGHT + 20,
  ...more,
})
const told = (more: Partial<Expectation> = {}, day: Partial<PublishedDay> = {}): PublishedDay => ({
  date: DATE,
  atEpochH: MORNING,
  firstPart: 'Alder',
  expected: [expectation(more)],
  ...day,
})
const changes = (yesterday: PublishedDay | undefined, today: PublishedDay, planned = ALDER) =>
  changesSince(yesterday, today, planned, () => Number.NaN)

describe('what changed', () => {
  it('is nothing to compare on the first day, and nothing of weight where all is as foreseen', () => {
    expect(changes(undefined, told())).toEqual([{ kind: 'no-yesterday' }])
    expect(changes(told(), told())).toEqual([{ kind: 'nothing' }])
    expect(changes(told(), told({ afternoonWb: 12.7, opensEpochH: MIDNIGHT + 10.9 }, {}))).toEqual([
      { kind: 'nothing' },
    ])
  })

  it('is a point of moisture, an hour of window, a fifth of a chance, another field first', () => {
    expect(changes(told(), told({ afternoonWb: 10.9 }))).toEqual([
      { kind: 'moisture', partName: 'Alder', fromWb: 12, toWb: 10.9 },
    ])
    expect(changes(told(), told({ opensEpochH: MIDNIGHT + 12 }))).toEqual([
      { kind: 'window-moved', partName: 'Alder', edge: 'opens', fromEpochH: MIDNIGHT + 10, toEpochH: MIDNIGHT + 12 },
    ])
    expect(changes(told({}, { firstPart: 'Birch' }), told())).toEqual([
      { kind: 'first-field', was: 'Birch', now: 'Alder' },
    ])
  })

  it('is a chance of rain over the very hours that were foretold, not over other three days', () => {
    const FROM = MIDNIGHT + 5
    const TO = FROM + 72
    const foretold = { date: DATE.subtract({ days: 1 }), rainAhead: { fromEpochH: FROM, toEpochH: TO, chance: 0.2 } }
    const asked: number[][] = []
    const since = (chance: number, atEpochH = MORNING) =>
      changesSince(told({}, foretold), told({}, { atEpochH }), ALDER, (...span) => {
        asked.push(span)
        return chance
      })
    expect(since(0.5)).toEqual([{ kind: 'rain', wasChance: 0.2, chance: 0.5 }])
    expect(since(0.39)).toEqual([{ kind: 'nothing' }])
    expect(since(Number.NaN)).toEqual([{ kind: 'nothing' }])
    expect(since(0.5, MORNING + 2)).toHaveLength(1)
    expect(asked.at(-1)).toEqual([FROM + 2, TO])
    // What fell since would look like a smaller chance.
    expect(since(0.9, FROM + 7)).toEqual([{ kind: 'nothing' }])
  })

  it('is told once for a part that is run twice', () => {
    const twice = [...ALDER, ...ALDER]
    expect(changes(told(), told({ afternoonWb: 10.5 }), twice).length).toBe(1)
  })

  it('is not that a window is open already when the day is told again at noon', () => {
    const noon = MIDNIGHT + 12.5
    const again = told({ opensEpochH: MIDNIGHT + 12, closesEpochH: MIDNIGHT + 15 }, { atEpochH: noon })
    expect(changes(told(), again)).toEqual([{ kind: 'nothing' }])
  })

  it('is nothing where one of the two is not known', () => {
    const unknown = { afternoonWb: Number.NaN, opensEpochH: Number.NaN, closesEpochH: Number.NaN }
    expect(changes(told(unknown), told())).toEqual([{ kind: 'nothing' }])
    expect(changes(told(), told(unknown))).toEqual([{ kind: 'nothing' }])
    expect(changes(told({ partKey: 'other' }), told({ afternoonWb: 5 }))).toEqual([{ kind: 'nothing' }])
  })

  it('is at most three lines, the field that goes first before all', () => {
    const all = changes(
      told({}, { firstPart: 'Birch' }),
      told({ afternoonWb: 9, opensEpochH: MIDNIGHT + 13, closesEpochH: MIDNIGHT + 16 }),
    )
    expect(all.length).toBe(3)
    expect(all[0]!.kind).toBe('first-field')
  })
})
