/** Published plans in the database. */
import type { Kysely } from 'kysely'
import type { PlanStore } from '#app/plan-store.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'

export interface PlanTables {
  published_plan: { farm_id: string; at_epoch_h: number; body: string }
}

/** @param shared a database brought up to date, that others use as well. Closing it is the owner's. */
export function planStore<Tables extends PlanTables>(shared: Kysely<Tables>): PlanStore {
  const database = shared as unknown as Kysely<PlanTables>
  const newest = (farmId: string) =>
    database.selectFrom('published_plan').select('body').where('farm_id', '=', farmId).orderBy('at_epoch_h', 'desc')
  return {
    async last(farmId) {
      const row = await newest(farmId).limit(1).executeTakeFirst()
      return row && fromBody(row.body)
    },

    async keep(farmId, record) {
      await database
        .insertInto('published_plan')
        .values({ farm_id: farmId, at_epoch_h: record.publishedAtEpochH, body: toBody(record) })
        .onConflict((conflict) => conflict.columns(['farm_id', 'at_epoch_h']).doNothing())
        .execute()
    },

    async history(farmId, most, before = Number.MAX_VALUE) {
      const rows = await newest(farmId).where('at_epoch_h', '<', before).limit(most).execute()
      return rows.map(({ body }) => fromBody(body))
    },
  }
}

/** NaN is "not known" and has no JSON: a word that is no number stands for it, since null is a value of its own here. */
const NOT_KNOWN = 'NaN'

const toBody = (record: PlanRecord): string =>
  JSON.stringify(record, (_, value) => (typeof value === 'number' && Number.isNaN(value) ? NOT_KNOWN : value))

/** Names that stand for a date in a plan or a change. */
const DATES: ReadonlySet<string> = new Set(['date', 'from', 'to'])

function fromBody(body: string): PlanRecord {
  const read = JSON.parse(body, (name, value) => {
    if (value === NOT_KNOWN) return Number.NaN
    return DATES.has(name) && typeof value === 'string' ? Temporal.PlainDate.from(value) : value
  }) as PlanRecord
  return { ...read, difference: read.difference }
}
