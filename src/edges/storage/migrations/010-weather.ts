/** Weather: forecasts as they came, what was seen hour by hour, how sources have done, and how calls to them went. */
import { PostgresAdapter, sql } from 'kysely'
import type { Migration } from 'kysely/migration'

export const weather: Migration = {
  async up(database) {
    const { schema } = database
    const bytes = database.getExecutor().adapter instanceof PostgresAdapter ? sql`bytea` : sql`blob`
    await schema
      .createTable('weather_run')
      .addColumn('cell', 'text', (column) => column.notNull())
      .addColumn('source_id', 'text', (column) => column.notNull())
      .addColumn('fetched_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('expires_epoch_h', 'double precision')
      .addColumn('start_epoch_h', 'integer', (column) => column.notNull())
      .addColumn('hours', 'integer', (column) => column.notNull())
      .addColumn('members', 'integer', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('body', bytes, (column) => column.notNull())
      .addPrimaryKeyConstraint('weather_run_key', ['cell', 'source_id', 'fetched_epoch_h'])
      .execute()
    await schema
      .createTable('weather_seen')
      .addColumn('cell', 'text', (column) => column.notNull())
      .addColumn('layer', 'text', (column) => column.notNull())
      .addColumn('epoch_day', 'integer', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('body', bytes, (column) => column.notNull())
      .addPrimaryKeyConstraint('weather_seen_key', ['cell', 'layer', 'epoch_day'])
      .execute()
    await schema
      .createTable('weather_skill')
      .addColumn('cell', 'text', (column) => column.notNull())
      .addColumn('source_id', 'text', (column) => column.notNull())
      .addColumn('learnt_until_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('weather_skill_key', ['cell', 'source_id'])
      .execute()
    await schema
      .createTable('source_call')
      .addColumn('source_id', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('issued_epoch_h', 'double precision')
      .addColumn('failure', 'text')
      .execute()
    await schema.createIndex('source_call_by_time').on('source_call').columns(['at_epoch_h']).execute()
  },
}
