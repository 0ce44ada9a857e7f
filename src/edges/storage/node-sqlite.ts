/** Kysely on `node:sqlite`: the few methods its SQLite dialect asks of a driver. */
import { DatabaseSync, type SQLInputValue } from 'node:sqlite'
import { Kysely, SqliteAdapter, SqliteDialect } from 'kysely'

const BUSY_MS = 5_000

/** @param path file, or `:memory:`. Write-ahead log, full sync: what was acknowledged survives a power cut. */
export function openDatabase<Tables>(path: string): Kysely<Tables> {
  const database = new DatabaseSync(path, { timeout: BUSY_MS })
  database.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON')
  return new Kysely<Tables>({
    dialect: new TransactionalDialect({
      database: {
        close: () => database.close(),
        prepare: (sql) => {
          const statement = database.prepare(sql)
          return {
            reader: statement.columns().length > 0,
            all: (parameters) => statement.all(...checked(parameters)),
            run: (parameters) => {
              const { changes, lastInsertRowid } = statement.run(...checked(parameters))
              return { changes: BigInt(changes), lastInsertRowid: BigInt(lastInsertRowid) }
            },
            iterate: (parameters) => statement.iterate(...checked(parameters)),
          }
        },
      },
    }),
  })
}

/**
 * SQLite takes back changes of its schema with their transaction, which Kysely does not expect of it: without this a
 * process killed while it brings a database up to date would leave a step half done, for ever in the way of the next.
 */
class TransactionalDialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new TransactionalAdapter()
  }
}

class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true
  }
}

/** The driver takes an object as named parameters and stores NULL without a word; refuse it here. */
function checked(parameters: readonly unknown[]): SQLInputValue[] {
  return parameters.map((value, index) => {
    if (value === null || ['string', 'number', 'bigint'].includes(typeof value) || value instanceof Uint8Array) {
      return value as SQLInputValue
    }
    throw new TypeError(
      `SQL parameter ${index + 1} is ${Object.prototype.toString.call(value)}; give a string, number or bytes`,
    )
  })
}
