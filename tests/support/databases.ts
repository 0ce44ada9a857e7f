/** The databases that the storage suites run on: always SQLite in a file, and PostgreSQL where there is one. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { sql } from 'kysely'
import { afterAll } from 'vitest'
import { openPostgres } from '#edges/storage/postgres.ts'
import { startPostgres } from '#tests/support/postgres.ts'

export interface TestDatabase {
  readonly name: string
  /** Address of a fresh, empty database. */
  fresh(): Promise<string>
  close(): void
}

/** They are gone when the suite that asks for them ends. */
export function testDatabases(): TestDatabase[] {
  const postgres = postgresDatabase()
  const databases = postgres ? [sqliteFiles(), postgres] : [sqliteFiles()]
  afterAll(() => {
    for (const database of databases) database.close()
  })
  return databases
}

function sqliteFiles(): TestDatabase {
  const folder = mkdtempSync(join(tmpdir(), 'threshday-db-'))
  let count = 0
  return {
    name: 'SQLite',
    fresh: async () => join(folder, `${count++}.sqlite`),
    close: () => rmSync(folder, { recursive: true, force: true }),
  }
}

function postgresDatabase(): TestDatabase | undefined {
  const server = startPostgres()
  if (!server) return undefined
  let count = 0
  return {
    name: 'PostgreSQL',
    fresh: async () => {
      const name = `threshday_test_${process.pid}_${count++}`
      const database = openPostgres(server.url)
      await sql`create database ${sql.id(name)}`.execute(database)
      await database.destroy()
      const url = new URL(server.url)
      url.pathname = `/${name}`
      return url.toString()
    },
    close: server.stop,
  }
}
