/**
 * The farm's fields: the farm file seeds them, afterwards the book is the truth. Reading the same file again changes
 * nothing; a changed file changes what it changed, unless someone changed the same thing in the book since.
 */
import type { Farm, Field } from '#core/operation/farm.ts'
import { bodiesOf, type FarmRecord, type RecordStore } from './records-port.ts'

/** One thing that reading the file did, or did not do. */
export type FieldChange =
  | { readonly kind: 'added' | 'gone'; readonly field: string }
  | { readonly kind: 'changed'; readonly field: string; readonly what: FieldProperty }
  /** The file and the book were both changed; the book's stands. */
  | { readonly kind: 'differs'; readonly field: string; readonly what: FieldProperty }
type FieldProperty = keyof Field

/** Stands as who told it where the farm file did. */
const FARM_FILE = 'farm-file'

/** @param farm as just read from its file. @returns what changed, empty when nothing did. */
export async function seedFields(farm: Farm, store: RecordStore, nowEpochH: number): Promise<FieldChange[]> {
  const seeds = await versions(farm.id, 'seed', store)
  const fields = await versions(farm.id, 'field', store)
  const changes: FieldChange[] = []
  const keep = (kind: 'field' | 'seed', fieldId: string, field: Field | undefined) =>
    store.keep(nextVersion(farm.id, kind, fieldId, field, FARM_FILE, nowEpochH, kind === 'seed' ? seeds : fields))
  for (const field of farm.fields) {
    const now = fields.get(field.id)?.last.body
    const before = seeds.get(field.id)?.last.body ?? now
    if (!now) changes.push({ kind: 'added', field: field.name })
    const merged = now && before ? merge(before, field, now, changes) : field
    // The field first: cut off between the two, the next reading of the file finds the same difference again.
    if (merged !== now) await keep('field', field.id, merged)
    if (!isSame(seeds.get(field.id)?.last.body, field)) await keep('seed', field.id, field)
  }
  const inFile = new Set(farm.fields.map(({ id }) => id))
  for (const [id, { last }] of seeds) {
    if (inFile.has(id) || !last.body) continue
    changes.push({ kind: 'gone', field: last.body.name })
    if (fields.get(id)?.last.body) await keep('field', id, undefined)
    await keep('seed', id, undefined)
  }
  return changes
}

/** The farm with its fields as the book has them: in the file's order, then those only the book knows, by id. */
export async function farmFromBook(farm: Farm, store: Pick<RecordStore, 'current'>): Promise<Farm> {
  const fields = await bodiesOf(store, farm.id, 'field')
  const order = new Map(farm.fields.map(({ id }, index) => [id, index]))
  const rank = (id: string) => order.get(id) ?? order.size
  return { ...farm, fields: fields.sort((a, b) => rank(a.id) - rank(b.id) || (a.id < b.id ? -1 : 1)) }
}

/** Adds a version of a field, as a person changed it. @returns false when someone else did at the same moment. */
export async function changeField(
  farmId: string,
  field: Field,
  by: string,
  store: RecordStore,
  nowEpochH: number,
): Promise<boolean> {
  const fields = await versions(farmId, 'field', store)
  const kept = await store.keep(nextVersion(farmId, 'field', field.id, field, by, nowEpochH, fields))
  return kept.kind === 'kept'
}

type Versions<K extends 'field' | 'seed'> = ReadonlyMap<
  string,
  { readonly count: number; readonly last: FarmRecord<K> }
>

/** Versions of each field follow each other by what they replace; the newest is replaced by none. */
async function versions<K extends 'field' | 'seed'>(farmId: string, kind: K, store: RecordStore): Promise<Versions<K>> {
  const told = await store.history(farmId, kind)
  const replaced = new Set(told.map(({ replaces }) => replaces))
  const counts = new Map<string, number>()
  for (const { fieldId } of told) counts.set(fieldId, (counts.get(fieldId) ?? 0) + 1)
  const newest = told.filter(({ key }) => !replaced.has(key))
  return new Map(newest.map((last) => [last.fieldId, { count: counts.get(last.fieldId)!, last }]))
}

function nextVersion<K extends 'field' | 'seed'>(
  farmId: string,
  kind: K,
  fieldId: string,
  field: Field | undefined,
  by: string,
  nowEpochH: number,
  known: Versions<K>,
): FarmRecord<K> {
  const before = known.get(fieldId)
  const record: FarmRecord<'field' | 'seed'> = {
    farmId,
    kind,
    key: `${fieldId}/${(before?.count ?? 0) + 1}`,
    fieldId,
    atEpochH: nowEpochH,
    by,
    toldAtEpochH: nowEpochH,
    ...(before ? { replaces: before.last.key } : {}),
    ...(field ? { body: field } : {}),
  }
  return record as FarmRecord<K>
}

/** What the file changed since it was last read is taken over, property by property. */
function merge(before: Field, file: Field, now: Field, changes: FieldChange[]): Field {
  const merged: Partial<Record<FieldProperty, unknown>> = { ...now }
  let changed = false
  const properties = new Set([...Object.keys(before), ...Object.keys(file)]) as Set<FieldProperty>
  for (const what of properties) {
    if (isSame(before[what], file[what]) || isSame(now[what], file[what])) continue
    if (!isSame(before[what], now[what])) {
      changes.push({ kind: 'differs', field: now.name, what })
      continue
    }
    changes.push({ kind: 'changed', field: now.name, what })
    changed = true
    if (file[what] === undefined) delete merged[what]
    else merged[what] = file[what]
  }
  return changed ? (merged as unknown as Field) : now
}

/** Equal as stored: dates and nested values by their JSON. */
export const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b)
