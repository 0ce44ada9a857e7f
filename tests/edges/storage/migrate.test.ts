import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { sql } from 'kysely'
import { type Migration, Migrator } from 'kysely/migration'
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

/** Another process that brings the same file up to date. */
function inProcess() {
  const code = `const { openDatabase } = await import(${JSON.stringify(module('node-sqlite'))})
    const { migrate } = await import(${JSON.stringify(module('migrate'))})
    const database = openDatabase(${JSON.stringify(path)})
    process.stdout.write('begun')
    await migrate(database)
    await database.destroy()`
  const child = spawn(process.execPath, ['--input-type=module', '-e', code], { stdio: ['ignore', 'pipe', 'inherit'] })
  const ended = (once(child, 'exit') as Promise<[number | null]>).then(([status]) => status)
  const begun = Promise.race([once(child.stdout!, 'data'), ended])
  return { child, begun, ended }
}

const module = (name: string): string => import.meta.resolve(`#edges/storage/${name}.ts`)

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

  it('is run once by processes that start at the same moment', async () => {
    const ends = await Promise.all(Array.from({ length: 3 }, () => inProcess().ended))
    expect(ends).toEqual([0, 0, 0])
    expect(await tables()).toContain('published_day')
  }, 60_000)

  it('is no worse for processes that are killed while they run it', async () => {
    for (let n = 0; n < 6; n++) {
      const { child, begun, ended } = inProcess()
      await begun
      await delay(n * 3)
      child.kill('SIGKILL')
      await ended
    }
    await migrated()
    expect(await tables()).toEqual(expect.arrayContaining(['published_day', 'outbox', 'personal_link']))
  }, 60_000)

  it('leaves nothing behind of a step that breaks off', async () => {
    const database = openDatabase<Record<string, never>>(path)
    const whole: Migration = { up: (db) => db.schema.createTable('whole').addColumn('id', 'text').execute() }
    const broken: Migration = {
      up: async (db) => {
        await db.schema.createTable('half').addColumn('id', 'text').execute()
        throw new Error('broke off')
      },
    }
    const provider = { getMigrations: async () => ({ '1': whole, '2': broken }) }
    const { error } = await new Migrator({ db: database, provider }).migrateToLatest()
    await database.destroy()
    expect(String(error)).toContain('broke off')
    const left = await tables()
    expect([left.includes('half'), left.includes('whole')]).toEqual([false, false])
  })

  it('of a newer version is refused, not overwritten', async () => {
    await migrated()
    const database = openDatabase<{ kysely_migration: { name: string; timestamp: string } }>(path)
    await database.insertInto('kysely_migration').values({ name: '999-later', timestamp: '2030-01-01' }).execute()
    await database.destroy()
    await expect(migrated()).rejects.toThrow(/could not be brought up to date/)
  })
})
