import fc from 'fast-check'
import { beforeEach, describe, expect, it } from 'vitest'
import { seedFields } from '#app/farm-fields.ts'
import type { RecordFault } from '#app/record-faults.ts'
import {
  type Book,
  noteEvent,
  type ToldCut,
  type ToldEvent,
  type ToldReading,
  takeBack,
  takeCut,
  takeReading,
} from '#app/records.ts'
import type { RecordKind } from '#app/records-port.ts'
import { toldInBook } from '#app/told.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})

const READING: ToldReading = { field: 'Alpha', moistureWb: 12.4, instrument: { kind: 'hand' }, by: 'Ann' }
const CUT: ToldCut = { field: 'Beta', areaHa: 10, by: 'Bo' }
const EVENT: ToldEvent = { field: 'Alpha', kind: 'maturity-seen', by: 'Ann' }
const reading = (more: Partial<ToldReading> = {}) => takeReading(book, { ...READING, ...more })
const cut = (more: Partial<ToldCut> = {}) => takeCut(book, { ...CUT, ...more })
const event = (more: Partial<ToldEvent> = {}) => noteEvent(book, { ...EVENT, ...more })
const current = async <K extends RecordKind>(kind: K) => await book.store.current(book.farm.id, kind)
const everything = async () =>
  (
    await Promise.all((['reading', 'cut', 'event'] as const).map((kind) => book.store.history(book.farm.id, kind)))
  ).flat()
const areaOf = (name: string) => book.farm.fields.find((field) => field.name === name)!.areaHa

describe('a reading', () => {
  it('is kept with who, when, where and the usual error of its instrument', async () => {
    expect((await reading()).kind).toBe('kept')
    const [record] = await current('reading')
    expect(record).toMatchObject({ fieldId: 'alpha', atEpochH: NOON, by: 'ann', toldAtEpochH: NOON })
    expect(record!.body).toEqual({
      id: record!.key,
      partKey: 'alpha',
      atEpochH: NOON,
      moistureWb: 12.4,
      instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 },
      who: 'ann',
    })
  })

  it('is told of a field or a patch by id, by name in any case, or by the key of the part', async () => {
    const cases: [Partial<ToldReading>, string][] = [
      [{ field: 'alpha' }, 'alpha'],
      [{ field: ' ALPHA ' }, 'alpha'],
      [{ patch: 'Swale' }, 'alpha/swale'],
      [{ patch: 'hole' }, 'alpha/hole'],
      [{ field: 'alpha/swale' }, 'alpha/swale'],
    ]
    for (const [more, partKey] of cases) {
      const answer = await reading({ ...more, key: JSON.stringify(more) })
      expect(answer).toMatchObject({ kind: 'kept', record: { body: { partKey } } })
    }
  })

  it('takes its time as hours, with an offset, or by the clock of the farm', async () => {
    for (const at of [NOON - 2, '2010-09-20T10:00-05:00', '2010-09-20T15:00Z', '2010-09-20 10:00']) {
      expect(await reading({ at, key: String(at) })).toMatchObject({ kind: 'kept', record: { atEpochH: NOON - 2 } })
    }
  })

  it('of a buyer is named by him, and blends the patches the crew cuts through by their share', async () => {
    const ticket = await reading({ instrument: { kind: 'ticket' } })
    // Main stand 0.7 of the field, Hole 0.2 cut through, Swale 0.1 left: 0.2 / 0.9 of the load came from the Hole.
    expect(ticket).toMatchObject({
      record: {
        body: { instrument: { id: 'river-house', kind: 'ticket', sdWb: 0.35 }, blend: [{ partKey: 'alpha/hole' }] },
      },
    })
    if (ticket.kind === 'refused') throw new Error('refused')
    expect(ticket.record.body!.blend![0]!.share).toBeCloseTo(2 / 9, 12)
    const ofPatch = await reading({ patch: 'Hole', instrument: { kind: 'ticket', id: 'other' } })
    expect(ofPatch.kind === 'kept' && ofPatch.record.body!.blend).toBeUndefined()
  })

  it('may come from someone the farm file does not know', async () => {
    await reading({ by: ' Hired hand ' })
    expect((await current('reading'))[0]!.by).toBe('Hired hand')
  })
})

describe('sent again', () => {
  it('under its key, or word for word, it counts once', async () => {
    expect((await reading({ key: 'k1' })).kind).toBe('kept')
    expect((await reading({ key: 'k1' })).kind).toBe('known')
    expect((await reading({ at: NOON - 1 })).kind).toBe('kept')
    expect((await reading({ at: NOON - 1 })).kind).toBe('known')
    expect(await current('reading')).toHaveLength(2)
  })

  it('later, when its time was left to the clock, it is still the same', async () => {
    await reading({ key: 'k1' })
    book = { ...book, nowEpochH: NOON + 2 }
    expect(await reading({ key: 'k1' })).toMatchObject({ kind: 'known', record: { atEpochH: NOON } })
  })

  it('after the field was finished, it gets the first answer', async () => {
    await reading({ key: 'k1' })
    await cut({ field: 'Alpha', areaHa: undefined, done: true, key: 'c1' })
    book = { ...book, nowEpochH: NOON + 2 }
    expect((await reading({ key: 'k1' })).kind).toBe('known')
    expect((await cut({ field: 'Alpha', areaHa: undefined, done: true, key: 'c1' })).kind).toBe('known')
    expect(await current('cut')).toHaveLength(1)
  })

  it('with something else under the same key, it is refused and changes nothing', async () => {
    await reading({ key: 'k1' })
    for (const more of [{ moistureWb: 13 }, { field: 'Beta' }, { by: 'bo' }, { at: NOON - 5 }, { patch: 'Hole' }]) {
      expect(await reading({ key: 'k1', ...more })).toMatchObject({ kind: 'refused', fault: { code: 'key-taken' } })
    }
    expect((await everything()).map(({ body }) => body)).toMatchObject([{ moistureWb: 12.4, partKey: 'alpha' }])
  })
})

