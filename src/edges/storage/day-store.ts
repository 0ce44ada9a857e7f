/** Published days in the database. */
import type { Kysely } from 'kysely'
import type { DayStore } from '#app/day-store.ts'
import type { PublishedDay } from '#core/messages/published.ts'

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

/** NaN is "not known" and has no JSON: null stands for it. */
const toBody = (day: PublishedDay): string => JSON.stringify({ ...day, date: day.date.toString() })

function fromBody(body: string): PublishedDay {
  const read = JSON.parse(body, (_, value) => (value === null ? Number.NaN : value)) as Omit<PublishedDay, 'date'> & {
    date: string
  }
  return { ...read, date: Temporal.PlainDate.from(read.date), firstPart: read.firstPart }
}
