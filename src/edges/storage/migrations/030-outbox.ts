/** The outbox: a message is kept here before it is sent. It takes the place of the claims of the first day. */
import type { Migration } from 'kysely/migration'

export const outbox: Migration = {
  async up(database) {
    await database.schema
      .createTable('outbox')
      .addColumn('key', 'text', (column) => column.primaryKey())
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('subject', 'text', (column) => column.notNull())
      .addColumn('date', 'text', (column) => column.notNull())
      .addColumn('channel', 'text', (column) => column.notNull())
      .addColumn('recipient', 'text', (column) => column.notNull())
      .addColumn('target', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addColumn('urgent', 'integer', (column) => column.notNull())
      .addColumn('created_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('closes_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('state', 'text', (column) => column.notNull())
      .addColumn('attempts', 'integer', (column) => column.notNull())
      .addColumn('next_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('touched_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('owner', 'text', (column) => column.notNull())
      .addColumn('last_reason', 'text', (column) => column.notNull())
      .addColumn('reference', 'text', (column) => column.notNull())
      .execute()
    await database.schema
      .createIndex('outbox_due')
      .on('outbox')
      .columns(['channel', 'state', 'urgent', 'next_epoch_h'])
      .execute()
    await database.schema
      .createIndex('outbox_of_farm')
      .on('outbox')
      .columns(['farm_id', 'kind', 'subject', 'date'])
      .execute()
    await database.schema.dropTable('message_claim').execute()
  },
}
