/** Checks within one field: its place, its dates, the keys its crop needs, its patches. */

import { shareInside } from '#core/field/patch-share.ts'
import type { UnitSystem } from '#core/operation/farm.ts'
import { areaHaOf, centreOf } from '#core/units/rings.ts'
import { distanceKm } from '#core/units/sphere.ts'
import { dateFrom } from './common.ts'
import type { Finding } from './faults.ts'
import type { FieldEntry } from './fields.ts'
import { outlineFindings, ringsOf } from './outline.ts'
import { fromSi, unitOf } from './units.ts'

type Path = readonly (string | number)[]
/** The farm's `home` as it stands in the file, sound or not. */
type Home = { readonly [key: string]: unknown } | undefined

/** Stated and drawn area may differ by waterways and headlands; more is a wrong field or a wrong unit. */
const AREA_MISMATCH = 0.05
const FAR_FROM_HOME_KM = 500
const LONGEST_SEASON_DAYS = 400

export function fieldFindings(field: FieldEntry, path: Path, units: UnitSystem, home: Home): Finding[] {
  return [
    ...placeFindings(field, path, units, home),
    ...cropFindings(field, path),
    ...dateFindings(field, path, home),
    ...patchFindings(field, path),
  ]
}

function placeFindings(field: FieldEntry, path: Path, units: UnitSystem, home: Home): Finding[] {
  if (field.boundary && field.centre)
    return [
      {
        path: [...path, 'centre'],
        problem: 'stands beside a boundary',
        cure: 'Keep the boundary and delete centre; the middle is computed.',
      },
    ]
  if (!field.boundary && !field.centre)
    return [
      {
        path: [...path, 'boundary'],
        problem: 'is missing, and centre too: the field has no place',
        cure: 'Give a boundary, or centre: { lat, lon } together with area.',
      },
    ]
  if (!field.boundary && field.area === undefined)
    return [
      {
        path: [...path, 'area'],
        problem: 'is missing, and only the centre is known',
        cure: `Give the area in ${unitOf('area', units)}, or a boundary to compute it from.`,
      },
    ]
  const outline = field.boundary ? outlineFindings(field.boundary, [...path, 'boundary']) : []
  if (outline.length > 0) return outline

  const rings = field.boundary ? ringsOf(field.boundary) : []
  const centre = field.boundary
    ? centreOf(rings)
    : { latDeg: field.centre?.lat ?? Number.NaN, lonDeg: field.centre?.lon ?? Number.NaN }
  return [
    ...(field.boundary ? areaFindings(field, areaHaOf(rings), path, units) : []),
    ...farFindings(centre, [...path, field.boundary ? 'boundary' : 'centre'], home),
  ]
}

function areaFindings(field: FieldEntry, drawnHa: number, path: Path, units: UnitSystem): Finding[] {
  if (field.area === undefined) return []
  const drawn = fromSi(drawnHa, 'area', units)
  if (Math.abs(field.area - drawn) <= AREA_MISMATCH * drawn) return []
  const unit = unitOf('area', units)
  return [
    {
      path: [...path, 'area'],
      problem: `${unit} is more than 5 percent off the ${drawn.toFixed(1)} ${unit} that the boundary encloses`,
      cure: 'Correct the boundary or the area, or leave the area out.',
    },
  ]
}

function farFindings(centre: { latDeg: number; lonDeg: number }, path: Path, home: Home): Finding[] {
  if (typeof home?.lat !== 'number' || typeof home.lon !== 'number') return []
  const away = distanceKm(centre, { latDeg: home.lat, lonDeg: home.lon })
  if (!(away > FAR_FROM_HOME_KM)) return []
  return [
    {
      path,
      problem: `lies ${Math.round(away)} km from home`,
      cure: 'In a boundary the longitude comes first, [lon, lat]; west and south are negative. Fields lie within 500 km.',
    },
  ]
}

