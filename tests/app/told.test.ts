import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { seedFields } from '#app/farm-fields.ts'
import { type Book, noteEvent, takeBack, takeCut, takeReading } from '#app/records.ts'
import { NOTHING_TOLD, toldBy, toldInBook } from '#app/told.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { DEMO_NOW, type Demo, demoDay, demoMorning, loadDemo } from '#tests/support/demo-day.ts'

describe('what was told', () => {
  let book: Book
  beforeEach(async () => {
    book = await memoryBook()
    await seedFields(book.farm, book.store, NOON)
  })

  it('is nothing before anybody told anything, and the fields are those of the file', async () => {
    const { farm, told } = await toldInBook(book.farm, book.store, NOON)
    expect(told).toEqual(NOTHING_TOLD)
    expect(JSON.stringify(farm)).toBe(JSON.stringify(book.farm))
  })

  it('is what holds: without what was corrected or taken back', async () => {
    const reading = { field: 'Alpha', moistureWb: 14, instrument: { kind: 'hand' }, by: 'ann' } as const
    await takeReading(book, { ...reading, key: 'a' })
    await takeReading(book, { ...reading, key: 'b', moistureWb: 13, replaces: 'a' })
    await takeReading(book, { ...reading, key: 'c' })
    await takeBack(book, 'reading', 'c', 'ann')
    await takeCut(book, { field: 'Beta', areaHa: 10, by: 'bo' })
    await noteEvent(book, { field: 'Alpha', kind: 'maturity-seen', by: 'ann' })
    const { told } = await toldInBook(book.farm, book.store, NOON)
    expect(told.readings.map(({ id }) => id)).toEqual(['b'])
    expect(told.cuts.map(({ areaHa }) => areaHa)).toEqual([10])
    expect(told.events.map(({ kind }) => kind)).toEqual(['maturity-seen'])
  })

  it('by a moment is what had happened by then', async () => {
    for (const at of [NOON - 2, NOON - 1, NOON]) await takeCut(book, { field: 'Beta', areaHa: 1, by: 'bo', at })
    const { told } = await toldInBook(book.farm, book.store, NOON)
    expect(toldBy(told, NOON - 1).cuts).toHaveLength(2)
    expect(toldBy(told, NOON - 3)).toEqual(NOTHING_TOLD)
  })
})

describe('the day of the demo', () => {
  let demo: Demo
  beforeAll(async () => {
    demo = await loadDemo()
  })

  it('changes with a reading of the field it would run, and says that it was measured', () => {
    const before = demoMorning(demo)
    const { part } = before.plan.runs[0]!
    const at = DEMO_NOW - 14
    const reading = (moistureWb: number) => ({
      id: 'r1',
      partKey: part.key,
      atEpochH: at,
      moistureWb,
      instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 } as const,
      who: 'ann',
    })
    const middle = (day: typeof before) => day.outlooks.find((outlook) => outlook.part.key === part.key)!.medianWb[8]!
    const wetter = demoDay(demo, DEMO_NOW, { readings: [reading(14)] })
    const drier = demoDay(demo, DEMO_NOW, { readings: [reading(8.5)] })
    expect(middle(wetter)).toBeGreaterThan(middle(before) + 0.5)
    expect(middle(drier)).toBeLessThan(middle(before))
    expect(before.message.confidence).toMatchObject({ measured: false })
    for (const day of [wetter, drier]) {
      const first = day.plan.runs[0]!.part.key
      expect(day.message.confidence).toMatchObject({ measured: first === part.key })
    }
  })

  it('is the same, bit for bit, in whatever order the readings came', () => {
    const keys = demoMorning(demo)
      .outlooks.slice(0, 3)
      .map(({ part }) => part.key)
    const readings = keys.map((partKey, i) => ({
      id: `r${i}`,
      partKey,
      atEpochH: DEMO_NOW - 14 - i,
      moistureWb: 12 + i,
      instrument: { id: 'hand', kind: 'hand', sdWb: 0.5 } as const,
      who: 'ann',
    }))
    const one = demoDay(demo, DEMO_NOW, { readings })
    const other = demoDay(demo, DEMO_NOW, { readings: readings.toReversed() })
    for (const [i, outlook] of one.outlooks.entries()) expect(other.outlooks[i]!.moistureWb).toEqual(outlook.moistureWb)
  })

  it('is rebuilt bit for bit from what is stored, whatever came first and however often the file was closed', async () => {
    const tell = async (path: string, order: readonly number[]) => {
      for (const n of order) {
        const store = await openRecordStore(path)
        await seedFields(demo.farm, store, DEMO_NOW)
        const book: Book = { farm: demo.farm, store, nowEpochH: DEMO_NOW }
        const at = DEMO_NOW - 40 + n / 3
        const { part } = demoMorning(demo).outlooks[n % 3]!
        const instrument = { kind: n % 2 === 0 ? 'combine' : 'hand' } as const
        const said = { field: part.key, by: 'ann', at, key: `k${n}` }
        const answer = await takeReading(book, { ...said, moistureWb: 11.1 + n / 7, instrument })
        expect(answer.kind).toBe('kept')
        await store.close()
      }
      const store = await openRecordStore(path)
      const { farm, told } = await toldInBook(demo.farm, store, DEMO_NOW)
      await store.close()
      return demoDay({ ...demo, farm }, DEMO_NOW, told)
    }
    const folder = mkdtempSync(join(tmpdir(), 'threshday-told-'))
    const one = await tell(join(folder, 'one.sqlite'), [0, 1, 2, 3, 4, 5])
    const other = await tell(join(folder, 'other.sqlite'), [5, 3, 1, 0, 4, 2])
    rmSync(folder, { recursive: true, force: true })
    expect(one.belief.instruments).toHaveLength(2)
    expect(other.belief).toEqual(one.belief)
    for (const [i, outlook] of one.outlooks.entries()) expect(other.outlooks[i]!.moistureWb).toEqual(outlook.moistureWb)
    expect(other.message).toEqual(one.message)
  })

  it('does not plan what was cut, and plans what is left of a part', () => {
    const before = demoMorning(demo)
    const [first, second] = before.plan.runs
    const cut = { atEpochH: DEMO_NOW - 10, outfitId: 'o', who: 'bo' }
    const cuts = [
      { ...cut, id: 'c1', partKey: first!.part.key, areaHa: 1, done: true },
      { ...cut, id: 'c2', partKey: second!.part.key, areaHa: second!.part.areaHa - 5 },
    ]
    const day = demoDay(demo, DEMO_NOW, { standingHa: standingHa(demo.farm, cuts) })
    expect(day.outlooks.some(({ part }) => part.key === first!.part.key)).toBe(false)
    expect(day.plan.runs.some(({ part }) => part.key === first!.part.key)).toBe(false)
    const left = day.plan.runs.filter(({ part }) => part.key === second!.part.key)
    for (const run of left) expect(run.areaHa).toBeLessThanOrEqual(5 + 1e-9)
    expect(left[0]?.ofAreaHa ?? 5).toBeCloseTo(5, 6)
  })
})
