/** What was said, found on the farm: fields, patches, outfits and people by id or name. */

import { type FieldPart, partOfKey, partsOf } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { RecordFault } from './record-faults.ts'

/** Where: id or name of the field, and of the patch if it is one. */
export interface Where {
  readonly field: string
  readonly patch?: string | undefined
}

const same = (said: string, { id, name }: { readonly id: string; readonly name: string }): boolean =>
  said.trim() === id || said.trim().toLowerCase() === name.toLowerCase()

/** The field may also be given as the key of a part, such as `long-eighty/north-end`. */
export function findPart(farm: Farm, { field: said, patch: saidPatch }: Where): FieldPart | RecordFault {
  const byKey = saidPatch === undefined && partOfKey(farm, said)
  if (byKey) return byKey
  const field = farm.fields.find((candidate) => same(said, candidate))
  if (!field) return { code: 'unknown-field', said, known: farm.fields.map(({ name }) => name) }
  const [main, ...patches] = partsOf(field)
  if (saidPatch === undefined) return main!
  return (
    patches.find(({ patch }) => patch && same(saidPatch, patch)) ?? {
      code: 'unknown-patch',
      said: saidPatch,
      fieldName: field.name,
      known: field.patches.map(({ name }) => name),
    }
  )
}

export function findOutfit(farm: Farm, said: string | undefined): { readonly id: string } | RecordFault {
  const found = farm.outfits.length === 1 && said === undefined ? farm.outfits[0] : undefined
  return (
    found ??
    farm.outfits.find((outfit) => said !== undefined && same(said, outfit)) ?? {
      code: 'unknown-outfit',
      said: said ?? '',
      known: farm.outfits.map(({ name }) => name),
    }
  )
}

/** The id of a person of the farm, or the name as given: hired hands need no entry in the farm file. */
export const findPerson = (farm: Farm, said: string): string =>
  farm.people.find((person) => same(said, person))?.id ?? said.trim()
