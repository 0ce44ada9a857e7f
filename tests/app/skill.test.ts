import { describe, expect, it } from 'vitest'
import type { KeptForecast } from '#app/forecasts-port.ts'
import type { HeldForecast } from '#app/held-forecasts.ts'
import { takeReading } from '#app/records.ts'
import { poorRecordOf, recentRecord, skillReport, skillRows } from '#app/skill.ts'
import type { Reading } from '#core/field/reading.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'

/** Ten values from 2 points below to 2 above the middle. */
const about = (middleWb: number) => Float32Array.from({ length: 10 }, (_, k) => middleWb - 2 + (k * 4) / 9)
const held = (readWb: number, middleWb: number, more: Partial<HeldForecast> = {}): HeldForecast => ({
  partKey: 'alpha',
  crop: 'soybean',
  readAtEpochH: NOON - 1,
  leadH: 5,
  readWb,
  forecastWb: about(middleWb),
  ...more,
})

describe('rows of the report', () => {
  it('are by crop in the order of the crops, then by days ahead', () => {
    const rows = skillRows([
      held(13, 13, { crop: 'corn', leadH: 50 }),
      held(13, 13, { leadH: 25 }),
      held(13, 14, { leadH: 47.9 }),
      held(13, 13),
    ])
    expect(rows.map(({ crop, leadDays, skill }) => [crop, leadDays, skill.count])).toEqual([
      ['soybean', 0, 1],
      ['soybean', 1, 2],
      ['corn', 2, 1],
    ])
    expect(rows[1]!.skill.bias).toBeCloseTo(0.5, 5)
    expect(rows[1]!.skill.rmse).toBeCloseTo(Math.sqrt(0.5), 5)
  })

  it('are none where nothing was held', () => {
    expect(skillRows([])).toEqual([])
  })
})

describe('the recent record', () => {
  const many = (count: number, readWb: number, more: Partial<HeldForecast> = {}) =>
    Array.from({ length: count }, (_, n) => held(readWb, 13, { readAtEpochH: NOON - 1 - n, ...more }))

  it('is poor when the readings fall outside the band, or to one side of it', () => {
    expect(recentRecord(many(10, 16), NOON).poor).toBe(true)
    expect(recentRecord(many(10, 14.2), NOON).poor).toBe(true)
    expect(recentRecord(many(10, 13.4), NOON).poor).toBe(false)
  })

  it('is not judged by few readings, however many forecasts they are held against', () => {
    expect(recentRecord(many(9, 16), NOON).poor).toBe(false)
    const thrice = [0, 24, 48].flatMap((leadH) => many(4, 16, { leadH }))
    expect(recentRecord(thrice, NOON)).toMatchObject({ poor: false, skill: { count: 12 } })
  })

  it('forgets after two weeks and leaves long leads aside', () => {
    expect(recentRecord(many(20, 16, { readAtEpochH: NOON - 15 * 24 }), NOON).skill.count).toBe(0)
    expect(recentRecord(many(20, 16, { leadH: 72 }), NOON).skill.count).toBe(0)
    expect(recentRecord([], NOON).poor).toBe(false)
  })
})

describe('what the message says of it', () => {
  const reading = (n: number, moistureWb: number): Reading => ({
    id: `r${n}`,
    partKey: 'alpha',
    atEpochH: NOON - 2 * n,
    moistureWb,
    instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 },
    who: 'ann',
  })
  const made: KeptForecast = {
    farmId: 'f',
    partKey: 'alpha',
    crop: 'soybean',
    madeOn: Temporal.PlainDate.from('2010-09-19'),
    madeAtEpochH: NOON - 31,
    startEpochH: NOON - 31,
    hours: 48,
    moistureWb: Float32Array.from({ length: 480 }, (_, i) => about(13)[i % 10]!),
  }
  let since: number | undefined
  const kept = {
    forecasts: async (_: string, sinceEpochH?: number) => {
      since = sinceEpochH
      return [made]
    },
  }
  const said = (count: number, moistureWb: number) =>
    poorRecordOf(
      'f',
      Array.from({ length: count }, (_, n) => reading(n, moistureWb)),
      kept,
      NOON,
    )

  it('is how many fell inside and by how much it was off, and nothing of a good record or of few readings', async () => {
    expect(await said(12, 16)).toEqual({ inside90: 0, biasWb: expect.closeTo(-3, 5) })
    expect(since).toBe(NOON - 17 * 24)
    expect(await said(12, 13.2)).toBeUndefined()
    expect(await said(9, 16)).toBeUndefined()
  })
})

describe('the report', () => {
  it('holds what is in the book against what was kept', async () => {
    const database = await openAt<RecordTables & ForecastTables>(':memory:')
    const book = { ...(await memoryBook()), store: recordStore(database) }
    const forecasts = forecastStore(database)
    const values = Float32Array.from({ length: 48 * 10 }, (_, i) => about(13)[i % 10]!)
    await forecasts.keepForecasts([
      {
        farmId: book.farm.id,
        partKey: 'alpha',
        crop: 'soybean',
        madeOn: Temporal.PlainDate.from('2010-09-20'),
        madeAtEpochH: NOON - 7,
        startEpochH: NOON - 7,
        hours: 48,
        moistureWb: values,
      },
    ])
    const reading = { field: 'Alpha', instrument: { kind: 'hand' }, by: 'ann' } as const
    await takeReading(book, { ...reading, moistureWb: 12.5, at: NOON - 1, key: 'a' })
    await takeReading(book, { ...reading, moistureWb: 20, at: NOON - 1, key: 'wrong' })
    await takeReading(book, { ...reading, moistureWb: 13.5, at: NOON - 1, key: 'right', replaces: 'wrong' })
    const { rows } = await skillReport(book.farm.id, book.store, forecasts, NOON)
    expect(rows).toHaveLength(1)
    expect(rows[0]).toMatchObject({ crop: 'soybean', leadDays: 0, skill: { count: 2, inside90: 1, inside50: 1 } })
    expect(rows[0]!.skill.bias).toBeCloseTo(0, 2)
    expect(rows[0]!.skill.rmse).toBeCloseTo(0.5, 2)
    await database.destroy()
  })
})
