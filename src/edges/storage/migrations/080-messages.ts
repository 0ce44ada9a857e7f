/** How often a person's own links to calendar and plain text were renewed: links of an earlier count are ended. */
import type { Migration } from 'kysely/migration'

export const messages: Migration = {
  async up(database) {
    await database.schema
      .createTable('personal_link')
      .addColumn('farm_id', 'text', (column) => column.notNull())
      .addColumn('person_id', 'text', (column) => column.notNull())
      .addColumn('nth', 'integer', (column) => column.notNull())
      .addPrimaryKeyConstraint('personal_link_key', ['farm_id', 'person_id'])
      .execute()
  },
}
