/**
 * The farm drawn from its own outlines: each field a link in the colour of its grain, hatched where something else holds
 * it back. Fields far from the rest stand at the edge with their distance, so that the near ones stay large enough to
 * hit with a thumb. A field without outline is a dashed square of its acres; a patch that was drawn is hatched in it.
 */
import { type GeoProjection, geoMercator } from 'd3-geo'
import { escapeHtml } from '#core/messages/render-html.ts'
import { haul, type Manner } from '#core/messages/words/format.ts'
import type { BaseMap, Farm, Field } from '#core/operation/farm.ts'
import { distanceKm, EARTH_RADIUS_KM } from '#core/units/sphere.ts'
import type { FieldStanding } from './standing.ts'
import { drawTiles } from './tiles.ts'

type Point = readonly [number, number]

export interface MapField {
  readonly field: Field
  readonly standing: FieldStanding
  /** How it stands, in a word. */
  readonly state: string
}

const WIDTH = 400
const TALLEST = 360
const MARGIN = 14
/** Room around the near fields for the marks of far ones. */
const FAR_MARGIN = 40
/** A letter of a name on a wide sheet and on a phone, in units of the drawing. */
const LETTER = { wide: 4.4, phone: 6.2 }
const KM_PER_DEG = (EARTH_RADIUS_KM * Math.PI) / 180
/** Fields farther than so many times the middle distance from the middle stand at the edge. */
const FAR_TIMES = 2.5
const NEAR_KM = 2

export function drawMap(farm: Farm, fields: readonly MapField[], manner: Manner, label: string): string {
  const centre = middleOf(farm.fields)
  const [lonDeg, latDeg] = centre
  const awayKm = (field: Field) => distanceKm({ latDeg, lonDeg }, field.centre)
  const limit = Math.max(NEAR_KM, FAR_TIMES * median(farm.fields.map(awayKm)))
  const near = fields.filter(({ field }) => awayKm(field) <= limit)
  const far = fields.filter(({ field }) => awayKm(field) > limit)
  const margin = far.length > 0 ? FAR_MARGIN : MARGIN
  const points = near.flatMap(({ field }) => ringsOf(field).flat())
  const coordinates = points.map(([lon, lat]): [number, number] => [lon, lat])
  const projection = geoMercator().fitExtent(
    [
      [margin, margin],
      [WIDTH - margin, TALLEST - margin],
    ],
    { type: 'MultiPoint', coordinates },
  )
  // Fitted by the width, most farms leave room above and below: moved up to the margin.
  const top = Math.min(...coordinates.map((point) => projection(point)?.[1] ?? 0)) - margin
  const project = ([lon, lat]: Point): Point => {
    const [x, y] = projection([lon, lat]) ?? [0, 0]
    return [x, y - top]
  }
  const height = Math.max(...points.map((point) => project(point)[1])) + margin
  const base = farm.baseMap ? underlay(farm.baseMap, projection, project, top, height) : ''
  return [
    `<svg class="map${base === '' ? '' : ' on-tiles'}" viewBox="0 0 ${WIDTH} ${Math.ceil(height)}" role="group" aria-label="${escapeHtml(label)}" xmlns="http://www.w3.org/2000/svg">`,
    base,
    ...near.map((each) => drawField(each, project)),
    ...near.map((each) => drawName(each, project)),
    ...far.map((each) => drawFar(each, project, height, awayKm(each.field), manner)),
    '</svg>',
  ].join('')
}

/** The ground under the whole sheet. */
function underlay(
  map: BaseMap,
  projection: GeoProjection,
  project: (point: Point) => Point,
  top: number,
  height: number,
): string {
  const placeAt = (x: number, y: number): Point => projection.invert?.([x, y + top]) ?? [0, 0]
  return drawTiles(map, project, placeAt(0, 0), placeAt(WIDTH, height))
}

function middleOf(fields: readonly Field[]): [number, number] {
  return [median(fields.map(({ centre }) => centre.lonDeg)), median(fields.map(({ centre }) => centre.latDeg))]
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? 0
}

/** The field's rings, or a square of its area around its centre. */
function ringsOf(field: Field): readonly (readonly Point[])[] {
  if (field.boundary) return field.boundary
  const { latDeg, lonDeg } = field.centre
  const halfKm = Math.sqrt(field.areaHa / 100) / 2
  const lat = halfKm / KM_PER_DEG
  const lon = lat / Math.cos((latDeg * Math.PI) / 180)
  return [
    [
      [lonDeg - lon, latDeg - lat],
      [lonDeg + lon, latDeg - lat],
      [lonDeg + lon, latDeg + lat],
      [lonDeg - lon, latDeg + lat],
      [lonDeg - lon, latDeg - lat],
    ],
  ]
}

