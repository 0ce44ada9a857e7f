/** A field's outline from GeoJSON to rings, and what can be wrong with it. */

import { crossing, isInside, type Position, type Ring, signedAreaHa, wound } from '#core/units/rings.ts'
import type { Finding } from './faults.ts'
import type { BoundaryEntry } from './fields.ts'

type Path = readonly (string | number)[]
/** A ring below 40 square metres is a slip of the pen. */
const SMALLEST_RING_HA = 0.004

const polygonsOf = (boundary: BoundaryEntry): readonly (readonly (readonly number[])[])[][] =>
  boundary.type === 'Polygon' ? [boundary.coordinates] : boundary.coordinates

/** @returns closed rings by the right-hand rule, a height in the points dropped. */
export const ringsOf = (boundary: BoundaryEntry): Ring[] =>
  polygonsOf(boundary).flatMap((rings) => wound(rings.map(positionsOf)))

const positionsOf = (ring: readonly (readonly number[])[]): Position[] => ring.map((point) => [point[0]!, point[1]!])

export function outlineFindings(boundary: BoundaryEntry, path: Path): Finding[] {
  const findings: Finding[] = []
  const polygons = polygonsOf(boundary).map((rings) => rings.map(positionsOf))
  polygons.forEach((rings, p) => {
    const polygonPath = [...path, 'coordinates', ...(boundary.type === 'Polygon' ? [] : [p])]
    rings.forEach((ring, r) => {
      findings.push(...ringFindings(ring, [...polygonPath, r]))
      if (r > 0 && !isInside(ring[0]!, rings[0]!))
        findings.push({
          path: [...polygonPath, r],
          problem: 'is a hole that lies outside the outline',
          cure: 'The first ring of a polygon is its outline; pieces apart from it need type: MultiPolygon.',
        })
    })
  })
  if (findings.length > 0) return findings

  return crossingFindings(polygons.flat(), path)
}

function crossingFindings(rings: readonly Ring[], path: Path): Finding[] {
  const crossed = crossing(rings)
  if (!crossed) return []
  const [one, other] = crossed
  return [
    {
      path,
      problem: `crosses itself: the sides that begin at [${one.join(', ')}] and [${other.join(', ')}] meet`,
      cure: 'Give the corners in their order round the field, so that no two sides cross.',
    },
  ]
}

function ringFindings(ring: Ring, path: Path): Finding[] {
  const off = ring.findIndex(([lon, lat]) => Math.abs(lon) > 180 || Math.abs(lat) > 90)
  if (off >= 0)
    return [
      {
        path: [...path, off],
        problem: 'is no place on earth',
        cure: 'Points are [longitude, latitude] in degrees: -180 to 180, then -90 to 90.',
      },
    ]
  const [first, last] = [ring[0]!, ring[ring.length - 1]!]
  if (first[0] !== last[0] || first[1] !== last[1])
    return [{ path, problem: 'is not closed', cure: `Repeat the first point [${first.join(', ')}] as the last.` }]
  const lons = ring.map(([lon]) => lon)
  if (Math.max(...lons) - Math.min(...lons) > 180)
    return [{ path, problem: 'crosses the 180th meridian', cure: 'Split the field there into a MultiPolygon.' }]
  const crossed = crossingFindings([ring], path)
  if (crossed.length > 0) return crossed
  if (Math.abs(signedAreaHa(ring)) < SMALLEST_RING_HA)
    return [{ path, problem: 'encloses no area', cure: 'Give at least three corners that do not lie on one line.' }]
  return []
}
