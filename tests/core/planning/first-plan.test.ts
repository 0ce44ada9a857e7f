import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Field, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { bulkDensityKgM3 } from '#core/planning/capacity/cutting.ts'
import { outfitRate } from '#core/planning/capacity/outfit.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import { buyerShutsAt } from '#core/planning/haul-end.ts'
import { moveHours } from '#core/planning/moving.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { epochHoursAtMinute, zonedAt } from '#core/units/time.ts'
import { testBuyer, testFarm, testField, testOutfit } from '#tests/support/fields.ts'
import { type HandMade, handOutlook } from '#tests/support/outlooks.ts'

const DATE = Temporal.PlainDate.from('2010-09-30')
const HOURS = 24 * 8
const EPSILON = 1e-6

const rateIn = (outfit: Outfit, part: FieldPart, moistureWb: number) => {
  const rate = outfitRate({
    outfit,
    crop: part.field.crop,
    yieldTHa: massAtMoisture(part.field.usualYieldTHa, 13, moistureWb),
    grainKgM3: bulkDensityKgM3(part.field.crop),
    haulKm: part.field.haulKm,
    turnaroundMin: 20,
  })
  return rate.cutHaPerH > 0 ? rate : undefined
}

function plan(
  farm: Farm,
  outlooks: readonly Outlook[],
  nowEpochH: number,
  standingHa = new Map<string, number>(),
  date = DATE,
): DayPlan {
  return firstPlan({ farm, outlooks, date, nowEpochH, standingHa, rateOf: rateIn })
}

const midnight = (timeZone = 'America/Chicago', date = DATE) => epochHoursAtMinute(date, 0, timeZone)

interface Given extends Partial<Omit<HandMade, 'part'>> {
  readonly field?: Partial<Field>
}

/** Outlooks from midnight on: fit from 10 to 20 each day unless told otherwise. */
const outlookOf = (id: string, { field, ...more }: Given = {}): Outlook => {
  const made = testField({ id, name: id, ...field })
  return handOutlook({
    part: { key: id, field: made, areaHa: made.areaHa },
    startEpochH: midnight(),
    hours: HOURS,
    fitShare: (h) => (h % 24 >= 10 && h % 24 < 20 ? 1 : 0),
    ...more,
  })
}

const clock = (epochH: number) => (epochH - midnight()).toFixed(2)
const told = ({ runs }: DayPlan) =>
  runs.map((run) => `${run.part.key} ${clock(run.startEpochH)}-${clock(run.endEpochH)} ${run.areaHa.toFixed(1)} ha`)

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

/** Random farms: one to three outfits, up to six fields with broken windows, buyers with hours and limits. */
const crew = fc.record({
  combines: fc.integer({ min: 1, max: 4 }),
  carts: fc.integer({ min: 0, max: 2 }),
  trucks: fc.integer({ min: 1, max: 5 }),
  start: fc.integer({ min: 5, max: 12 }),
  length: fc.integer({ min: 1, max: 11 }),
  daysOff: fc.subarray([4, 5]),
})
const stand = fc.record({
  areaHa: fc.double({ min: 0.1, max: 150, noNaN: true }),
  lossPerDay: fc.double({ min: 0, max: 0.05, noNaN: true }),
  lat: fc.double({ min: 39.9, max: 40.2, noNaN: true }),
  buyer: fc.integer({ min: 0, max: 1 }),
  shares: fc.array(fc.integer({ min: 0, max: 10 }), { minLength: 24, maxLength: 24 }),
})
const dock = fc.record({
  open: fc.integer({ min: 4, max: 9 }),
  close: fc.integer({ min: 10, max: 23 }),
  dailyT: fc.option(fc.double({ min: 5, max: 900, noNaN: true })),
})
const anyDay = fc.record({
  crews: fc.array(crew, { minLength: 1, maxLength: 3 }),
  stands: fc.array(stand, { minLength: 1, maxLength: 6 }),
  docks: fc.tuple(dock, dock),
  nowH: fc.double({ min: 0, max: 23.9, noNaN: true }),
})

type AnyDay = typeof anyDay extends fc.Arbitrary<infer T> ? T : never

function farmOf({ crews, docks }: AnyDay): Farm {
  const [combine] = testOutfit().combines
  const [cart] = testOutfit().carts
  const [truck] = testOutfit().trucks
  return testFarm({
    outfits: crews.map((c, n) =>
      testOutfit({
        id: `crew-${n}`,
        combines: Array.from({ length: c.combines }, () => combine!),
        carts: Array.from({ length: c.carts }, () => cart!),
        trucks: Array.from({ length: c.trucks }, () => truck!),
        crewHours: { startMinute: c.start * 60, endMinute: (c.start + c.length) * 60 },
        daysOff: c.daysOff,
      }),
    ),
    buyers: docks.map((d, n) =>
      testBuyer({
        id: `dock-${n}`,
        hours: { openMinute: d.open * 60, closeMinute: d.close * 60 },
        ...(d.dailyT === null ? {} : { dailyT: d.dailyT }),
      }),
    ),
  })
}

