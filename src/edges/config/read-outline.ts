/** Reads an outline that comes from elsewhere than the farm file by the same rules. */
import type { OutlineReader } from '#app/outline-port.ts'
import { areaHaOf, centreOf } from '#core/units/rings.ts'
import type { BoundaryEntry } from './fields.ts'
import { outlineFindings, ringsOf } from './outline.ts'

export const readOutline: OutlineReader = (outline) => {
  const entry = outline as BoundaryEntry
  const findings = outlineFindings(entry, [])
  if (findings.length > 0) {
    const faults = findings.map(({ path, problem, cure }) => ({ path: path.join('/'), what: `${problem}. ${cure}` }))
    return { kind: 'faulty', faults }
  }
  const boundary = ringsOf(entry)
  return { kind: 'sound', boundary, areaHa: areaHaOf(boundary), centre: centreOf(boundary) }
}
