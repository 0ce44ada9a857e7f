import { beforeEach, describe, expect, it } from 'vitest'
import type { DayStore } from '#app/day-store.ts'
import type { PublishedDay } from '#core/messages/published.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { testDatabases } from '#tests/support/databases.ts'

const databases = testDatabases()

async function withStore<T>(where: string, use: (store: DayStore) => Promise<T>): Promise<T> {
  const store = dayStore(await openAt<DayTables>(where))
  try {
    return await use(store)
  } finally {
    await store.close()
  }
}

const date = (text: string) => Temporal.PlainDate.from(text)
const day = (on: string, more: Partial<PublishedDay> = {}): PublishedDay => ({
  date: date(on),
  atEpochH: 357_202.5,
  firstPart: 'Mill Forty',
  expected: [
    { date: on, partKey: 'mill-forty', afternoonWb: 11.25, opensEpochH: 357_207.75, closesEpochH: Number.NaN },
  ],
  rainAhead: { fromEpochH: 357_000, toEpochH: 357_072, chance: 0.3 },
  ...more,
})
const told = ({ date: on, ...rest }: PublishedDay) => ({ on: on.toString(), ...rest })

describe.each(databases)('a published day in $name', (database) => {
  let path: string
  beforeEach(async () => {
    path = await database.fresh()
  })

  it('comes back as it was after a restart, what is not known included', async () => {
    await withStore(path, (store) => store.keepPublished('farm', day('2010-09-29')))
    const read = await withStore(path, (store) => store.publishedBefore('farm', date('2010-09-30')))
    expect(told(read!)).toEqual(told(day('2010-09-29')))
  })

  it('without a first field comes back without one', async () => {
    await withStore(path, async (store) => {
      await store.keepPublished('farm', day('2010-09-29', { firstPart: undefined }))
      expect((await store.publishedBefore('farm', date('2010-09-30')))!.firstPart).toBeUndefined()
    })
  })

  it('is the newest before a date, never that date itself, and of its own farm', async () => {
    await withStore(path, async (store) => {
      expect(await store.publishedBefore('farm', date('2010-09-30'))).toBeUndefined()
      for (const on of ['2010-09-28', '2010-09-30', '2010-09-27']) await store.keepPublished('farm', day(on))
      await store.keepPublished('other', day('2010-09-29'))
      const newest = async (on: string) => (await store.publishedBefore('farm', date(on)))?.date.toString()
      expect(await newest('2010-09-30')).toBe('2010-09-28')
      expect(await newest('2010-10-15')).toBe('2010-09-30')
      expect(await newest('2010-09-27')).toBeUndefined()
    })
  })

  it('orders years as well: the newest over a turn of the year', async () => {
    await withStore(path, async (store) => {
      for (const on of ['2009-12-31', '2010-01-02']) await store.keepPublished('farm', day(on))
      expect((await store.publishedBefore('farm', date('2010-01-02')))!.date.toString()).toBe('2009-12-31')
    })
  })

  it('told a second time takes the place of the first', async () => {
    await withStore(path, async (store) => {
      await store.keepPublished('farm', day('2010-09-29', { firstPart: 'Alder' }))
      await store.keepPublished('farm', day('2010-09-29', { firstPart: 'Birch' }))
      expect((await store.publishedBefore('farm', date('2010-09-30')))!.firstPart).toBe('Birch')
    })
  })
})
