/**
 * Takes outlines of fields and patches over, all or none: what is drawn anew changes, the same again changes nothing, and
 * each fault says which feature it is in.
 */

import { partsOf } from '#core/field/parts.ts'
import { shareInside } from '#core/field/patch-share.ts'
import type { Farm, Field, Patch } from '#core/operation/farm.ts'
import { distanceKm } from '#core/units/sphere.ts'
import { changeField, isSame } from './farm-fields.ts'
import type { DrawnOutline, OutlineReader } from './outline-port.ts'
import { idFrom } from './patches.ts'
import { findPart, findPerson } from './record-lookup.ts'
import type { Book } from './records.ts'

export interface DrawnFeature {
  /** Id or name of the field. */
  readonly field: string
  /** Name of the patch of that field that is drawn; the field itself when absent. */
  readonly patch?: Pick<Patch, 'name'> & Partial<Pick<Patch, 'kind' | 'laterDays' | 'handling'>>
  /** A field of which only the middle is known has a point. */
  readonly shape: DrawnOutline | { readonly type: 'Point'; readonly coordinates: readonly number[] }
}

export interface FeatureFault {
  /** Number of the feature, from 0, and the place in it. */
  readonly feature: number
  readonly path: string
  readonly what: string
}

export interface FeatureChange {
  /** Key of the part. */
  readonly key: string
  readonly change: 'added' | 'changed' | 'same'
  readonly areaHa: number
}

export type ImportAnswer =
  | { readonly kind: 'taken'; readonly changes: readonly FeatureChange[] }
  | { readonly kind: 'refused'; readonly faults: readonly FeatureFault[] }
  /** Someone else changed a field at the same moment; what was done stays, sending it again does the rest. */
  | { readonly kind: 'overtaken'; readonly field: string }

/** A field's area as told stands while the outline encloses about as much, as in the farm file. */
const AREA_AGREES_SHARE = 0.05
/** Further from home it is a slip: the coordinates turned round, or metres of some map [km]. */
const FURTHEST_KM = 500
const SMALLEST_SHARE = 0.001

type Found<T> = T | Omit<FeatureFault, 'feature'>
const isFault = <T extends object>(found: Found<T>): found is Omit<FeatureFault, 'feature'> => 'what' in found

export async function importOutlines(
  book: Book,
  features: readonly DrawnFeature[],
  read: OutlineReader,
  by: string,
): Promise<ImportAnswer> {
  const { farm, store, nowEpochH } = book
  const faults: FeatureFault[] = []
  const changes: FeatureChange[] = []
  const drawn = new Map<string, Field>()
  const seen = new Set<string>()
  // Fields first: a patch is a share of its field as it is drawn by then.
  const inOrder = features.map((feature, index) => ({ feature, index })).sort((a, b) => rank(a) - rank(b))
  for (const { feature, index } of inOrder) {
    const found = place(farm, drawn, feature)
    const done = isFault(found) ? found : redrawn(found, feature, read, farm)
    if (isFault(done)) {
      faults.push({ feature: index, ...done })
      continue
    }
    const { change, field } = done
    if (seen.has(change.key)) {
      faults.push({ feature: index, path: '', what: `${change.key} is drawn twice.` })
      continue
    }
    seen.add(change.key)
    changes.push(change)
    if (change.change !== 'same') drawn.set(field.id, field)
  }
  if (faults.length > 0) return { kind: 'refused', faults: faults.sort((a, b) => a.feature - b.feature) }
  const who = findPerson(farm, by)
  for (const field of drawn.values()) {
    if (!(await changeField(farm.id, field, who, store, nowEpochH))) return { kind: 'overtaken', field: field.name }
  }
  return { kind: 'taken', changes }
}

const rank = ({ feature }: { readonly feature: DrawnFeature }): number => (feature.patch ? 1 : 0)

/** The field of a feature, as drawn by then. */
function place(farm: Farm, drawn: ReadonlyMap<string, Field>, { field }: DrawnFeature): Found<Field> {
  const part = findPart(farm, { field })
  if ('code' in part) {
    return { path: 'properties', what: `No field is called "${field}": describe it in the farm file first.` }
  }
  return drawn.get(part.field.id) ?? part.field
}

