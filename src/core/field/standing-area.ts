/** What still stands of each part: its area less what was cut. */
import type { Farm, Field } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Cut } from './cut.ts'
import { type FieldPart, partsOf } from './parts.ts'
import type { BlendShare } from './reading.ts'

/** So little left is counted as none: machines do not measure closer (common practice, no source). */
const SLIVER_HA = 0.2
const SLIVER_SHARE = 0.05

/**
 * Area still standing by part key, of every part of every field [ha].
 *
 * A cut that names a patch takes from the patch. A cut that names the field takes from its main stand and from the patches
 * the crew cuts through, in proportion to what stands of each. What was cut beyond the area of a part is not taken from
 * another: areas as driven and as drawn differ by some percent. The order of the cuts does not matter.
 *
 * @param cuts those that hold, of this farm; others are left aside.
 */
export function standingHa(farm: Farm, cuts: readonly Cut[]): Map<string, number> {
  return new Map(farm.fields.flatMap((field) => [...standingInField(field, cuts)]))
}

/**
 * When each part was finished: the end of the cut after which nothing of it stood. Parts that still stand are not in it.
 * @returns hours since the epoch, by part key.
 */
export function finishedAt(field: Field, cuts: readonly Cut[]): Map<string, number> {
  const keys = new Set(partsOf(field).map(({ key }) => key))
  const own = cuts.filter((cut) => keys.has(cut.partKey)).sort((a, b) => a.atEpochH - b.atEpochH)
  const finished = new Map<string, number>()
  for (let n = 1; n <= own.length; n++) {
    for (const [key, ha] of standingInField(field, own.slice(0, n))) {
      if (ha > 0) finished.delete(key)
      else if (!finished.has(key)) finished.set(key, own[n - 1]!.atEpochH)
    }
  }
  return finished
}

/** When the part was finished, by its cuts or by the date the farm gave; Infinity while it stands. */
export function finishedBy(part: FieldPart, cuts: readonly Cut[], timeZone: string): number {
  const byCuts = finishedAt(part.field, cuts).get(part.key) ?? Number.POSITIVE_INFINITY
  const { cutOn } = part.field
  if (!cutOn) return byCuts
  const lastMinute = cutOn.add({ days: 1 }).toZonedDateTime(timeZone).subtract({ minutes: 1 })
  return Math.min(byCuts, epochHoursOf(lastMinute.toInstant()))
}

/** A load is of a part, but where the crew cuts through patches its grain is of them too, by their share of the area. */
export function blendOf(part: FieldPart): BlendShare[] {
  if (part.patch) return []
  const together = partsOf(part.field).filter(cutWithMain)
  const wholeHa = together.reduce((sum, { areaHa }) => sum + areaHa, 0)
  return together.filter(({ patch }) => patch).map(({ key, areaHa }) => ({ partKey: key, share: areaHa / wholeHa }))
}

/**
 * Area of a part less all that was told cut of it [ha]: what the next cut may still take. Below 0 where more was cut than
 * stood; for the field's key the patches the crew cuts through count with the main stand.
 */
export function uncutHa(part: FieldPart, cuts: readonly Cut[]): number {
  if (part.patch) return part.areaHa - takenHa(part.key, cuts)
  const together = partsOf(part.field).filter(cutWithMain)
  return together.reduce((sum, { key, areaHa }) => sum + areaHa - takenHa(key, cuts), 0)
}

function standingInField(field: Field, cuts: readonly Cut[]): Map<string, number> {
  const parts = partsOf(field)
  const left = new Map(parts.map((part) => [part.key, Math.max(0, part.areaHa - takenFrom(part.key, part, cuts))]))
  const together = parts.filter(cutWithMain)
  const before = together.reduce((sum, { key }) => sum + left.get(key)!, 0)
  const after = Math.max(0, before - takenHa(field.id, cuts))
  const done = cuts.some((cut) => cut.done && cut.partKey === field.id)
  for (const { key } of together) left.set(key, done || before === 0 ? 0 : left.get(key)! * (after / before))
  for (const { key, areaHa } of parts) {
    const doneAlone = cuts.some((cut) => cut.done && cut.partKey === key)
    if (doneAlone || left.get(key)! < Math.min(SLIVER_HA, SLIVER_SHARE * areaHa)) left.set(key, 0)
  }
  return left
}

const cutWithMain = (part: FieldPart): boolean => part.patch === undefined || part.patch.handling === 'blend'

/** Cuts that name a patch take from it alone; those that name the field are shared out afterwards. */
const takenFrom = (key: string, part: FieldPart, cuts: readonly Cut[]): number => (part.patch ? takenHa(key, cuts) : 0)

const takenHa = (key: string, cuts: readonly Cut[]): number =>
  Math.max(
    0,
    cuts.reduce((sum, cut) => (cut.partKey === key ? sum + cut.areaHa : sum), 0),
  )
