/** The farm's book: what people told, only ever added to; and the forecasts kept to be held against it. */
import type { Migration } from 'kysely/migration'

export const farmRecords: Migration = {
  async up(database) {
    await database.schema
      .createTable('farm_record')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('key', 'text', (column) => column.notNull())
      .addColumn('field_id', 'text', (column) => column.notNull())
      .addColumn('at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('told_by', 'text', (column) => column.notNull())
      .addColumn('told_at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('replaces', 'text')
      .addColumn('body', 'text')
      .addPrimaryKeyConstraint('farm_record_key', ['farm_id', 'kind', 'key'])
      // A record is replaced once: of two corrections at the same moment, one is told that it came too late.
      .addUniqueConstraint('farm_record_replaced_once', ['farm_id', 'kind', 'replaces'])
      .execute()
    await database.schema
      .createIndex('farm_record_by_time')
      .on('farm_record')
      .columns(['farm_id', 'kind', 'at_epoch_h'])
      .execute()
    await database.schema
      .createTable('kept_forecast')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('part_key', 'text', (column) => column.notNull())
      .addColumn('made_on', 'text', (column) => column.notNull())
      .addColumn('made_at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('crop', 'text', (column) => column.notNull())
      .addColumn('start_epoch_h', 'integer', (column) => column.notNull())
      .addColumn('hours', 'integer', (column) => column.notNull())
      .addColumn('quantiles', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('kept_forecast_key', ['farm_id', 'part_key', 'made_on'])
      .execute()
  },
}
