import { beforeEach, describe, expect, it } from 'vitest'
import { decide, plannableFromBook } from '#app/decisions.ts'
import { type Book, takeBack } from '#app/records.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { smallOutfit } from '#tests/support/small-outlook.ts'

let book: Book
beforeEach(async () => {
  book = await memoryBook()
})
const day = (text: string) => Temporal.PlainDate.from(text)
const pin = (partKey: string, date: string): PlanChange => ({ kind: 'pin', pin: { partKey, date: day(date) } })
const keepOff = (from: string, to: string): PlanChange => ({
  kind: 'keep-off',
  keepOff: { partKey: 'beta', from: day(from), to: day(to) },
})
const plannable = () => plannableFromBook(book.farm, book.store, book.nowEpochH)

describe('decisions', () => {
  it('are none before any was made', async () => {
    expect(await plannable()).toEqual({ farm: book.farm, rules: NO_RULES })
  })

  it('hold in the order they were made, with their dates as dates, and who made them stays', async () => {
    await decide(book, pin('alpha', '2010-09-22'), 'Ann')
    book = { ...book, nowEpochH: NOON + 1 }
    await decide(book, pin('alpha', '2010-09-24'), 'Ann')
    await decide(book, keepOff('2010-09-21', '2010-09-23'), 'Bo')
    await decide(book, { kind: 'hours', outfitId: 'outfit', startMinute: 420, endMinute: 1200 }, 'Ann')
    const { farm, rules } = await plannable()
    expect(rules.pins).toHaveLength(1)
    expect(rules.pins[0]!.date.equals('2010-09-24')).toBe(true)
    expect(rules.keepOffs[0]!.to.equals('2010-09-23')).toBe(true)
    expect(farm.outfits[0]!.crewHours).toEqual({ startMinute: 420, endMinute: 1200 })
    expect(book.farm.outfits[0]!.crewHours.startMinute).toBe(480)
    const told = await book.store.history(book.farm.id, 'decision')
    expect(told.map(({ by, fieldId }) => [by, fieldId]).sort()).toEqual([
      ['ann', ''],
      ['ann', 'alpha'],
      ['ann', 'alpha'],
      ['bo', 'beta'],
    ])
  })

  it('sent again count once, under another sense of the same key not at all', async () => {
    expect((await decide(book, pin('alpha', '2010-09-22'), 'ann', 'k')).kind).toBe('kept')
    book = { ...book, nowEpochH: NOON + 1 }
    expect((await decide(book, pin('alpha', '2010-09-22'), 'ann', 'k')).kind).toBe('known')
    expect(await decide(book, pin('alpha', '2010-09-23'), 'ann', 'k')).toMatchObject({ fault: { code: 'key-taken' } })
    expect(await book.store.history(book.farm.id, 'decision')).toHaveLength(1)
  })

  it('sent again get the first answer, though the day has passed or the outfit is there by now', async () => {
    const add: PlanChange = { kind: 'add-outfit', outfit: smallOutfit('hired') }
    await decide(book, pin('alpha', '2010-09-21'), 'ann', 'pin')
    await decide(book, add, 'ann', 'add')
    book = { ...book, nowEpochH: NOON + 48, farm: (await plannable()).farm }
    expect(book.farm.outfits.map(({ id }) => id)).toContain('hired')
    expect((await decide(book, pin('alpha', '2010-09-21'), 'ann', 'pin')).kind).toBe('known')
    expect((await decide(book, add, 'ann', 'add')).kind).toBe('known')
  })

  it('stay as they were told, whatever is done with what was handed in or given out', async () => {
    const daysOff = [6, 7]
    await decide(book, { kind: 'days-off', outfitId: 'outfit', daysOff }, 'ann', 'k')
    daysOff.pop()
    const { body } = (await book.store.find(book.farm.id, 'decision', 'k'))!
    ;(body as unknown as { daysOff: number[] }).daysOff.push(1)
    expect((await plannable()).farm.outfits[0]!.daysOff).toEqual([6, 7])
  })

  it('can be undone: taken back, or by a later one', async () => {
    await decide(book, pin('alpha', '2010-09-22'), 'ann', 'k')
    expect((await takeBack(book, 'decision', 'k', 'ann')).kind).toBe('kept')
    expect((await plannable()).rules.pins).toEqual([])
    await decide(book, keepOff('2010-09-21', '2010-09-23'), 'ann')
    book = { ...book, nowEpochH: NOON + 1 }
    await decide(book, { kind: 'allow', partKey: 'beta' }, 'ann')
    expect((await plannable()).rules.keepOffs).toEqual([])
  })

  it('lapse when their date has passed, a deadline does not', async () => {
    await decide(book, pin('alpha', '2010-09-21'), 'ann')
    await decide(book, keepOff('2010-09-20', '2010-09-22'), 'ann')
    await decide(book, { kind: 'deadline', deadline: { partKey: 'alpha', date: day('2010-09-21') } }, 'ann')
    book = { ...book, nowEpochH: NOON + 48 }
    const { rules } = await plannable()
    expect([rules.pins.length, rules.keepOffs.length, rules.deadlines.length]).toEqual([0, 1, 1])
  })

  it('about last year’s crop do not hold for this year’s', async () => {
    await decide(book, { kind: 'deadline', deadline: { partKey: 'alpha', date: day('2010-09-25') } }, 'ann')
    const fields = book.farm.fields.map((field) => ({ ...field, plantedOn: day('2011-05-01') }))
    book = { ...book, farm: { ...book.farm, fields }, nowEpochH: NOON + 365 * 24 }
    expect((await plannable()).rules.deadlines).toEqual([])
  })

  it.each([
    [pin('gamma', '2010-09-22'), 'unknown-field'],
    [pin('alpha', '2010-09-19'), 'date-past'],
    [keepOff('2010-09-23', '2010-09-21'), 'dates-turned'],
    [keepOff('2010-09-10', '2010-09-12'), 'date-past'],
    [{ kind: 'pin', pin: { partKey: 'alpha', date: day('2010-09-22'), areaHa: 0 } }, 'area-impossible'],
    [{ kind: 'pin', pin: { partKey: 'alpha', date: day('2010-09-22'), areaHa: 400 } }, 'area-too-large'],
    [{ kind: 'hours', outfitId: 'outfit', startMinute: 900, endMinute: 600 }, 'hours-impossible'],
    [{ kind: 'hours', outfitId: 'outfit', startMinute: Number.NaN, endMinute: 600 }, 'hours-impossible'],
    [{ kind: 'hours', outfitId: 'other', startMinute: 480, endMinute: 600 }, 'unknown-outfit'],
    [{ kind: 'days-off', outfitId: 'other', daysOff: [7] }, 'unknown-outfit'],
    [{ kind: 'drop-outfit', outfitId: 'other' }, 'unknown-outfit'],
    [
      { kind: 'add-cart', outfitId: 'other', cart: { name: 'cart', capacityL: 30_000, unloadLPerS: 200 } },
      'unknown-outfit',
    ],
    [
      { kind: 'add-truck', outfitId: 'other', truck: { name: 'truck', capacityL: 30_000, roadSpeedMs: 17 } },
      'unknown-outfit',
    ],
    [{ kind: 'pin', pin: { partKey: 'alpha', date: day('2010-09-22'), outfitId: 'other' } }, 'unknown-outfit'],
    [{ kind: 'add-outfit', outfit: smallOutfit('outfit') }, 'outfit-exists'],
    // ISO 8601: Monday is 1, Sunday 7.
    [{ kind: 'days-off', outfitId: 'outfit', daysOff: [0] }, 'weekday-impossible'],
    [{ kind: 'days-off', outfitId: 'outfit', daysOff: [7, 8] }, 'weekday-impossible'],
    [{ kind: 'days-off', outfitId: 'outfit', daysOff: [1.5] }, 'weekday-impossible'],
  ] as [PlanChange, string][])('%j is refused and changes nothing', async (change, code) => {
    expect(await decide(book, change, 'ann')).toMatchObject({ kind: 'refused', fault: { code } })
    expect(await decide(book, pin('alpha', '2010-09-22'), ' ')).toMatchObject({ fault: { code: 'who-missing' } })
    expect(await decide(book, pin('alpha', '2010-09-22'), 'ann', ' k')).toMatchObject({
      fault: { code: 'key-impossible' },
    })
    expect(await book.store.history(book.farm.id, 'decision')).toEqual([])
  })
})
