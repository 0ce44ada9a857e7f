import fc from 'fast-check'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { FarmRecord } from '#app/records-port.ts'
import type { Reading } from '#core/field/reading.ts'
import type { Field } from '#core/operation/farm.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { testDatabases } from '#tests/support/databases.ts'

const reading = (key: string, more: Partial<FarmRecord<'reading'>> = {}, wb = 12.3): FarmRecord<'reading'> => ({
  farmId: 'larkspur',
  kind: 'reading',
  key,
  fieldId: 'mill-forty',
  atEpochH: 357_900.123_456,
  by: 'ann',
  toldAtEpochH: 357_901.5,
  body: bodyOf(key, wb),
  ...more,
})

const bodyOf = (id: string, moistureWb: number): Reading => ({
  id,
  partKey: 'mill-forty',
  atEpochH: 357_900.123_456,
  moistureWb,
  instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 },
  who: 'ann',
})

const databases = testDatabases()

for (const database of databases) {
  describe(`the farm's book on ${database.name}`, () => {
    let where: string
    let store: Awaited<ReturnType<typeof openRecordStore>>
    beforeEach(async () => {
      where = await database.fresh()
      store = await openRecordStore(where)
    })
    afterEach(() => store.close())

    it('gives back what was kept, to the last bit, after a restart', async () => {
      const kept = [reading('a'), reading('b', { atEpochH: 1 / 3 + 357_900, replaces: 'a', by: 'bo "the" O’Neil' })]
      for (const record of kept) expect(await store.keep(record)).toEqual({ kind: 'kept' })
      const again = await openRecordStore(where)
      expect(await again.history('larkspur', 'reading')).toEqual(kept.toSorted((a, b) => a.atEpochH - b.atEpochH))
      expect(await again.find('larkspur', 'reading', 'b')).toEqual(kept[1])
      await again.close()
    })

    it('takes the same key once and says what stands under it', async () => {
      await store.keep(reading('a'))
      expect(await store.keep(reading('a', {}, 14))).toEqual({ kind: 'known', record: reading('a') })
      expect(await store.history('larkspur', 'reading')).toEqual([reading('a')])
    })

    it('keeps farms and kinds apart', async () => {
      await store.keep(reading('a'))
      expect(await store.keep(reading('a', { farmId: 'other' }))).toEqual({ kind: 'kept' })
      expect(await store.current('other', 'reading')).toHaveLength(1)
      expect(await store.current('larkspur', 'cut')).toEqual([])
      expect(await store.find('larkspur', 'cut', 'a')).toBeUndefined()
    })

    it('lets a correction take the place of a record, which stays in the history', async () => {
      await store.keep(reading('a'))
      await store.keep(reading('b', { replaces: 'a' }, 11))
      expect(await store.current('larkspur', 'reading')).toEqual([reading('b', { replaces: 'a' }, 11)])
      const { body: _, ...takenBack } = reading('c', { replaces: 'b' })
      await store.keep(takenBack)
      expect(await store.current('larkspur', 'reading')).toEqual([])
      expect(await store.history('larkspur', 'reading')).toHaveLength(3)
    })

    it('lets a record be replaced once only, whoever is quicker', async () => {
      await store.keep(reading('a'))
      const outcomes = await Promise.all(['x', 'y', 'z'].map((key) => store.keep(reading(key, { replaces: 'a' }, 10))))
      const winner = outcomes.findIndex(({ kind }) => kind === 'kept')
      expect(outcomes.map(({ kind }) => kind).sort()).toEqual(['kept', 'overtaken', 'overtaken'])
      for (const outcome of outcomes) {
        if (outcome.kind === 'overtaken') expect(outcome.record.key).toBe(['x', 'y', 'z'][winner])
      }
      expect(await store.current('larkspur', 'reading')).toHaveLength(1)
    })

    it('keeps every one of many at once, sent twice, by two openers, exactly once', async () => {
      const other = await openRecordStore(where)
      const keys = Array.from({ length: 100 }, (_, i) => `r${i}`)
      const outcomes = await Promise.all(keys.flatMap((key) => [store.keep(reading(key)), other.keep(reading(key))]))
      expect(outcomes.filter(({ kind }) => kind === 'kept')).toHaveLength(100)
      expect((await store.history('larkspur', 'reading')).map(({ key }) => key)).toEqual(keys.sort())
      await other.close()
    })

    it('refuses a number that is not known, and keeps nothing of it', async () => {
      await expect(store.keep(reading('a', {}, Number.NaN))).rejects.toThrow('moistureWb of a record is NaN')
      expect(await store.history('larkspur', 'reading')).toEqual([])
    })

    it('gives dates of a field back as dates', async () => {
      const field = {
        id: 'mill-forty',
        name: 'Mill Forty',
        crop: 'soybean',
        areaHa: 15.8,
        plantedOn: Temporal.PlainDate.from('2010-05-02'),
        maturitySeenOn: Temporal.PlainDate.from('2010-09-12'),
        patches: [],
      } as unknown as Field
      const { body: _, ...base } = reading('mill-forty/1')
      await store.keep({ ...base, kind: 'field', body: field })
      const [found] = await store.current('larkspur', 'field')
      expect(found!.body.plantedOn.equals('2010-05-02')).toBe(true)
      expect(found!.body.maturitySeenOn!.equals('2010-09-12')).toBe(true)
      expect(found!.body.cutOn).toBeUndefined()
    })
  })

  describe(`any text and any time on ${database.name}`, () => {
    it('come back as they were', async () => {
      const store = await openRecordStore(await database.fresh())
      let count = 0
      await fc.assert(
        fc.asyncProperty(
          // A database text holds any character but NUL, and no half of a surrogate pair.
          fc.string({ unit: 'grapheme' }).filter((text) => !text.includes('\0')),
          fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e7, max: 1e7 }),
          async (text, atEpochH) => {
            const key = `${count++}${text}`
            const record = reading(key, { atEpochH: atEpochH + 0, by: text, fieldId: text })
            expect(await store.keep(record)).toEqual({ kind: 'kept' })
            expect(await store.find('larkspur', 'reading', key)).toEqual(record)
          },
        ),
        { numRuns: 100 },
      )
      await store.close()
    })
  })
}