const outlooksOf = ({ stands, nowH }: AnyDay): Outlook[] =>
  stands.map(({ areaHa, lossPerDay, lat, buyer, shares }, n) => {
    const field = testField({
      id: `field-${n}`,
      name: `field-${n}`,
      areaHa,
      buyerId: `dock-${buyer}`,
      centre: { latDeg: lat, lonDeg: -88 },
    })
    const from = Math.floor(nowH)
    return handOutlook({
      part: { key: field.id, field, areaHa },
      startEpochH: midnight() + from,
      hours: HOURS - from,
      lossPerDay,
      fitShare: (h) => shares[(h + from) % 24]! / 10,
      moistureWb: (h, c) => 12.5 - Math.sin(((h + from) / 24) * 2 * Math.PI) + c / 20,
    })
  })

describe('any farm, any chances, any hour', () => {
  it('never promises more than fields, crews, machines and buyers hold', () => {
    fc.assert(
      fc.property(anyDay, (given) => {
        const farm = farmOf(given)
        const outlooks = outlooksOf(given)
        const now = midnight() + given.nowH
        const { runs, waiting } = plan(farm, outlooks, now)
        for (const run of runs) {
          const outfit = farm.outfits.find(({ id }) => id === run.outfitId)!
          const outlook = outlooks.find(({ part }) => part.key === run.part.key)!
          expect(outfit.daysOff).not.toContain(DATE.dayOfWeek)
          expect(run.startEpochH).toBeGreaterThanOrEqual(
            Math.max(now, midnight() + outfit.crewHours.startMinute / 60) - EPSILON,
          )
          expect(run.endEpochH).toBeLessThanOrEqual(midnight() + outfit.crewHours.endMinute / 60 + EPSILON)
          const window = outlook.windows.find(
            (w) => run.startEpochH >= w.startEpochH - EPSILON && run.endEpochH <= w.endEpochH + EPSILON,
          )
          expect(window).toBeDefined()
          const { haPerH } = rateIn(outfit, run.part, window!.startMoistureWb)!
          expect(run.areaHa).toBeLessThanOrEqual(haPerH * (run.endEpochH - run.startEpochH) + EPSILON)
          for (const value of [run.massT, run.volumeL, run.truckLoads, run.startMoistureWb, run.chance])
            expect(Number.isFinite(value)).toBe(true)
        }
        for (const { part } of outlooks) {
          const cut = runs.filter((run) => run.part.key === part.key).reduce((sum, run) => sum + run.areaHa, 0)
          expect(cut).toBeLessThanOrEqual(part.areaHa + EPSILON)
          const waits = waiting.filter((w) => w.part.key === part.key).length
          expect(waits).toBe(cut === 0 && part.areaHa > 0.2 ? 1 : 0)
        }
        for (const buyer of farm.buyers) {
          const sold = runs
            .filter((run) => run.part.field.buyerId === buyer.id)
            .reduce((sum, run) => sum + run.massT, 0)
          expect(sold).toBeLessThanOrEqual((buyer.dailyT ?? Number.POSITIVE_INFINITY) + EPSILON)
        }
        for (const outfit of farm.outfits) {
          const own = runs.filter((run) => run.outfitId === outfit.id)
          for (const [n, run] of own.entries()) {
            const before = own[n - 1]
            if (before)
              expect(run.startEpochH).toBeGreaterThanOrEqual(
                before.endEpochH + moveHours(before.part, run.part) - EPSILON,
              )
          }
          const late = own.map((run) => {
            const shuts = buyerShutsAt(run.part, farm, DATE)
            const after = Math.max(0, run.endEpochH - Math.max(run.startEpochH, shuts))
            return (run.volumeL * after) / (run.endEpochH - run.startEpochH)
          })
          const wheelsL = [...outfit.trucks, ...outfit.carts].reduce((sum, w) => sum + w.capacityL, 0)
          const tanksL = outfit.combines.reduce((sum, combine) => sum + combine.tankL, 0)
          // The rate is reckoned at the moisture of the start of the window, the volume at that of the run.
          expect(late.reduce((sum, litres) => sum + litres, 0)).toBeLessThanOrEqual((wheelsL + tanksL) * 1.03)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('the same inputs give the same plan', () => {
    fc.assert(
      fc.property(anyDay, (given) => {
        const once = plan(farmOf(given), outlooksOf(given), midnight() + given.nowH)
        const again = plan(farmOf(given), outlooksOf(given), midnight() + given.nowH)
        expect(told(again)).toEqual(told(once))
      }),
      { numRuns: 20 },
    )
  })
})
