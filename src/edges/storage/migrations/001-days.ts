/** Published days, and claims on messages. */
import type { Migration } from 'kysely/migration'

export const days: Migration = {
  async up(database) {
    await database.schema
      .createTable('published_day')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('date', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('published_day_key', ['farm_id', 'date'])
      .execute()
    await database.schema
      .createTable('message_claim')
      .addColumn('key', 'text', (column) => column.primaryKey())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('at_epoch_h', 'real', (column) => column.notNull())
      .execute()
  },
}
