/** Where each outfit stands: in the part it cut last. */
import type { Farm } from '#core/operation/farm.ts'
import type { Cut } from './cut.ts'
import { type FieldPart, partsOf } from './parts.ts'

/**
 * @param cuts those that hold, in any order; a cut of a part or by an outfit that the farm does not have is left aside.
 * @returns part by the outfit's id; an outfit that has cut nothing yet is not in it.
 */
export function outfitPlaces(farm: Farm, cuts: readonly Cut[]): Map<string, FieldPart> {
  const parts = new Map(farm.fields.flatMap(partsOf).map((part) => [part.key, part]))
  const outfits = new Set(farm.outfits.map(({ id }) => id))
  const places = new Map<string, FieldPart>()
  // Of two that ended together the one told under the later key counts, on every machine alike.
  const inTime = [...cuts].sort((a, b) => a.atEpochH - b.atEpochH || (a.id < b.id ? -1 : 1))
  for (const { partKey, outfitId } of inTime) {
    const part = parts.get(partKey)
    if (part && outfits.has(outfitId)) places.set(outfitId, part)
  }
  return places
}
