/**
 * Map tiles under the fields. Scheme: XYZ in Web Mercator, tile 0/0/0 the whole world to 85.0511 degrees, each zoom twice
 * as fine, x from 180 west, y from the north (OGC 17-083r4, WebMercatorQuad).
 */

import { escapeHtml } from '#core/messages/render-html.ts'
import type { BaseMap } from '#core/operation/farm.ts'

/** Sides of a tile in the drawing, at most [units of the drawing]: two of them fill a phone. */
const LARGEST_TILE = 220
const MOST_TILES = 48

type Point = readonly [number, number]

/** North-west corner of a tile. @returns [lon, lat]. */
export function cornerOf(x: number, y: number, zoom: number): Point {
  const tiles = 2 ** zoom
  const lat = (Math.atan(Math.sinh(Math.PI * (1 - (2 * y) / tiles))) * 180) / Math.PI
  return [(x / tiles) * 360 - 180, lat]
}

/** Tile in which a place lies, with fractions. */
export function tileAt([lonDeg, latDeg]: Point, zoom: number): Point {
  const tiles = 2 ** zoom
  const lat = (latDeg * Math.PI) / 180
  return [((lonDeg + 180) / 360) * tiles, ((1 - Math.asinh(Math.tan(lat)) / Math.PI) / 2) * tiles]
}

/** The one host that the pages must allow. */
export const originOf = ({ tileUrl }: BaseMap): string => new URL(tileUrl.replace(/\{[zxy]\}/g, '0')).origin

/**
 * The tiles of a sheet, drawn.
 *
 * @param project [lon, lat] to the sheet, a Mercator projection. @param northWest @param southEast corners of the sheet.
 */
export function drawTiles(map: BaseMap, project: (point: Point) => Point, northWest: Point, southEast: Point): string {
  const zoom = zoomFor(map, project, northWest)
  const [left, top] = tileAt(northWest, zoom).map(Math.floor) as [number, number]
  const [right, foot] = tileAt(southEast, zoom).map(Math.floor) as [number, number]
  if ((right - left + 1) * (foot - top + 1) > MOST_TILES) return ''
  const drawn: string[] = []
  for (let y = Math.max(0, top); y <= Math.min(foot, 2 ** zoom - 1); y++) {
    for (let x = left; x <= right; x++) drawn.push(tile(map, project, x, y, zoom))
  }
  return `<g class="tiles" aria-hidden="true">${drawn.join('')}</g>`
}

/** The least zoom whose tiles are small enough in the drawing to be sharp. */
function zoomFor({ deepestZoom }: BaseMap, project: (point: Point) => Point, at: Point): number {
  for (let zoom = 1; zoom < deepestZoom; zoom++) {
    const [x, y] = tileAt(at, zoom).map(Math.floor) as [number, number]
    if (project(cornerOf(x + 1, y, zoom))[0] - project(cornerOf(x, y, zoom))[0] <= LARGEST_TILE) return zoom
  }
  return deepestZoom
}

const round = (value: number): number => Math.round(value * 100) / 100

function tile(map: BaseMap, project: (point: Point) => Point, x: number, y: number, zoom: number): string {
  const [fromX, fromY] = project(cornerOf(x, y, zoom))
  const [toX, toY] = project(cornerOf(x + 1, y + 1, zoom))
  const tiles = 2 ** zoom
  const address = map.tileUrl
    .replace('{z}', String(zoom))
    .replace('{x}', String(((x % tiles) + tiles) % tiles))
    .replace('{y}', String(y))
  return `<image href="${escapeHtml(address)}" x="${round(fromX)}" y="${round(fromY)}" width="${round(toX - fromX)}" height="${round(toY - fromY)}" preserveAspectRatio="none"/>`
}
