/** The board of alerts and who acknowledged which, in the database. */
import type { Kysely } from 'kysely'
import { type AlertStore, type KeptAlerts, NOTHING_KEPT } from '#app/alert-store.ts'
import { withUnknown } from './json-body.ts'
import { type OutboxTables, outboxStore } from './outbox-store.ts'

export interface AlertTables extends OutboxTables {
  alert_board: { farm_id: string; version: number; body: string }
  acknowledgement: { farm_id: string; alert: string; person_id: string; at_epoch_h: number }
}

export function alertStore<Tables extends AlertTables>(shared: Kysely<Tables>): AlertStore {
  const database = shared as unknown as Kysely<AlertTables>
  return {
    async load(farmId) {
      const row = await database
        .selectFrom('alert_board')
        .select(['version', 'body'])
        .where('farm_id', '=', farmId)
        .executeTakeFirst()
      return row
        ? { version: row.version, kept: withUnknown<KeptAlerts>(row.body) }
        : { version: 0, kept: NOTHING_KEPT }
    },

    async save(farmId, version, kept, parcels) {
      const row = { farm_id: farmId, version: version + 1, body: JSON.stringify(kept) }
      return await database.transaction().execute(async (transaction) => {
        const result = await transaction
          .insertInto('alert_board')
          .values(row)
          .onConflict((conflict) =>
            conflict
              .column('farm_id')
              .doUpdateSet({ version: row.version, body: row.body })
              .where('alert_board.version', '=', version),
          )
          .executeTakeFirst()
        if (!((result.numInsertedOrUpdatedRows ?? 0n) > 0n)) return false
        await outboxStore(transaction).post(parcels)
        return true
      })
    },

    async acknowledge(farmId, alert, personId, atEpochH) {
      const result = await database
        .insertInto('acknowledgement')
        .values({ farm_id: farmId, alert, person_id: personId, at_epoch_h: atEpochH })
        .onConflict((conflict) => conflict.columns(['farm_id', 'alert', 'person_id']).doNothing())
        .executeTakeFirst()
      return (result.numInsertedOrUpdatedRows ?? 0n) > 0n
    },

    async isAcknowledged(farmId, alert) {
      const row = await database
        .selectFrom('acknowledgement')
        .select('person_id')
        .where('farm_id', '=', farmId)
        .where('alert', '=', alert)
        .limit(1)
        .executeTakeFirst()
      return row !== undefined
    },
  }
}
