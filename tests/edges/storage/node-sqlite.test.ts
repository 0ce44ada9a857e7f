import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { sql } from 'kysely'
import { afterAll, afterEach, describe, expect, it } from 'vitest'
import { openDatabase } from '#edges/storage/node-sqlite.ts'

interface Tables {
  note: { id: number; text: string | null; value: number | null; bytes: Uint8Array | null }
}

const folder = mkdtempSync(join(tmpdir(), 'threshday-sqlite-'))
const open: ReturnType<typeof openDatabase<Tables>>[] = []
const opened = (path = ':memory:') => {
  const database = openDatabase<Tables>(path)
  open.push(database)
  return database
}
afterEach(async () => {
  for (const database of open.splice(0)) await database.destroy()
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function withTable(path?: string) {
  const database = opened(path)
  await sql`create table if not exists note (id integer primary key, text text, value real, bytes blob)`.execute(
    database,
  )
  return database
}

describe('what is stored', () => {
  it('comes back as it was: text of any letters, numbers to the last bit, bytes, nothing', async () => {
    const database = await withTable()
    let id = 0
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'grapheme' }).filter((text) => !text.includes('\0')),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.uint8Array({ maxLength: 40 }),
        async (text, value, bytes) => {
          const row = { id: ++id, text, value, bytes }
          await database.insertInto('note').values(row).execute()
          const read = await database.selectFrom('note').selectAll().where('id', '=', id).executeTakeFirstOrThrow()
          expect(read.text).toBe(text)
          expect(read.value === value).toBe(true)
          expect([...read.bytes!]).toEqual([...bytes])
        },
      ),
      { numRuns: 50 },
    )
  })

  it('counts what a statement changed', async () => {
    const database = await withTable()
    await database
      .insertInto('note')
      .values([1, 2, 3].map((id) => ({ id, text: 'x', value: null, bytes: null })))
      .execute()
    const { numUpdatedRows } = await database
      .updateTable('note')
      .set({ text: 'y' })
      .where('id', '<', 3)
      .executeTakeFirst()
    expect(numUpdatedRows).toBe(2n)
    expect((await database.deleteFrom('note').executeTakeFirst()).numDeletedRows).toBe(3n)
  })

  it('is all taken back when a transaction fails', async () => {
    const database = await withTable()
    await expect(
      database.transaction().execute(async (transaction) => {
        await transaction.insertInto('note').values({ id: 1, text: 'a', value: null, bytes: null }).execute()
        await transaction.insertInto('note').values({ id: 1, text: 'b', value: null, bytes: null }).execute()
      }),
    ).rejects.toThrow()
    expect(await database.selectFrom('note').selectAll().execute()).toEqual([])
  })
})

describe('what the driver would store as something else without a word', () => {
  it.each([
    ['true', true],
    ['undefined', undefined],
    ['an object', { a: 1 }],
    ['a date', Temporal.PlainDate.from('2010-09-30')],
    ['a list', [1, 2]],
  ])('%s is refused, by its place', async (_, value) => {
    const database = await withTable()
    await expect(sql`insert into note (id, text) values (${1}, ${value})`.execute(database)).rejects.toThrow(
      /parameter 2/,
    )
  })

  it('a number that is not known becomes nothing, never a number', async () => {
    const database = await withTable()
    await sql`insert into note (id, value) values (1, ${Number.NaN})`.execute(database)
    expect((await database.selectFrom('note').selectAll().executeTakeFirstOrThrow()).value).toBeNull()
  })
})

describe('a file', () => {
  it('is written ahead and synced in full, and keeps what it was told over a restart', async () => {
    const path = join(folder, 'notes.sqlite')
    const first = await withTable(path)
    const pragma = async (name: string) =>
      Object.values((await sql.raw(`pragma ${name}`).execute(first)).rows[0] as object)[0]
    expect(await pragma('journal_mode')).toBe('wal')
    expect(await pragma('synchronous')).toBe(2)
    expect(await pragma('foreign_keys')).toBe(1)
    await first.insertInto('note').values({ id: 1, text: 'kept', value: null, bytes: null }).execute()
    await open.pop()!.destroy()
    const second = await withTable(path)
    expect(await second.selectFrom('note').select('text').execute()).toEqual([{ text: 'kept' }])
  })

  it('is waited for while another holds it, within the time set', async () => {
    const path = join(folder, 'busy.sqlite')
    const [a, b] = [await withTable(path), await withTable(path)]
    await a.insertInto('note').values({ id: 1, text: 'a', value: null, bytes: null }).execute()
    await b.insertInto('note').values({ id: 2, text: 'b', value: null, bytes: null }).execute()
    expect((await a.selectFrom('note').selectAll().execute()).length).toBe(2)
  })
})
