/** The database's own history: each step is run once, in the order of its number, all that are due in one transaction. */
import { setTimeout as delay } from 'node:timers/promises'
import type { Kysely } from 'kysely'
import { type Migration, type MigrationProvider, Migrator } from 'kysely/migration'
import { days } from './migrations/001-days.ts'
import { weather } from './migrations/010-weather.ts'
import { farmRecords } from './migrations/020-farm-records.ts'
import { outbox } from './migrations/030-outbox.ts'
import { people } from './migrations/040-people.ts'
import { weatherHistory } from './migrations/060-weather-history.ts'
import { plans } from './migrations/070-plans.ts'
import { messages } from './migrations/080-messages.ts'

const STEPS: Record<string, Migration> = {
  '001-days': days,
  '010-weather': weather,
  '020-farm-records': farmRecords,
  '030-outbox': outbox,
  '040-people': people,
  '060-weather-history': weatherHistory,
  '070-plans': plans,
  '080-messages': messages,
}

/** The names of all steps, in order. */
export const MIGRATIONS: readonly string[] = Object.keys(STEPS)

/** Numbers are kept for subjects, so a step may come after one of a higher number that has been run. */
const provider: MigrationProvider = { getMigrations: async () => STEPS }

/** Two processes that start on one new file both try; the one that comes second finds it done at its next try. */
const TRIES = 60
const PAUSE_MS = 500

// biome-ignore lint/suspicious/noExplicitAny: a migration works on any schema, past or present
export async function migrate(database: Kysely<any>): Promise<void> {
  for (let tries = 1; ; tries++) {
    const { error } = await new Migrator({ db: database, provider, allowUnorderedMigrations: true }).migrateToLatest()
    if (!error) return
    // Only another process at the same work passes by waiting.
    if (tries === TRIES || !isBusy(error))
      throw new Error('The database could not be brought up to date', { cause: error })
    await delay(PAUSE_MS)
  }
}

/** SQLITE_BUSY, or what a step says of what another process has just made or a server of two that collide. */
function isBusy(error: unknown): boolean {
  const text = error instanceof Error ? error.message : String(error)
  return /locked|busy|already exists|duplicate key|deadlock|could not serialize|UNIQUE constraint/i.test(text)
}
