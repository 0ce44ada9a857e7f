/** Published days in the database. */
import type { Kysely } from 'kysely'
import type { DayStore } from '#app/day-store.ts'
import type { PublishedDay } from '#core/messages/published.ts'
import { withUnknown } from './json-body.ts'

export interface DayTables {
  published_day: { farm_id: string; date: string; body: string }
}

/** @param shared a database brought up to date, that others use as well. Closing it is the owner's. */
export function dayStore<Tables extends DayTables>(shared: Kysely<Tables>): DayStore {
  const database = shared as unknown as Kysely<DayTables>
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
    close: () => database.destroy(),
  }
}

const toBody = (day: PublishedDay): string => JSON.stringify({ ...day, date: day.date.toString() })

function fromBody(body: string): PublishedDay {
  const read = withUnknown<Omit<PublishedDay, 'date'> & { readonly date: string }>(body)
  return { ...read, date: Temporal.PlainDate.from(read.date), firstPart: read.firstPart }
}
