/** People and what lets them in. Of links, sessions and tokens only digests are kept. */
import type { Migration } from 'kysely/migration'

export const people: Migration = {
  async up(database) {
    const { schema } = database
    await schema
      .createTable('account')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('id', 'text', (column) => column.notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('name_key', 'text', (column) => column.notNull())
      .addColumn('role', 'text', (column) => column.notNull())
      .addColumn('language', 'text', (column) => column.notNull())
      .addColumn('password_hash', 'text', (column) => column.notNull())
      .addColumn('made_at_epoch_h', 'double precision', (column) => column.notNull())
      .addPrimaryKeyConstraint('account_key', ['farm_id', 'id'])
      .addUniqueConstraint('account_name', ['farm_id', 'name_key'])
      .execute()
    await schema
      .createTable('invitation')
      .addColumn('digest', 'text', (column) => column.primaryKey())
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('role', 'text', (column) => column.notNull())
      .addColumn('language', 'text', (column) => column.notNull())
      .addColumn('by', 'text', (column) => column.notNull())
      .addColumn('ends_epoch_h', 'double precision', (column) => column.notNull())
      .execute()
    await schema
      .createTable('session')
      .addColumn('digest', 'text', (column) => column.primaryKey())
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('account_id', 'text', (column) => column.notNull())
      .addColumn('started_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('ends_epoch_h', 'double precision', (column) => column.notNull())
      .execute()
    await schema
      .createTable('api_token')
      .addColumn('digest', 'text', (column) => column.primaryKey())
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('role', 'text', (column) => column.notNull())
      .addColumn('by', 'text', (column) => column.notNull())
      .addColumn('made_at_epoch_h', 'double precision', (column) => column.notNull())
      .execute()
    await schema
      .createTable('audit')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('by', 'text', (column) => column.notNull())
      .addColumn('deed', 'text', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .execute()
    await schema.createIndex('audit_of_farm').on('audit').columns(['farm_id', 'at_epoch_h']).execute()
  },
}
