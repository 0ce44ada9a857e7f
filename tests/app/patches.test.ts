import { beforeEach, describe, expect, it } from 'vitest'
import { farmFromBook, seedFields } from '#app/farm-fields.ts'
import { joinPatch, splitField, type ToldPatch } from '#app/patches.ts'
import { type Book, takeReading } from '#app/records.ts'
import { parseFarm } from '#edges/config/load.ts'
import { memoryBook, NOON } from '#tests/app/support/book.ts'
import { BASE, spoiled } from '#tests/edges/config/base-farm.ts'

let book: Book
const file = parseFarm(BASE, 'farm.yaml').farm
beforeEach(async () => {
  book = await memoryBook()
  await seedFields(file, book.store, NOON)
})
const reread = async () => {
  book = { ...book, farm: await farmFromBook(file, book.store) }
}
const KNOLL: ToldPatch = {
  by: 'Ann',
  field: 'Alpha',
  name: 'Knoll é 2',
  share: 0.15,
  kind: 'green',
  laterDays: 5,
  handling: 'leave',
}
const split = (more: Partial<ToldPatch> = {}) => splitField(book, { ...KNOLL, ...more })
const patches = async () => {
  await reread()
  return book.farm.fields.find(({ id }) => id === 'alpha')!.patches.map(({ id, share }) => [id, share])
}
const BEFORE = [
  ['swale', 0.1],
  ['hole', 0.2],
]

describe('a patch', () => {
  it('is split off by its share, and told again is one', async () => {
    expect(await split()).toMatchObject({ kind: 'kept', patch: { id: 'knoll-e-2', name: 'Knoll é 2', share: 0.15 } })
    expect(await patches()).toEqual([...BEFORE, ['knoll-e-2', 0.15]])
    expect((await split()).kind).toBe('known')
    expect(await split({ laterDays: 9 })).toMatchObject({ kind: 'refused', fault: { code: 'patch-exists' } })
    expect(
      (await takeReading(book, { field: 'alpha/knoll-e-2', moistureWb: 30, instrument: { kind: 'hand' }, by: 'bo' }))
        .kind,
    ).toBe('kept')
  })

  it('is split off by its outline', async () => {
    // The eastern fifth of the base field, and beyond it.
    const outline = [
      [-88.122, 40],
      [-88.11, 40],
      [-88.11, 40.01],
      [-88.122, 40.01],
      [-88.122, 40],
    ] as const
    const answer = await split({ share: undefined, outline })
    expect(answer.kind === 'kept' && answer.patch.share).toBeCloseTo(0.2, 2)
    await reread()
    expect(book.farm.fields[0]!.patches.at(-1)!.outline).toEqual(outline)
    expect(await splitField(book, { ...KNOLL, field: 'Beta', share: undefined, outline })).toMatchObject({
      fault: { code: 'boundary-missing' },
    })
  })

  it.each([
    [{ share: 0 }, 'share-impossible'],
    [{ share: 0.7 }, 'share-impossible'],
    [{ share: Number.NaN }, 'share-impossible'],
    [{ share: undefined }, 'share-impossible'],
    [{ laterDays: -1 }, 'days-impossible'],
    [{ laterDays: 90 }, 'days-impossible'],
    [{ name: ' - ' }, 'name-impossible'],
    [{ name: 'Swale' }, 'patch-exists'],
    [{ field: 'Gamma' }, 'unknown-field'],
    [{ by: '' }, 'who-missing'],
    [
      {
        share: undefined,
        outline: [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 0],
        ] as [number, number][],
      },
      'share-impossible',
    ],
  ])('told as %j is refused and changes nothing', async (more, code) => {
    expect(await split(more)).toMatchObject({ kind: 'refused', fault: { code } })
    expect(await patches()).toEqual(BEFORE)
  })

  it('is joined again, unless it was measured', async () => {
    expect((await joinPatch(book, 'Alpha', 'Hole', 'ann')).kind).toBe('kept')
    expect(await patches()).toEqual([['swale', 0.1]])
    await takeReading(book, { field: 'Alpha', patch: 'Swale', moistureWb: 30, instrument: { kind: 'hand' }, by: 'bo' })
    expect(await joinPatch(book, 'Alpha', 'Swale', 'ann')).toMatchObject({ fault: { code: 'patch-measured' } })
    expect(await joinPatch(book, 'Alpha', 'Hole', 'ann')).toMatchObject({ fault: { code: 'unknown-patch' } })
  })

  it('split off by two at once is split off once', async () => {
    const answers = await Promise.all([split(), split({ name: 'Other' })])
    expect(answers.map(({ kind }) => kind).sort()).toEqual(['kept', 'refused'])
    expect(answers.find(({ kind }) => kind === 'refused')).toMatchObject({ fault: { code: 'changed-meanwhile' } })
    expect(await patches()).toHaveLength(3)
  })

  it('stays when the farm file is read again, and when the file changes its own it is said that they differ', async () => {
    await split()
    expect(await seedFields(file, book.store, NOON)).toEqual([])
    const changed = parseFarm(spoiled('share: 0.2', 'share: 0.25'), 'farm.yaml').farm
    expect(await seedFields(changed, book.store, NOON)).toEqual([{ kind: 'differs', field: 'Alpha', what: 'patches' }])
    expect(await patches()).toEqual([...BEFORE, ['knoll-e-2', 0.15]])
  })
})
