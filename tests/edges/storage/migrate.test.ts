import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'kysely'
import { afterAll, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'

const folder = mkdtempSync(join(tmpdir(), 'threshday-migrate-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

let count = 0
let path: string
beforeEach(() => {
  path = join(folder, `${count++}.sqlite`)
})

async function tables(): Promise<string[]> {
  const database = openDatabase<Record<string, never>>(path)
  const { rows } = await sql<{
    name: string
  }>`select name from sqlite_master where type = 'table' order by name`.execute(database)
  await database.destroy()
  return rows.map(({ name }) => name)
}

async function migrated(): Promise<void> {
  const database = openDatabase<Record<string, never>>(path)
  try {
    await migrate(database)
  } finally {
    await database.destroy()
  }
}

describe('the history of the database', () => {
  it('is run from nothing, and again without any change', async () => {
    await migrated()
    const first = await tables()
    expect(first).toEqual(expect.arrayContaining(['published_day', 'farm_record']))
    await migrated()
    expect(await tables()).toEqual(first)
  })

  it('keeps what was stored', async () => {
    await migrated()
    const database = openDatabase<{ published_day: { farm_id: string; date: string; body: string } }>(path)
    await database.insertInto('published_day').values({ farm_id: 'f', date: '2010-09-29', body: '{}' }).execute()
    await database.destroy()
    await migrated()
    const again = openDatabase<{ published_day: { farm_id: string } }>(path)
    expect(await again.selectFrom('published_day').select('farm_id').execute()).toEqual([{ farm_id: 'f' }])
    await again.destroy()
  })

  it('is run once by two who start at the same moment', async () => {
    await Promise.all([migrated(), migrated()])
    expect(await tables()).toContain('published_day')
  })

  it('of a newer version is refused, not overwritten', async () => {
    await migrated()
    const database = openDatabase<{ kysely_migration: { name: string; timestamp: string } }>(path)
    await database.insertInto('kysely_migration').values({ name: '999-later', timestamp: '2030-01-01' }).execute()
    await database.destroy()
    await expect(migrated()).rejects.toThrow(/could not be brought up to date/)
  })
})
