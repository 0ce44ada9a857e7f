/** Calendar entries in the database. */
import type { Kysely } from 'kysely'
import type { CalendarEntry, CalendarStore } from '#app/calendar.ts'
import { withUnknown } from './json-body.ts'

export interface CalendarTables {
  calendar_entry: { farm_id: string; uid: string; sequence: number; changed_epoch_h: number; body: string }
}

export function calendarStore<Tables extends CalendarTables>(shared: Kysely<Tables>): CalendarStore {
  const database = shared as unknown as Kysely<CalendarTables>
  return {
    async entries(farmId) {
      const rows = await database
        .selectFrom('calendar_entry')
        .select('body')
        .where('farm_id', '=', farmId)
        .orderBy('uid')
        .execute()
      return rows.map(({ body }) => withUnknown<CalendarEntry>(body))
    },

    async keep(farmId, changed, dropped) {
      await database.transaction().execute(async (transaction) => {
        for (const entry of changed) {
          const values = { sequence: entry.sequence, changed_epoch_h: entry.changedEpochH, body: JSON.stringify(entry) }
          await transaction
            .insertInto('calendar_entry')
            .values({ farm_id: farmId, uid: entry.key, ...values })
            .onConflict((conflict) => conflict.columns(['farm_id', 'uid']).doUpdateSet(values))
            .execute()
        }
        if (dropped.length === 0) return
        await transaction
          .deleteFrom('calendar_entry')
          .where('farm_id', '=', farmId)
          .where('uid', 'in', dropped)
          .execute()
      })
    },
  }
}
