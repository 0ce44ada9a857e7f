import fc from 'fast-check'
import { beforeEach, describe, expect, it } from 'vitest'
import type { RecordFault } from '#app/record-faults.ts'
import type { Book } from '#app/records.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { teller } from '#tests/app/support/teller.ts'

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})

const { reading, cut, event, everything } = teller(() => book)

describe('nonsense', () => {
  const cases: [string, () => Promise<unknown>, RecordFault['code']][] = [
    ['130 %', () => reading({ moistureWb: 130 }), 'moisture-impossible'],
    ['0 %', () => reading({ moistureWb: 0 }), 'moisture-impossible'],
    ['below none', () => reading({ moistureWb: -12 }), 'moisture-impossible'],
    ['not a number', () => reading({ moistureWb: Number.NaN }), 'moisture-impossible'],
    ['1970', () => reading({ at: 0 }), 'before-planting'],
    ['1970 as text', () => reading({ at: '1970-01-01T00:00Z' }), 'before-planting'],
    ['before planting', () => reading({ at: '2010-04-30 12:00' }), 'before-planting'],
    ['tomorrow', () => reading({ at: NOON + 24 }), 'time-ahead'],
    ['in an hour', () => reading({ at: NOON + 1 }), 'time-ahead'],
    ['soon', () => reading({ at: 'soon' }), 'time-unreadable'],
    ['no such day', () => reading({ at: '2010-09-31 12:00' }), 'time-unreadable'],
    ['a date without a time', () => reading({ at: '2010-09-12' }), 'time-unreadable'],
    ['an hour that never was', () => reading({ at: Number.NaN }), 'time-unreadable'],
    ['an unknown field', () => reading({ field: 'Gamma' }), 'unknown-field'],
    ['an unknown patch', () => reading({ patch: 'Knoll' }), 'unknown-patch'],
    ['a patch of a field without any', () => reading({ field: 'Beta', patch: 'Hole' }), 'unknown-patch'],
    ['nobody', () => reading({ by: ' ' }), 'who-missing'],
    ['an empty key', () => reading({ key: '' }), 'key-impossible'],
    ['a key with a line break', () => reading({ key: 'a\nb' }), 'key-impossible'],
    ['an endless key', () => reading({ key: 'x'.repeat(201) }), 'key-impossible'],
    ['a broken meter', () => reading({ instrument: { kind: 'hand', offsetWb: 9 } }), 'offset-impossible'],
    ['an error of none', () => reading({ instrument: { kind: 'hand', sdWb: 0 } }), 'error-impossible'],
    ['an area of none', () => cut({ areaHa: 0 }), 'area-impossible'],
    ['an area below none', () => cut({ areaHa: -4 }), 'area-impossible'],
    ['no area', () => cut({ areaHa: undefined }), 'area-impossible'],
    ['an endless area', () => cut({ areaHa: Number.POSITIVE_INFINITY }), 'area-impossible'],
    ['ten times the field', () => cut({ areaHa: 480 }), 'area-too-large'],
    ['ten times the field, done', () => cut({ areaHa: 480, done: true }), 'area-too-large'],
    ['an unknown outfit', () => cut({ outfit: 'Ghosts' }), 'unknown-outfit'],
    ['a mountain of grain', () => cut({ massT: 1e6 }), 'mass-impossible'],
    ['wet grain cut', () => cut({ moistureWb: 99 }), 'moisture-impossible'],
    ['a cut tomorrow', () => cut({ at: NOON + 24 }), 'time-ahead'],
    ['a delay of a year', () => event({ kind: 'regreened', laterDays: 365 }), 'days-impossible'],
    ['a delay of nothing', () => event({ kind: 'regreened' }), 'days-impossible'],
    ['mature next week', () => event({ at: NOON + 168 }), 'time-ahead'],
  ]
  it.each(cases)('%s gets a clear answer and changes nothing', async (_, tell, code) => {
    expect(await tell()).toMatchObject({ kind: 'refused', fault: { code } })
    expect(await everything()).toEqual([])
  })

  it('a reading in a finished field gets a clear answer and changes nothing; a late ticket of its loads is taken', async () => {
    await cut({ done: true, at: NOON - 3 })
    const before = await everything()
    for (const at of [undefined, NOON, NOON - 2]) {
      expect(await reading({ field: 'Beta', moistureWb: 17, at })).toMatchObject({
        kind: 'refused',
        fault: { code: 'part-finished', partName: 'Beta', finishedEpochH: NOON - 3 },
      })
    }
    expect(await event({ field: 'Beta' })).toMatchObject({ fault: { code: 'part-finished' } })
    expect(await everything()).toEqual(before)
    const ticket = { field: 'Beta', moistureWb: 17, instrument: { kind: 'ticket' } } as const
    expect((await reading({ ...ticket, at: NOON - 3 })).kind).toBe('kept')
    expect((await reading({ ...ticket, at: NOON - 5 })).kind).toBe('kept')
  })

  it('a reading of a patch that still stands in a field otherwise finished is taken', async () => {
    await cut({ field: 'Alpha', areaHa: undefined, done: true, at: NOON - 3 })
    expect((await reading({ patch: 'Swale' })).kind).toBe('kept')
    expect(await reading({ patch: 'Hole' })).toMatchObject({ fault: { code: 'part-finished' } })
  })

  it('a reading after the day on which the farm file says the field was cut is refused', async () => {
    const fields = book.farm.fields.map((field) => ({ ...field, cutOn: Temporal.PlainDate.from('2010-09-18') }))
    book = { ...book, farm: { ...book.farm, fields } }
    expect(await reading()).toMatchObject({ fault: { code: 'part-finished' } })
    expect((await reading({ at: '2010-09-18 16:00' })).kind).toBe('kept')
  })
})

describe('whatever is told', () => {
  it('is either kept, once, as told, or refused without a trace', async () => {
    const anything = fc.record({
      field: fc.constantFrom('Alpha', 'Beta', 'Gamma', ''),
      patch: fc.constantFrom(undefined, 'Swale', 'x'),
      moistureWb: fc.oneof(fc.double({ min: 2, max: 90 }), fc.double()),
      at: fc.oneof(fc.constant(undefined), fc.double({ min: NOON - 4000, max: NOON + 50 }), fc.double(), fc.string()),
      by: fc.constantFrom('ann', '', 'someone'),
      key: fc.oneof(fc.constant(undefined), fc.string({ maxLength: 3 })),
    })
    await fc.assert(
      fc.asyncProperty(anything, async (told) => {
        book = await memoryBook()
        const answer = await reading(told)
        const kept = await everything()
        expect(kept).toHaveLength(answer.kind === 'kept' ? 1 : 0)
        if (answer.kind !== 'kept') return
        expect(kept[0]).toEqual(answer.record)
        expect(answer.record.body!.moistureWb).toBe(told.moistureWb)
        expect((await reading(told)).kind).toBe('known')
        expect(await everything()).toHaveLength(1)
      }),
      { numRuns: 150 },
    )
  })
})
