/** Use-cases of patches: split one off a field by its share or its outline, join it again. */

import { shareInside } from '#core/field/patch-share.ts'
import type { Field, Patch } from '#core/operation/farm.ts'
import { changeField, isSame } from './farm-fields.ts'
import { MOST_LATER_DAYS, type RecordFault, refused } from './record-faults.ts'
import { findPart, findPerson } from './record-lookup.ts'
import type { Book } from './records.ts'

export interface ToldPatch {
  readonly by: string
  /** Id or name of the field. */
  readonly field: string
  readonly name: string
  /** Share of the field's area, or the outline as one closed ring of [lon, lat]; one of the two. */
  readonly share?: number | undefined
  readonly outline?: readonly (readonly [number, number])[] | undefined
  readonly kind: Patch['kind']
  readonly laterDays: number
  readonly handling: Patch['handling']
}

export type PatchAnswer =
  | { readonly kind: 'kept' | 'known'; readonly field: Field; readonly patch: Patch }
  | { readonly kind: 'refused'; readonly fault: RecordFault }

export async function splitField(book: Book, told: ToldPatch): Promise<PatchAnswer> {
  const { farm, store, nowEpochH } = book
  const part = findPart(farm, { field: told.field })
  if ('code' in part) return refused(part)
  const { field } = part
  const who = findPerson(farm, told.by)
  if (who === '') return refused({ code: 'who-missing' })
  const { kind, laterDays, handling } = told
  const name = told.name.trim()
  const id = idFrom(name)
  if (id === '') return refused({ code: 'name-impossible', said: told.name })
  if (!(laterDays >= 0 && laterDays <= MOST_LATER_DAYS)) {
    return refused({ code: 'days-impossible', said: laterDays, largest: MOST_LATER_DAYS })
  }
  if (told.outline && !field.boundary) return refused({ code: 'boundary-missing', fieldName: field.name })
  const share = told.outline && field.boundary ? shareInside(field.boundary, told.outline) : (told.share ?? Number.NaN)
  const patch: Patch = { id, name, share, ...(told.outline && { outline: told.outline }), kind, laterDays, handling }
  const there = field.patches.find((other) => other.id === id)
  if (there) {
    return isSame(there, patch) ? { kind: 'known', field, patch: there } : refused({ code: 'patch-exists', said: name })
  }
  const taken = field.patches.reduce((sum, other) => sum + other.share, 0)
  if (!(share > 0 && taken + share < 1)) return refused({ code: 'share-impossible', said: share })
  const split: Field = { ...field, patches: [...field.patches, patch] }
  const kept = await changeField(farm.id, split, who, store, nowEpochH)
  return kept ? { kind: 'kept', field: split, patch } : refused({ code: 'changed-meanwhile', fieldName: field.name })
}

/** Takes a patch back into its field; one that was measured or cut by itself stays. */
export async function joinPatch(book: Book, field: string, patchName: string, by: string): Promise<PatchAnswer> {
  const { farm, store, nowEpochH } = book
  const part = findPart(farm, { field, patch: patchName })
  if ('code' in part) return refused(part)
  const who = findPerson(farm, by)
  if (who === '') return refused({ code: 'who-missing' })
  const patch = part.patch!
  const told = await Promise.all((['reading', 'cut', 'event'] as const).map((kind) => store.current(farm.id, kind)))
  if (told.flat().some(({ body }) => body.partKey === part.key)) {
    return refused({ code: 'patch-measured', said: patch.name })
  }
  const joined: Field = { ...part.field, patches: part.field.patches.filter(({ id }) => id !== patch.id) }
  const kept = await changeField(farm.id, joined, who, store, nowEpochH)
  return kept
    ? { kind: 'kept', field: joined, patch }
    : refused({ code: 'changed-meanwhile', fieldName: part.field.name })
}

/** Letters without accents and digits, everything else a hyphen: as ids are made from names in the farm file. */
export const idFrom = (name: string): string =>
  name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
