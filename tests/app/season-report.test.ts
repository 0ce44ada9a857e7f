import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { seedFields } from '#app/farm-fields.ts'
import type { ForecastStore, KeptForecast } from '#app/forecasts-port.ts'
import { takeBack, takeCut, takeReading } from '#app/records.ts'
import { type PlanAhead, seasonFromBook, seasonReport } from '#app/season-report.ts'
import type { Cut } from '#core/field/cut.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import { parseFarm } from '#edges/config/load.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { BASE } from '#tests/edges/config/base-farm.ts'

const date = (day: number) => Temporal.PlainDate.from({ year: 2010, month: 9, day })
/** 120 acres of corn at 4,046.8564224 m2 each (NIST Handbook 44 appendix C: 1 acre = 4 046.856 422 4 m2). */
const BETA_HA = (120 * 4046.8564224) / 10_000
const DAY_H = 24

let farm: Farm
let beta: Field
beforeAll(() => {
  ;({ farm } = parseFarm(BASE, 'farm.yaml'))
  beta = farm.fields.find(({ id }) => id === 'beta')!
})

let ids = 0
const cut = (partKey: string, areaHa: number, daysAgo: number, more: Partial<Cut> = {}): Cut => ({
  id: `cut-${ids++}`,
  partKey,
  areaHa,
  atEpochH: NOON - daysAgo * DAY_H,
  outfitId: 'outfit',
  who: 'bo',
  ...more,
})
const report = (cuts: readonly Cut[], plan?: PlanAhead, of = farm) =>
  seasonReport({ farm: of, nowEpochH: NOON, cuts, plan, skill: undefined })
const corn = (cuts: readonly Cut[], plan?: PlanAhead, of = farm) =>
  report(cuts, plan, of).crops.find(({ crop }) => crop === 'corn')!

describe('the season so far', () => {
  it('of a field that nobody has touched is nothing cut of all of it', () => {
    const { crops, cutHa, areaHa, loads } = report([])
    expect(crops.map(({ crop }) => crop)).toEqual(['soybean', 'corn'])
    expect(crops[1]!.areaHa).toBeCloseTo(BETA_HA, 6)
    expect(areaHa).toBeCloseTo(crops[0]!.areaHa + BETA_HA, 6)
    expect([cutHa, loads]).toEqual([0, []])
    expect(crops[1]!.harvested.massT).toBeNaN()
  })

  it('adds the area up by day of the farm, not of Greenwich', () => {
    // 8 in the evening at the farm is past midnight UTC in September (CDT = UTC - 5 h).
    const evening = cut('beta', 10, 1, { atEpochH: NOON - DAY_H + 8 })
    const { days, cutHa } = corn([evening, cut('beta', 6, 1), cut('beta', 4, 0)])
    expect(days.map((day) => [day.date.toString(), Math.round(day.areaHa * 1e6) / 1e6])).toEqual([
      ['2010-09-19', 16],
      ['2010-09-20', 4],
    ])
    expect(cutHa).toBeCloseTo(20, 9)
  })

  it('counts no more than the field has, and all of it once it is done', () => {
    expect(corn([cut('beta', 40, 2), cut('beta', 30, 1)]).cutHa).toBeCloseTo(BETA_HA, 6)
    const done = corn([cut('beta', 40, 2), cut('beta', 1, 1, { done: true })])
    expect(done.days.map(({ areaHa }) => Math.round(areaHa * 100) / 100)).toEqual([
      40,
      Math.round((BETA_HA - 40) * 100) / 100,
    ])
  })

  it('takes the day of the farm file for a field that it says was cut', () => {
    const of = { ...farm, fields: [{ ...beta, cutOn: date(18) }] }
    expect(corn([], undefined, of).days).toEqual([{ date: date(18), areaHa: beta.areaHa, moistureWb: Number.NaN }])
    const told = corn([cut('beta', 8, 4), cut('beta', 8, 1)], undefined, of)
    expect(told.cutHa).toBeCloseTo(BETA_HA, 9)
    expect(told.days.map((day) => [day.date.day, Math.round(day.areaHa)])).toEqual([
      [16, 8],
      [18, Math.round(BETA_HA - 8)],
    ])
    const tomorrow = { ...farm, fields: [{ ...beta, cutOn: date(21) }] }
    expect(corn([], undefined, tomorrow).cutHa).toBe(0)
  })

  it('leaves out the crop of the year before, and what has not happened yet', () => {
    expect(corn([cut('beta', 10, 365), cut('beta', 10, -1)]).cutHa).toBe(0)
  })

  it('weighs loads as a scale ticket adds up: bushels of 56 lb, moisture by mass', () => {
    // 5,600 bu of corn at 56 lb and 0.45359237 kg/lb (USDA bushel weight; NIST Handbook 44) are 142.248 t; off 28 acres
    // of 120 that is 200 bu/acre.
    const acre = 0.40468564224
    const t = (bu: number) => (bu * 56 * 0.45359237) / 1000
    const loads = [
      cut('beta', 8 * acre, 2, { massT: t(1600), moistureWb: 20 }),
      cut('beta', 20 * acre, 1, { massT: t(4000), moistureWb: 17 }),
      cut('beta', 5 * acre, 0),
    ]
    const { harvested } = corn(loads)
    expect(harvested.massT).toBeCloseTo(142.2466, 3)
    expect(harvested.yieldTHa).toBeCloseTo(t(200) / acre, 9)
    expect(harvested.moistureWb).toBeCloseTo((1600 * 20 + 4000 * 17) / 5600, 9)
    const listed = report(loads).loads
    expect(listed.map(({ moistureWb }) => moistureWb)).toEqual([17, 20])
    expect(listed.every(({ crop, outfitId }) => crop === 'corn' && outfitId === 'outfit')).toBe(true)
  })

  it('says by which day all but a twentieth is likely cut, from what the plan expects', () => {
    const later = [
      { date: date(20), partKey: 'beta', meanHa: 20, chance: 0.9 },
      { date: date(21), partKey: 'beta', meanHa: 20, chance: 0.8 },
      { date: date(23), partKey: 'beta', meanHa: 6, chance: 0.5 },
      { date: date(25), partKey: 'beta', meanHa: 2, chance: 0.2 },
      { date: date(20), partKey: 'alpha', meanHa: 5, chance: 0.5 },
    ]
    const left = [{ partKey: 'beta', meanHa: 0.5, chance: 0.1 }]
    const { ahead } = corn([], { later, left })
    // 48.5 ha stand; a twentieth is 2.425. Left after the 21st 8.5, after the 23rd 2.5, after the 25th 0.5.
    expect(ahead!.likelyDoneOn).toEqual(date(25))
    expect(ahead!.leftHa).toBe(0.5)
    expect(ahead!.days.map((day) => day.date.day)).toEqual([20, 21, 23, 25])
    expect(
      corn([], { later: later.slice(0, 2), left: [{ partKey: 'beta', meanHa: 8.5, chance: 0.9 }] }).ahead,
    ).toMatchObject({
      likelyDoneOn: undefined,
      leftHa: 8.5,
    })
    expect(corn([], { later: [], left: [] }).ahead).toBeUndefined()
    expect(corn([]).ahead).toBeUndefined()
  })

  it('never has more cut than there is, day by day or in all', () => {
    const cuts = fc.array(
      fc.record({
        partKey: fc.constantFrom('alpha', 'alpha/swale', 'alpha/hole', 'beta'),
        areaHa: fc.double({ min: 0.01, max: 60, noNaN: true }),
        daysAgo: fc.integer({ min: 0, max: 20 }),
        done: fc.boolean(),
      }),
      { maxLength: 12 },
    )
    fc.assert(
      fc.property(cuts, (told) => {
        const { crops } = report(
          told.map(({ partKey, areaHa, daysAgo, done }) => cut(partKey, areaHa, daysAgo, { done })),
        )
        for (const { areaHa, cutHa, days } of crops) {
          expect(cutHa).toBeLessThanOrEqual(areaHa + 1e-9)
          expect(cutHa).toBeGreaterThanOrEqual(0)
          expect(days.every((day) => day.areaHa > -1e-9)).toBe(true)
          expect(days.reduce((sum, day) => sum + day.areaHa, 0)).toBeCloseTo(cutHa, 9)
        }
      }),
      { numRuns: 200 },
    )
  })
})

