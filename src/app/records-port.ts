/**
 * The farm's book: readings, cuts, events, decisions and changed fields, as people told them. It is only ever added to: a correction
 * is a new record that names the one it replaces, and who told what and when stays readable.
 */

import type { Cut } from '#core/field/cut.ts'
import type { FieldEvent } from '#core/field/event.ts'
import type { Reading } from '#core/field/reading.ts'
import type { Field } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'

/** What each kind of record holds. */
export interface RecordBodies {
  reading: Reading
  cut: Cut
  event: FieldEvent
  /** What the planner fixed, forbade or changed. */
  decision: PlanChange
  /** A field as it is now known. */
  field: Field
  /** A field as the farm file had it when it was last read: what changed in the file is told by it. */
  seed: Field
}
export type RecordKind = keyof RecordBodies

export interface FarmRecord<K extends RecordKind> {
  readonly farmId: string
  readonly kind: K
  /** Names the record within farm and kind. Whoever sends it again under the same key changes nothing. */
  readonly key: string
  readonly fieldId: string
  /** When it happened, hours since the epoch. */
  readonly atEpochH: number
  /** Who told it, and when, hours since the epoch. */
  readonly by: string
  readonly toldAtEpochH: number
  /** Key of the record that this one takes the place of. */
  readonly replaces?: string
  /** Absent where it only takes back what it replaces. */
  readonly body?: RecordBodies[K]
}

export type Kept<K extends RecordKind> =
  /** It is on disk. */
  | { readonly kind: 'kept' }
  /** The key stands already, with this in it. Nothing was changed. */
  | { readonly kind: 'known'; readonly record: FarmRecord<K> }
  /** What it was to replace has been replaced already, by this. Nothing was changed. */
  | { readonly kind: 'overtaken'; readonly record: FarmRecord<K> }

export interface RecordStore {
  /** Adds a record, all or nothing; when this resolves it survives the death of the process. Safe to ask again. */
  keep<K extends RecordKind>(record: FarmRecord<K>): Promise<Kept<K>>
  find<K extends RecordKind>(farmId: string, kind: K, key: string): Promise<FarmRecord<K> | undefined>
  /** What holds now: neither replaced nor taken back. By time, then key, the same on every machine. */
  current<K extends RecordKind>(farmId: string, kind: K): Promise<readonly Standing<K>[]>
  /** Everything ever told, in the same order. */
  history<K extends RecordKind>(farmId: string, kind: K): Promise<readonly FarmRecord<K>[]>
}

/** @returns what holds now of a kind, without who told it and when. */
export const bodiesOf = async <K extends RecordKind>(
  store: Pick<RecordStore, 'current'>,
  farmId: string,
  kind: K,
): Promise<RecordBodies[K][]> => (await store.current(farmId, kind)).map(({ body }) => body)

/** A record that holds, so it has a body. */
export type Standing<K extends RecordKind> = FarmRecord<K> & { readonly body: RecordBodies[K] }
