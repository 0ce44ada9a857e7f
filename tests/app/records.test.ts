import { beforeEach, describe, expect, it } from 'vitest'
import { seedFields } from '#app/farm-fields.ts'
import { type Book, type ToldReading, takeBack } from '#app/records.ts'
import { toldInBook } from '#app/told.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { teller } from '#tests/app/support/teller.ts'

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})

const { reading, cut, event, current, everything } = teller(() => book)
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