interface Redrawn {
  readonly field: Field
  readonly change: FeatureChange
}

function redrawn(field: Field, { patch, shape }: DrawnFeature, read: OutlineReader, farm: Farm): Found<Redrawn> {
  if (shape.type === 'Point') {
    return patch
      ? { path: 'geometry', what: 'A patch is drawn by a polygon.' }
      : movedTo(field, shape.coordinates, farm)
  }
  const outline = read(shape)
  if (outline.kind === 'faulty') {
    const [fault] = outline.faults
    return { path: ['geometry', fault!.path].filter(Boolean).join('/'), what: fault!.what }
  }
  if (patch) return patched(field, patch, outline.boundary)
  const far = farFault(outline.centre, farm)
  if (far) return far
  const { boundary, centre } = outline
  const agrees = Math.abs(field.areaHa - outline.areaHa) <= AREA_AGREES_SHARE * outline.areaHa
  const areaHa = agrees ? field.areaHa : outline.areaHa
  return compared(field, { ...field, boundary, centre, areaHa })
}

function movedTo(field: Field, coordinates: readonly number[], farm: Farm): Found<Redrawn> {
  if (field.boundary) {
    return { path: 'geometry', what: 'The field has an outline, which a point would take away.' }
  }
  const [lonDeg = Number.NaN, latDeg = Number.NaN] = coordinates
  const centre = { latDeg, lonDeg }
  return farFault(centre, farm) ?? compared(field, { ...field, centre })
}

function farFault(centre: Field['centre'], { home }: Farm): Omit<FeatureFault, 'feature'> | undefined {
  const km = distanceKm(centre, home)
  if (km <= FURTHEST_KM) return undefined
  const what = `It lies ${Math.round(km)} km from home. Points are [longitude, latitude] in degrees of WGS 84 (RFC 7946, 4).`
  return { path: 'geometry', what }
}

function compared(before: Field, field: Field): Redrawn {
  const same = isSame(shapeOf(before), shapeOf(field))
  return { field, change: { key: field.id, change: same ? 'same' : 'changed', areaHa: field.areaHa } }
}

const shapeOf = ({ boundary, centre, areaHa }: Field) => (boundary ? { boundary, areaHa } : { centre, areaHa })

function patched(field: Field, drawn: NonNullable<DrawnFeature['patch']>, rings: readonly Ring[]): Found<Redrawn> {
  if (!field.boundary) {
    return { path: 'geometry', what: `${field.name} has no outline to hold it against: draw the field too.` }
  }
  if (rings.length !== 1) return { path: 'geometry', what: 'A patch is one polygon without holes.' }
  const id = idFrom(drawn.name)
  if (id === '') return { path: 'properties/patch', what: 'The name needs a letter or a digit.' }
  const share = shareInside(field.boundary, rings[0]!)
  const others = field.patches.filter((patch) => patch.id !== id)
  const taken = others.reduce((sum, patch) => sum + patch.share, 0)
  if (!(share >= SMALLEST_SHARE)) return { path: 'geometry', what: `It lies outside ${field.name}.` }
  if (taken + share >= 1) return { path: 'geometry', what: `With its other patches nothing of ${field.name} is left.` }
  const before = field.patches.find((patch) => patch.id === id)
  const usual = { kind: 'green', laterDays: 0, handling: 'leave' } as const
  const patch: Patch = { ...usual, ...before, ...drawn, id, share, outline: rings[0]! }
  const same = before !== undefined && PATCH_PROPERTIES.every((name) => isSame(before[name], patch[name]))
  const patches = before ? field.patches.map((other) => (other.id === id ? patch : other)) : [...others, patch]
  const changed = { ...field, patches }
  const { key } = partsOf(changed).find((part) => part.patch?.id === id)!
  const change = before ? (same ? 'same' : 'changed') : 'added'
  return { field: same ? field : changed, change: { key, change, areaHa: field.areaHa * share } }
}

type Ring = NonNullable<Field['boundary']>[number]
const PATCH_PROPERTIES = ['name', 'share', 'outline', 'kind', 'laterDays', 'handling'] as const