describe('a correction', () => {
  it('takes the place of what it corrects, once', async () => {
    await reading({ key: 'wrong', moistureWb: 21.4 })
    expect((await reading({ key: 'right', moistureWb: 12.4, replaces: 'wrong' })).kind).toBe('kept')
    expect((await current('reading')).map(({ body }) => body.moistureWb)).toEqual([12.4])
    expect(await reading({ key: 'late', replaces: 'wrong' })).toMatchObject({
      kind: 'refused',
      fault: { code: 'already-replaced', key: 'wrong', by: 'right' },
    })
    expect(await everything()).toHaveLength(2)
  })

  it('of nothing is refused', async () => {
    expect(await reading({ replaces: 'nowhere' })).toMatchObject({ fault: { code: 'unknown-record', said: 'nowhere' } })
    expect(await takeBack(book, 'reading', 'nowhere', 'ann')).toMatchObject({ fault: { code: 'unknown-record' } })
    expect(await everything()).toEqual([])
  })

  it('may only take back, and twice is once', async () => {
    await reading({ key: 'wrong' })
    expect((await takeBack(book, 'reading', 'wrong', 'Bo')).kind).toBe('kept')
    expect((await takeBack(book, 'reading', 'wrong', 'Bo')).kind).toBe('known')
    expect(await current('reading')).toEqual([])
    expect((await book.store.history(book.farm.id, 'reading')).map(({ by }) => by).sort()).toEqual(['ann', 'bo'])
  })

  it('of a cut frees its area for the new one', async () => {
    await cut({ key: 'c1', areaHa: areaOf('Beta') })
    expect(await cut({ key: 'c2', at: NOON - 1, areaHa: 12 })).toMatchObject({ fault: { code: 'area-too-large' } })
    expect((await cut({ key: 'c2', replaces: 'c1', areaHa: 12 })).kind).toBe('kept')
    expect(
      standingHa(
        book.farm,
        (await current('cut')).map(({ body }) => body),
      ).get('beta'),
    ).toBeCloseTo(areaOf('Beta') - 12)
  })
})

describe('a cut', () => {
  it('needs no outfit where the farm has one, and keeps what was weighed and measured', async () => {
    await cut({ massT: 110, moistureWb: 17.2 })
    expect((await current('cut'))[0]!.body).toMatchObject({
      areaHa: 10,
      outfitId: 'outfit',
      massT: 110,
      moistureWb: 17.2,
    })
  })

  it('said to be done takes what is left', async () => {
    await cut({ areaHa: 10, at: NOON - 1 })
    await cut({ areaHa: undefined, done: true })
    expect((await current('cut')).map(({ body }) => body.areaHa)).toEqual([10, areaOf('Beta') - 10])
    expect(await cut({ at: NOON + 0.1 })).toMatchObject({ fault: { code: 'part-finished', finishedEpochH: NOON } })
  })

  it('may go a little beyond the drawn area, not far', async () => {
    expect((await cut({ areaHa: areaOf('Beta') * 1.08, key: 'a' })).kind).toBe('kept')
    expect(await cut({ areaHa: areaOf('Beta') * 1.3, key: 'b', at: NOON - 3 })).toMatchObject({
      fault: { code: 'area-too-large', standingHa: 0 },
    })
  })
})

describe('an event', () => {
  it('is kept, with the days of a delay', async () => {
    await event()
    await event({ patch: 'Swale', kind: 'regreened', laterDays: 6 })
    expect((await current('event')).map(({ body }) => body)).toMatchObject([
      { partKey: 'alpha/swale', kind: 'regreened', laterDays: 6 },
      { partKey: 'alpha', kind: 'maturity-seen' },
    ])
  })
})

describe('another season', () => {
  it('begins with nothing cut and nothing finished', async () => {
    await cut({ done: true, areaHa: undefined })
    const plantedOn = Temporal.PlainDate.from('2011-04-25')
    const fields = book.farm.fields.map((field) => ({ ...field, plantedOn }))
    book = { ...book, farm: { ...book.farm, fields }, nowEpochH: NOON + 365 * 24 }
    expect((await reading({ field: 'Beta', moistureWb: 22 })).kind).toBe('kept')
    expect((await cut({ areaHa: areaOf('Beta') })).kind).toBe('kept')
    const { told } = await toldInBook(book.farm, book.store, book.nowEpochH)
    // The book has no field yet: what it says belongs to none of its parts.
    expect(told.cuts).toEqual([])
    await seedFields(book.farm, book.store, book.nowEpochH)
    expect((await toldInBook(book.farm, book.store, book.nowEpochH)).told.cuts).toHaveLength(1)
  })
})

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
