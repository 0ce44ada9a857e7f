/** Share of a field that an outline drawn over it covers. */
import { isInside, type Ring, signedAreaHa } from '#core/units/rings.ts'

/** Rows of sample points over the outline, and points in each: a part cut off is known to about a percent of the outline. */
const SAMPLES = 200

/**
 * Share of a field's area inside an outline [0-1], what lies beyond the field or in its holes left out; 0 where they do
 * not meet.
 *
 * Areas are those on the ellipsoid, exact for an outline that lies in the field; what sticks out of it is counted on a grid of
 * points laid over the outline.
 *
 * @param boundary the field's rings of [lon, lat], outlines and holes. @param outline one closed ring of [lon, lat].
 */
export function shareInside(boundary: readonly Ring[], outline: Ring): number {
  const west = Math.min(...outline.map(([lon]) => lon))
  const east = Math.max(...outline.map(([lon]) => lon))
  const south = Math.min(...outline.map(([, lat]) => lat))
  const north = Math.max(...outline.map(([, lat]) => lat))
  const width = (east - west) / SAMPLES
  const height = (north - south) / SAMPLES
  let drawn = 0
  let inside = 0
  for (let row = 0; row < SAMPLES; row++) {
    const lat = south + (row + 0.5) * height
    for (let column = 0; column < SAMPLES; column++) {
      const lon = west + (column + 0.5) * width
      if (!isWithin([outline], lon, lat)) continue
      drawn++
      if (isWithin(boundary, lon, lat)) inside++
    }
  }
  if (inside === 0) return 0
  return ((inside / drawn) * areaOf(outline)) / areaHa(boundary)
}

/** Outlines less holes, whichever way round the rings run: each counts by how many others it lies in. */
function areaHa(rings: readonly Ring[]): number {
  return rings.reduce((sum, ring, r) => {
    const others = rings.filter((_, other) => other !== r)
    const [lon, lat] = ring[0]!
    return sum + (isWithin(others, lon, lat) ? -1 : 1) * areaOf(ring)
  }, 0)
}

const areaOf = (ring: Ring): number => Math.abs(signedAreaHa(ring))

/** Even-odd rule over all rings: inside an outline and not in a hole. */
const isWithin = (rings: readonly Ring[], lon: number, lat: number): boolean =>
  rings.reduce((within, ring) => within !== isInside([lon, lat], ring), false)