function cropFindings(field: FieldEntry, path: Path): Finding[] {
  const findings: Finding[] = []
  const only = (key: 'maturity_group' | 'relative_maturity', crop: string, example: string) => {
    if (field.crop === crop && field[key] === undefined && field.cut === undefined)
      findings.push({
        path: [...path, key],
        problem: `is missing, but every ${crop} field needs it`,
        cure: `Give the variety's, such as ${key}: ${example}.`,
      })
    if (field.crop !== crop && field[key] !== undefined)
      findings.push({
        path: [...path, key],
        problem: `belongs to ${crop}, not to ${field.crop}`,
        cure: `Delete ${key} here, or correct the crop.`,
      })
  }
  only('maturity_group', 'soybean', '2.8')
  only('relative_maturity', 'corn', '110')
  if (field.after_wheat && field.crop.startsWith('wheat'))
    findings.push({
      path: [...path, 'after_wheat'],
      problem: 'is set on a wheat field',
      cure: 'It marks the crop planted after wheat the same summer; delete it here.',
    })
  return findings
}

function dateFindings(field: FieldEntry, path: Path, home: Home): Finding[] {
  const findings: Finding[] = []
  const planted = dateFrom(field.planted)
  for (const key of ['mature_seen', 'cut'] as const) {
    const seen = field[key] === undefined ? undefined : dateFrom(field[key])
    if (!planted || !seen) continue
    const days = planted.until(seen).days
    if (days < 1 || days > LONGEST_SEASON_DAYS)
      findings.push({
        path: [...path, key],
        problem:
          days < 1
            ? `is not after the planting on ${field.planted}`
            : `is ${days} days after the planting on ${field.planted}`,
        cure: `Correct one of the two dates; a crop stands at most ${LONGEST_SEASON_DAYS} days.`,
      })
  }
  const north = typeof home?.lat === 'number' && home.lat > 0
  if (field.after_wheat && planted && planted.month < 6 && north)
    findings.push({
      path: [...path, 'planted'],
      problem: 'is early for a crop after wheat',
      cure: 'Wheat is rarely off before June; check the date or after_wheat.',
      warning: true,
    })
  return findings
}

function patchFindings(field: FieldEntry, path: Path): Finding[] {
  const findings = field.patches.flatMap((patch, p) => shareFindings(patch, field, [...path, 'patches', p]))
  if (findings.length > 0) return findings
  const rings = field.boundary ? ringsOf(field.boundary) : []
  const shareOf = ({ share, outline }: PatchEntry) =>
    outline ? shareInside(rings, ringsOf(outline)[0]!) : (share ?? 0)
  const sum = field.patches.reduce((total, patch) => total + shareOf(patch), 0)
  if (sum < 1) return []
  return [
    {
      path: [...path, 'patches'],
      problem: `take up ${Math.round(sum * 100)} percent of the field`,
      cure: 'Their shares sum to less than 1, so that some of the field is left: 0.08 is 8 percent.',
    },
  ]
}

type PatchEntry = FieldEntry['patches'][number]

/** A patch has a share or an outline, and an outline lies over that of its field. */
function shareFindings({ share, outline }: PatchEntry, { boundary }: FieldEntry, path: Path): Finding[] {
  if (!outline) {
    if (share !== undefined) return []
    return [
      {
        path: [...path, 'share'],
        problem: 'is missing, and outline too',
        cure: 'Give one of them: share: 0.08 is 8 percent.',
      },
    ]
  }
  if (share !== undefined)
    return [
      {
        path: [...path, 'share'],
        problem: 'stands beside an outline',
        cure: 'Keep the outline and delete share; it is computed.',
      },
    ]
  const findings = outlineFindings(outline, [...path, 'outline'])
  if (findings.length > 0) return findings
  if (!boundary)
    return [
      {
        path: [...path, 'outline'],
        problem: 'has no boundary of the field to lie in',
        cure: 'Give the field a boundary, or the patch a share.',
      },
    ]
  if (outlineFindings(boundary, []).length > 0 || shareInside(ringsOf(boundary), ringsOf(outline)[0]!) > 0) return []
  return [
    {
      path: [...path, 'outline'],
      problem: 'lies outside the field',
      cure: 'Draw it over the boundary of its field, points as [longitude, latitude].',
    },
  ]
}