describe('the season in the book', () => {
  it('is what holds there: without what was taken back, with the forecasts held against what was read', async () => {
    const book = await memoryBook()
    await seedFields(book.farm, book.store, NOON)
    await takeCut(book, { field: 'Beta', areaHa: 10, by: 'bo', at: NOON - 30, massT: 90, moistureWb: 18 })
    await takeCut(book, { field: 'Beta', areaHa: 5, by: 'bo', at: NOON - 3, key: 'slip' })
    await takeBack(book, 'cut', 'slip', 'bo')
    await takeReading(book, { field: 'Beta', moistureWb: 18, instrument: { kind: 'hand' }, by: 'ann', at: NOON - 2 })
    const kept = (madeAtEpochH: number, wb: number): KeptForecast => ({
      farmId: book.farm.id,
      partKey: 'beta',
      crop: 'corn',
      madeOn: date(20),
      madeAtEpochH,
      startEpochH: madeAtEpochH,
      hours: 240,
      moistureWb: new Float32Array(2400).fill(wb),
    })
    // Two forecasts within two days of the reading, one too wet by half a point and one too dry by as much; a third is older.
    const all = [kept(NOON - 8, 18.5), kept(NOON - 30, 17.5), kept(NOON - 100, 30)]
    const forecasts: Pick<ForecastStore, 'forecasts'> = { forecasts: () => Promise.resolve(all) }
    const { cutHa, loads, skill } = await seasonFromBook(book.farm, { records: book.store, forecasts }, undefined, NOON)
    expect(cutHa).toBeCloseTo(10, 9)
    expect(loads).toHaveLength(1)
    expect(skill).toMatchObject({ count: 2, bias: 0, inside90: 0 })
    expect(skill!.rmse).toBeCloseTo(0.5, 6)
  })

  it('is told without a book', async () => {
    const { cutHa, skill, saved } = await seasonFromBook(farm, {}, undefined, NOON)
    expect([cutHa, skill, saved]).toEqual([0, undefined, undefined])
  })
})
