/** Copies of the book's file: taken while it is written to, proven before they count, put back without losing what was there. */
import { closeSync, copyFileSync, existsSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { MIGRATIONS } from './migrate.ts'

/** What a book holds, in numbers that a person can compare with what he expects. */
export interface Holdings {
  /** The last step of the database's own history. */
  readonly level: string
  /** Records of each kind, taken back and replaced ones too. */
  readonly records: Readonly<Record<string, number>>
  readonly accounts: number
  readonly messages: number
  /** When the last record was told, hours since the epoch; NaN where there is none. */
  readonly lastToldEpochH: number
}

/** The copy is no use, or can't be made; the message says why, and what to do. */
export class BackupFault extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'BackupFault'
  }
}

const BUSY_MS = 10_000

/**
 * Copies the book as it is at one moment, whoever writes to it meanwhile: what was acknowledged before is in it.
 * @returns what the copy holds, read back from it. @throws BackupFault.
 */
export function backUp(from: string, to: string): Holdings {
  if (!existsSync(from)) throw new BackupFault(`There is no book at ${from}: nothing was ever kept there.`)
  if (existsSync(to)) throw new BackupFault(`${to} is there already; name another file.`)
  mkdirSync(dirname(to), { recursive: true })
  const part = `${to}.part`
  rmSync(part, { force: true })
  const book = new DatabaseSync(from, { readOnly: true, timeout: BUSY_MS })
  try {
    // One read transaction over all tables (SQLite, "VACUUM INTO"); it does not sync the file by itself.
    book.prepare('VACUUM INTO ?').run(part)
  } finally {
    book.close()
  }
  try {
    const held = holdingsOf(part)
    syncFile(part)
    renameSync(part, to)
    syncFolder(dirname(to))
    return held
  } catch (failure) {
    rmSync(part, { force: true })
    throw failure
  }
}

export interface Restored {
  readonly held: Holdings
  /** Where the book that stood there before is now. */
  readonly aside: string | undefined
}

/**
 * Puts a copy in the place of the book.
 * @param aside where the book that stands there goes; without it nothing is replaced. @throws BackupFault.
 */
export function restore(from: string, to: string, aside: string | undefined): Restored {
  const held = holdingsOf(from)
  if (existsSync(to)) {
    if (aside === undefined) {
      throw new BackupFault(`${to} holds a book already: ${sayHoldings(holdingsOf(to))}. To replace it, add --replace.`)
    }
    settle(to)
  }
  mkdirSync(dirname(to), { recursive: true })
  const part = `${to}.part`
  copyFileSync(from, part)
  syncFile(part)
  const replaces = existsSync(to)
  if (replaces && aside !== undefined) renameSync(to, aside)
  for (const rest of ['-wal', '-shm']) rmSync(`${to}${rest}`, { force: true })
  renameSync(part, to)
  syncFolder(dirname(to))
  return { held, aside: replaces ? aside : undefined }
}

/** @throws BackupFault where it is not a whole book, or one of a later version than this program. */
export function holdingsOf(file: string): Holdings {
  if (!existsSync(file)) throw new BackupFault(`There is no file ${file}.`)
  const database = new DatabaseSync(file, { readOnly: true, timeout: BUSY_MS })
  try {
    return readHoldings(database, file)
  } catch (failure) {
    if (failure instanceof BackupFault) throw failure
    throw new BackupFault(`${file} is not a whole book: ${failure instanceof Error ? failure.message : failure}.`)
  } finally {
    database.close()
  }
}

function readHoldings(database: DatabaseSync, file: string): Holdings {
  const rows = <T>(sql: string) => database.prepare(sql).all() as T[]
  const faults = rows<{ integrity_check: string }>('PRAGMA integrity_check').map((row) => row.integrity_check)
  if (faults.join() !== 'ok') throw new BackupFault(`${file} is damaged: ${faults.slice(0, 3).join('; ')}.`)
  const steps = rows<{ name: string }>('SELECT name FROM kysely_migration ORDER BY name').map(({ name }) => name)
  const later = steps.filter((name) => !MIGRATIONS.includes(name))
  if (later.length > 0) {
    throw new BackupFault(
      `${file} was kept by a later version (${later.join(', ')}): bring this program up to date first.`,
    )
  }
  const count = (table: string) => rows<{ n: number }>(`SELECT count(*) AS n FROM ${table}`)[0]!.n
  const kinds = rows<{ kind: string; n: number }>(
    'SELECT kind, count(*) AS n FROM farm_record GROUP BY kind ORDER BY kind',
  )
  const [last] = rows<{ at: number | null }>('SELECT max(told_at_epoch_h) AS at FROM farm_record')
  return {
    level: steps.at(-1) ?? 'none',
    records: Object.fromEntries(kinds.map(({ kind, n }) => [kind, n])),
    accounts: count('account'),
    messages: count('outbox'),
    lastToldEpochH: last?.at ?? Number.NaN,
  }
}

export function sayHoldings({ records, accounts, messages, level }: Holdings): string {
  const told = Object.entries(records).map(([kind, n]) => `${n} ${kind}`)
  return [...told, `${accounts} account`, `${messages} message`].join(', ').concat(`, level ${level}`)
}

/**
 * Brings all that is written ahead into the file, so that it can be moved as one.
 * @throws BackupFault while another process has it open: that would go on writing into the file moved aside.
 */
function settle(file: string): void {
  const database = new DatabaseSync(file)
  try {
    // A connection in write-ahead mode holds a shared lock as long as it is open (SQLite, "WAL-mode File Format", 2.3).
    database.exec('PRAGMA locking_mode = EXCLUSIVE; PRAGMA wal_checkpoint(TRUNCATE); BEGIN EXCLUSIVE; COMMIT')
  } catch {
    throw new BackupFault(`${file} is in use: stop the service first.`)
  } finally {
    database.close()
  }
}

function syncFile(path: string): void {
  const file = openSync(path, 'r+')
  fsyncSync(file)
  closeSync(file)
}

function syncFolder(path: string): void {
  // Windows has no such thing as syncing a folder.
  if (process.platform === 'win32') return
  const folder = openSync(path, 'r')
  fsyncSync(folder)
  closeSync(folder)
}
