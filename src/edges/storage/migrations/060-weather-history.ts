/** The past of a place, one row per cell, source and calendar year; and official warnings as last read. */
import { PostgresAdapter, sql } from 'kysely'
import type { Migration } from 'kysely/migration'

export const weatherHistory: Migration = {
  async up(database) {
    const { schema } = database
    const bytes = database.getExecutor().adapter instanceof PostgresAdapter ? sql`bytea` : sql`blob`
    await schema
      .createTable('weather_year')
      .addColumn('cell', 'text', (column) => column.notNull())
      .addColumn('source_id', 'text', (column) => column.notNull())
      .addColumn('year', 'integer', (column) => column.notNull())
      .addColumn('settled_until_epoch_h', 'integer', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('body', bytes, (column) => column.notNull())
      .addPrimaryKeyConstraint('weather_year_key', ['cell', 'source_id', 'year'])
      .execute()
    await schema
      .createTable('warning_read')
      .addColumn('source_id', 'text', (column) => column.notNull())
      .addColumn('cell', 'text', (column) => column.notNull())
      .addColumn('read_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('warning_read_key', ['source_id', 'cell'])
      .execute()
  },
}
