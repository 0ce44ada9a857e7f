/** Published days and claimed messages in SQLite. */
import type { Kysely } from 'kysely'
import type { PublishedDay } from '#core/messages/published.ts'
import type { DayStore } from '#work/day-store.ts'
import { migrate } from './migrate.ts'
import { openDatabase } from './node-sqlite.ts'

export interface DayTables {
  published_day: { farm_id: string; date: string; body: string }
  message_claim: { key: string; state: 'claimed' | 'sent' | 'failed'; at_epoch_h: number }
}

/** A claim not settled for so long belonged to a process that died: it may be taken again [h]. */
const CLAIM_LAPSES_H = 0.5

export async function openDayStore(path: string): Promise<DayStore> {
  const database: Kysely<DayTables> = openDatabase<DayTables>(path)
  await migrate(database)
  return {
    async publishedBefore(farmId, date) {
      const row = await database
        .selectFrom('published_day')
        .select('body')
        .where('farm_id', '=', farmId)
        .where('date', '<', date.toString())
        .orderBy('date', 'desc')
        .limit(1)
        .executeTakeFirst()
      return row && fromBody(row.body)
    },
    async keepPublished(farmId, day) {
      const row = { farm_id: farmId, date: day.date.toString(), body: toBody(day) }
      await database
        .insertInto('published_day')
        .values(row)
        .onConflict((conflict) => conflict.columns(['farm_id', 'date']).doUpdateSet({ body: row.body }))
        .execute()
    },
    async claim(key, atEpochH) {
      const result = await database
        .insertInto('message_claim')
        .values({ key, state: 'claimed', at_epoch_h: atEpochH })
        .onConflict((conflict) =>
          conflict
            .column('key')
            .doUpdateSet({ state: 'claimed', at_epoch_h: atEpochH })
            .where(({ eb, or, and }) =>
              or([
                eb('message_claim.state', '=', 'failed'),
                and([
                  eb('message_claim.state', '=', 'claimed'),
                  eb('message_claim.at_epoch_h', '<', atEpochH - CLAIM_LAPSES_H),
                ]),
              ]),
            ),
        )
        .executeTakeFirst()
      return (result.numInsertedOrUpdatedRows ?? 0n) > 0n
    },
    async settle(key, outcome, atEpochH) {
      await database
        .updateTable('message_claim')
        .set({ state: outcome, at_epoch_h: atEpochH })
        .where('key', '=', key)
        .execute()
    },
    close: () => database.destroy(),
  }
}

/** NaN is "not known" and has no JSON: null stands for it. */
const toBody = (day: PublishedDay): string => JSON.stringify({ ...day, date: day.date.toString() })

function fromBody(body: string): PublishedDay {
  const read = JSON.parse(body, (_, value) => (value === null ? Number.NaN : value)) as Omit<PublishedDay, 'date'> & {
    date: string
  }
  return { ...read, date: Temporal.PlainDate.from(read.date), firstPart: read.firstPart }
}
