/** One database by its address: a file for one farm, a server for many. */
import type { Kysely } from 'kysely'
import { migrate } from './migrate.ts'
import { openDatabase } from './node-sqlite.ts'

/** @param where path of a file, `:memory:`, or `postgres://...`. Opened and brought up to date. */
export async function openAt<Tables>(where: string): Promise<Kysely<Tables>> {
  const database = /^postgres(ql)?:\/\//.test(where)
    ? (await import('./postgres.ts')).openPostgres<Tables>(where)
    : openDatabase<Tables>(where)
  await migrate(database)
  return database
}
