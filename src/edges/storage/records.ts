/** The farm's book in a database: one table that is only ever added to. */
import type { Insertable, Kysely, Selectable } from 'kysely'
import type { FarmRecord, Kept, RecordKind, RecordStore, Standing } from '#app/records-port.ts'
import { openAt } from './open.ts'
import { bodyFrom, bodyText } from './record-bodies.ts'

export interface RecordTables {
  farm_record: {
    farm_id: string
    kind: RecordKind
    key: string
    field_id: string
    at_epoch_h: number
    told_by: string
    told_at_epoch_h: number
    replaces: string | null
    body: string | null
  }
}
type Row = Selectable<RecordTables['farm_record']>

/** @param where path of a file, `:memory:`, or `postgres://...`. */
export async function openRecordStore(where: string): Promise<RecordStore & { close(): Promise<void> }> {
  const database = await openAt<RecordTables>(where)
  return { ...recordStore(database), close: () => database.destroy() }
}

/** @param shared a database brought up to date, that others use as well. Closing it is the owner's. */
export function recordStore<Tables extends RecordTables>(shared: Kysely<Tables>): RecordStore {
  const database = shared as unknown as Kysely<RecordTables>
  const rows = (farmId: string, kind: RecordKind) =>
    database.selectFrom('farm_record').selectAll().where('farm_id', '=', farmId).where('kind', '=', kind)

  const history = async <K extends RecordKind>(farmId: string, kind: K): Promise<FarmRecord<K>[]> =>
    (await rows(farmId, kind).execute()).map((row) => recordOf(row, kind)).sort(byTime)

  return {
    async keep(record) {
      // One statement, so no other process can come in between; either constraint may turn it away.
      const { numInsertedOrUpdatedRows } = await database
        .insertInto('farm_record')
        .values(rowOf(record))
        .onConflict((conflict) => conflict.doNothing())
        .executeTakeFirstOrThrow()
      if (numInsertedOrUpdatedRows === 1n) return { kind: 'kept' }
      return await whyNot(record)
    },
    async find(farmId, kind, key) {
      const row = await rows(farmId, kind).where('key', '=', key).executeTakeFirst()
      return row && recordOf(row, kind)
    },
    async current<K extends RecordKind>(farmId: string, kind: K) {
      const told = await history(farmId, kind)
      const replaced = new Set(told.map((record) => record.replaces))
      return told.filter((record): record is Standing<K> => record.body !== undefined && !replaced.has(record.key))
    },
    history,
  }

  async function whyNot<K extends RecordKind>(record: FarmRecord<K>): Promise<Kept<K>> {
    const { farmId, kind, key, replaces } = record
    const same = await rows(farmId, kind).where('key', '=', key).executeTakeFirst()
    if (same) return { kind: 'known', record: recordOf(same, kind) }
    const other = await rows(farmId, kind)
      .where('replaces', '=', replaces ?? null)
      .executeTakeFirstOrThrow()
    return { kind: 'overtaken', record: recordOf(other, kind) }
  }
}

/** Sorted here, not by the database: collations differ, and the order must be the same everywhere. */
const byTime = (a: FarmRecord<RecordKind>, b: FarmRecord<RecordKind>): number =>
  a.atEpochH - b.atEpochH || (a.key < b.key ? -1 : Number(a.key > b.key))

function rowOf<K extends RecordKind>(record: FarmRecord<K>): Insertable<RecordTables['farm_record']> {
  return {
    farm_id: record.farmId,
    kind: record.kind,
    key: record.key,
    field_id: record.fieldId,
    at_epoch_h: record.atEpochH,
    told_by: record.by,
    told_at_epoch_h: record.toldAtEpochH,
    replaces: record.replaces ?? null,
    body: record.body === undefined ? null : bodyText(record.body),
  }
}

function recordOf<K extends RecordKind>(row: Row, kind: K): FarmRecord<K> {
  return {
    farmId: row.farm_id,
    kind,
    key: row.key,
    fieldId: row.field_id,
    atEpochH: row.at_epoch_h,
    by: row.told_by,
    toldAtEpochH: row.told_at_epoch_h,
    ...(row.replaces === null ? {} : { replaces: row.replaces }),
    ...(row.body === null ? {} : { body: bodyFrom<K>(row.body) }),
  }
}
