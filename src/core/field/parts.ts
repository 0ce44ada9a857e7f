/** A field is planned in parts: its main stand, and each patch that ripens apart. */
import type { Farm, Field, Patch } from '#core/operation/farm.ts'

export interface FieldPart {
  /** Stable key: the field's id, or field id and patch id joined by a slash. */
  readonly key: string
  readonly field: Field
  /** Absent for the main stand. */
  readonly patch?: Patch
  readonly areaHa: number
  /** Patches the crew cuts through in the same load, where the part stands for all that is cut together. */
  readonly through?: readonly Patch[]
}

/** @returns undefined where the farm has no such part. */
export const partOfKey = ({ fields }: Farm, key: string | undefined): FieldPart | undefined =>
  fields.flatMap(partsOf).find((part) => part.key === key)

export function partsOf(field: Field): FieldPart[] {
  const patchShare = field.patches.reduce((sum, patch) => sum + patch.share, 0)
  return [
    { key: field.id, field, areaHa: field.areaHa * (1 - patchShare) },
    ...field.patches.map((patch) => ({
      key: `${field.id}/${patch.id}`,
      field,
      patch,
      areaHa: field.areaHa * patch.share,
    })),
  ]
}
