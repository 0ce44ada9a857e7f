/** Published plans, each with its reason. */
import type { Migration } from 'kysely/migration'

export const plans: Migration = {
  async up(database) {
    await database.schema
      .createTable('published_plan')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('at_epoch_h', 'double precision', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('published_plan_key', ['farm_id', 'at_epoch_h'])
      .execute()
  },
}
