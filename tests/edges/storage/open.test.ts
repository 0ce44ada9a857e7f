import { sql } from 'kysely'
import { describe, expect, it } from 'vitest'
import { openAt } from '#edges/storage/open.ts'
import { testDatabases } from '#tests/support/databases.ts'

const databases = testDatabases()

for (const source of databases) {
  describe(`a database on ${source.name}`, () => {
    it('is brought up to date once, by however many open it at the same moment', async () => {
      const where = await source.fresh()
      const opened = await Promise.all(Array.from({ length: 6 }, () => openAt(where)))
      for (const database of opened) {
        const { rows } = await sql<{ count: number }>`select count(*) as count from farm_record`.execute(database)
        expect(Number(rows[0]!.count)).toBe(0)
        await database.destroy()
      }
    })

    it('keeps times of the day to the millisecond', async () => {
      const database = await openAt(await source.fresh())
      const epochH = 517_000 + 1 / 3_600_000
      const { rows } = await sql<{ value: number }>`select cast(${epochH} as double precision) as value`.execute(
        database,
      )
      expect(rows[0]!.value).toBe(epochH)
      await database.destroy()
    })
  })
}