const round = (value: number): number => Math.round(value * 10) / 10

function drawField({ field, standing, state }: MapField, project: (point: Point) => Point): string {
  const drawn = (ring: readonly Point[]) => `M${ring.map((point) => project(point).map(round).join(' ')).join('L')}Z`
  const path = ringsOf(field).map(drawn).join('')
  const patches = field.patches.flatMap(({ outline }) =>
    outline ? [`<path class="patch" d="${drawn(outline)}" fill="url(#hatch)"/>`] : [],
  )
  const dashed = field.boundary ? '' : ' stroke-dasharray="4 3"'
  const hatch = isHeld(standing) ? `<path class="held" d="${path}" fill="url(#hatch)" fill-rule="evenodd"/>` : ''
  return [
    `<a href="/fields/${encodeURIComponent(field.id)}" aria-label="${escapeHtml(`${field.name}: ${state}`)}">`,
    `<title>${escapeHtml(`${field.name}: ${state}`)}</title>`,
    `<path class="field ${grainClass(standing)}" d="${path}" fill-rule="evenodd"${dashed}/>`,
    hatch,
    ...patches,
    '</a>',
  ].join('')
}

const isHeld = (standing: FieldStanding): boolean => standing.kind === 'waiting' && standing.held
export const grainClass = (standing: FieldStanding): string =>
  standing.kind === 'done' ? 'field-done' : `grain-${standing.grain}`

/** Across the middle of the field, its place in the day's order and its name, a word a line, where they fit. */
function drawName({ field, standing }: MapField, project: (point: Point) => Point): string {
  const [x, y] = project([field.centre.lonDeg, field.centre.latDeg])
  const words = field.name.split(' ')
  const across = ringsOf(field).flatMap((ring) => ring.map((point) => project(point)[0]))
  const room = Math.max(...across) - Math.min(...across)
  const longest = Math.max(...words.map((word) => word.length))
  const fits = room >= longest * LETTER.wide
  const lines = (standing.kind === 'run' ? [String(standing.place)] : []).concat(fits ? words : [])
  if (lines.length === 0) return ''
  const size = room >= longest * LETTER.phone ? '' : ' class="tight"'
  const spans = lines.map((line, index) => {
    const place = index === 0 && standing.kind === 'run' ? ' class="place"' : ''
    return `<tspan${place} x="${round(x)}" dy="${index === 0 ? `${-0.5 * lines.length + 0.85}em` : '1.05em'}">${escapeHtml(line)}</tspan>`
  })
  return `<text${size} aria-hidden="true" text-anchor="middle" y="${round(y)}">${spans.join('')}</text>`
}

/** A field off the sheet: a mark where the line to it leaves the sheet, with its name and how far it is. */
function drawFar(
  { field, standing, state }: MapField,
  project: (point: Point) => Point,
  height: number,
  distanceKm: number,
  manner: Manner,
): string {
  const [farX, farY] = project([field.centre.lonDeg, field.centre.latDeg])
  const [middleX, middleY] = [WIDTH / 2, height / 2]
  const toX = farX - middleX
  const toY = farY - middleY
  const scale = Math.min((middleX - MARGIN) / Math.abs(toX || 1e-9), (middleY - MARGIN) / Math.abs(toY || 1e-9))
  const x = middleX + toX * scale
  const y = middleY + toY * scale
  const anchor = x < WIDTH / 3 ? 'start' : x > (2 * WIDTH) / 3 ? 'end' : 'middle'
  const turn = (Math.atan2(toY, toX) * 180) / Math.PI
  const place = standing.kind === 'run' ? `${standing.place} ` : ''
  const name = `${field.name} ${haul(distanceKm, manner)}`
  return [
    `<a href="/fields/${encodeURIComponent(field.id)}" aria-label="${escapeHtml(`${place}${name}: ${state}`)}">`,
    `<path class="field ${grainClass(standing)}" d="M9 0L-5 -7V7Z" transform="translate(${round(x)} ${round(y)}) rotate(${round(turn)})"/>`,
    `<text aria-hidden="true" text-anchor="${anchor}" x="${round(x)}" y="${round(y + (y > middleY ? -12 : 20))}">${place === '' ? '' : `<tspan class="place">${place}</tspan>`}${escapeHtml(name)}</text>`,
    '</a>',
  ].join('')
}
