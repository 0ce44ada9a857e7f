/**
 * A day of one part of a field drawn as a ribbon, time from left to right: its colour is the grain's state, its
 * thickness the chance that the hour is fit, hatching and a small word say what holds it back, and the line along it is
 * the moisture with its spread. The same drawing serves page, mail and week.
 *
 * Widths are in percent and heights in pixels, so the drawing fills any column and its words stay legible on a phone.
 * Colours stand as attributes for the mail; a page's style sheet may set other ones by class.
 */
import type { Holdback } from '#core/outlook/holdback.ts'
import type { Band } from '#core/science/crop.ts'
import { divisions, percent, RIBBON_COLOURS, round } from './drawing.ts'
import { escapeHtml } from './render-html.ts'
import type { Ribbon, RibbonHour } from './ribbon.ts'

/** Heights [px]: the ribbon, then a line of small words. */
const RIBBON_PX = 44

const WORDS_PX = 16

const RUN_PX = 5

export const RIBBON_HEIGHT_PX = RIBBON_PX + RUN_PX + WORDS_PX

/** Half the thickness, as a share of the ribbon's height, of an hour that is never fit and one always fit. */
const THINNEST = 0.1

const THICKEST = 0.5

/** Moisture shown around the band [points]; beyond it the line runs along the edge. */
const SHOWN_BELOW = 2.5

const SHOWN_ABOVE = 5

/** Narrowest column the words must fit, and the width of a letter in it [px]. */
const NARROWEST_PX = 280

const LETTER_PX = 6

const FIGURE_LETTER_PX = 7.5

/** How far a figure stands off the line, above or below it [px]. */
const SLIP_OFF_PX = 12

export interface RibbonStyle {
  /** Unlike any other ribbon's on the same page. */
  readonly id: string
  /** One sentence for who cannot see the drawing. */
  readonly label: string
  readonly wordOf: (heldBy: Holdback) => string
  readonly moisture: (wb: number) => string
  /** Spans in which an outfit is set to cut it, hours since the epoch. */
  readonly runs?: readonly { readonly startEpochH: number; readonly endEpochH: number }[]
  /** Into so many equal parts it is divided by lines, such as the days of a week; 1 when left out. */
  readonly parts?: number
}

export function drawRibbon(ribbon: Ribbon, style: RibbonStyle): string {
  const { hours } = ribbon
  if (hours.length === 0) return ''
  const clip = `ribbon-${style.id}`
  return [
    `<svg class="ribbon" role="img" aria-label="${escapeHtml(style.label)}" width="100%" height="${RIBBON_HEIGHT_PX}" xmlns="http://www.w3.org/2000/svg">`,
    `<defs><clipPath id="${clip}" clipPathUnits="objectBoundingBox"><path d="${outline(hours)}"/></clipPath></defs>`,
    `<g clip-path="url(#${clip})">${fills(hours)}</g>`,
    divisions(style.parts ?? 1, RIBBON_HEIGHT_PX),
    moistureLine(ribbon, style.parts ?? 1),
    moistureEnds(ribbon, style),
    runMarks(ribbon, style),
    words(hours, style),
    '</svg>',
  ].join('')
}

/** The hatching that `drawRibbon` refers to; once a page, before the first ribbon. */
export const RIBBON_HATCH = `<svg class="hatch-home" width="0" height="0" aria-hidden="true" focusable="false" xmlns="http://www.w3.org/2000/svg"><defs><pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="hatch-ground" width="6" height="6" fill="${RIBBON_COLOURS.paper}" fill-opacity="0.55"/><rect class="hatch-line" width="2.4" height="6" fill="${RIBBON_COLOURS.held}"/></pattern></defs></svg>`

/** Outline in a unit box: thick where the hour is likely fit, a thread where it is not. */
function outline(hours: readonly RibbonHour[]): string {
  const half = hours.map(({ chance }) => THINNEST + (THICKEST - THINNEST) * (Number.isNaN(chance) ? 0 : chance))
  const edge = (n: number) => (half[Math.max(0, n - 1)]! + half[Math.min(half.length - 1, n)]!) / 2
  const points: { x: number; y: number }[] = [{ x: 0, y: half[0]! }]
  for (let n = 0; n < half.length; n++) {
    points.push({ x: (n + 0.5) / half.length, y: half[n]! })
    points.push({ x: (n + 1) / half.length, y: n + 1 === half.length ? half[n]! : edge(n + 1) })
  }
  const along = (sign: number) => (p: { x: number; y: number }) => `${round(p.x)} ${round(0.5 + sign * p.y)}`
  return `M${points.map(along(-1)).join('L')}L${points.toReversed().map(along(1)).join('L')}Z`
}

interface Stretch<T> {
  readonly from: number
  readonly to: number
  readonly value: T
}

/** Neighbouring hours that share a value, joined. */
function stretches<T>(hours: readonly RibbonHour[], keyOf: (hour: RibbonHour) => T): Stretch<T>[] {
  const found: Stretch<T>[] = []
  for (const [n, hour] of hours.entries()) {
    const value = keyOf(hour)
    const last = found.at(-1)
    if (last && last.value === value) found[found.length - 1] = { ...last, to: n + 1 }
    else found.push({ from: n, to: n + 1, value })
  }
  return found
}

/** The grain's own wetness needs no hatching: its colour says it. */
const isHatched = ({ heldBy }: RibbonHour): boolean =>
  heldBy !== undefined && heldBy !== 'wet-grain' && heldBy !== 'unripe'

function fills(hours: readonly RibbonHour[]): string {
  const span = ({ from, to }: Stretch<unknown>) =>
    `x="${percent(from / hours.length)}" y="0" width="${percent((to - from) / hours.length)}" height="${RIBBON_PX}"`
  const states = stretches(hours, ({ state }) => state).map(
    (stretch) => `<rect ${span(stretch)} class="grain-${stretch.value}" fill="${RIBBON_COLOURS[stretch.value]}"/>`,
  )
  const held = stretches(hours, isHatched)
    .filter(({ value }) => value)
    .map((stretch) => `<rect ${span(stretch)} class="held" fill="url(#hatch)"/>`)
  return states.concat(held).join('')
}

/** Height of a moisture in the ribbon, 0 at its top, 100 at its foot. */
function heightOf(wb: number, band: Band): number {
  const low = band.lowWb - SHOWN_BELOW
  const high = band.highWb + SHOWN_ABOVE
  return Math.min(96, Math.max(4, (100 * (high - wb)) / (high - low)))
}

/** Broken where an hour is not known, and between the parts: what lies between them is not drawn. */
function moistureLine({ hours, band }: Ribbon, parts: number): string {
  if (hours.every(({ medianWb }) => Number.isNaN(medianWb))) return ''
  const y = (wb: number) => round(heightOf(wb, band))
  const path = (wbOf: (hour: RibbonHour) => number) =>
    hours
      .map((hour, n) => {
        const wb = wbOf(hour)
        if (Number.isNaN(wb)) return ''
        const starts = n % Math.round(hours.length / parts) === 0
        const before = starts ? Number.NaN : wbOf(hours[n - 1]!)
        return `${Number.isNaN(before) ? 'M' : 'L'}${round(((n + 1) / hours.length) * 100)} ${y(wb)}`
      })
      .join('')
  const edge = (wbOf: (hour: RibbonHour) => number) =>
    `<path class="spread" d="${path(wbOf)}" stroke="${RIBBON_COLOURS.ink}" stroke-opacity="0.55" stroke-width="0.75" vector-effect="non-scaling-stroke"/>`
  const limit = (wb: number) =>
    `<path class="band" d="M0 ${y(wb)}H100" stroke="${RIBBON_COLOURS.ink}" stroke-opacity="0.4" stroke-width="1" stroke-dasharray="1 5" vector-effect="non-scaling-stroke"/>`
  return [
    `<svg x="0" y="0" width="100%" height="${RIBBON_PX}" viewBox="0 0 100 100" preserveAspectRatio="none" fill="none">`,
    limit(band.highWb),
    limit(band.lowWb),
    edge(({ highWb }) => highWb),
    edge(({ lowWb }) => lowWb),
    `<path class="moisture" d="${path(({ medianWb }) => medianWb)}" stroke="${RIBBON_COLOURS.ink}" stroke-width="2" stroke-linejoin="round" vector-effect="non-scaling-stroke"/>`,
    '</svg>',
  ].join('')
}

/** The moisture in figures where the line starts and where it ends, each on a slip so that it reads on any colour. */
function moistureEnds({ hours, band }: Ribbon, { moisture }: RibbonStyle): string {
  const at = (hour: RibbonHour | undefined, end: boolean): string => {
    if (!hour) return ''
    const text = moisture(hour.medianWb)
    const width = text.length * FIGURE_LETTER_PX + 6
    const height = heightOf(hour.medianWb, band)
    const middle = (height / 100) * RIBBON_PX + (height < 45 ? SLIP_OFF_PX : -SLIP_OFF_PX)
    const left = end ? ` x="100%" transform="translate(-${round(width)} 0)"` : ''
    const anchor = end ? 'x="100%" dx="-3" text-anchor="end"' : 'x="3"'
    return [
      `<rect class="slip"${left} y="${round(middle - 8)}" width="${round(width)}" height="16" rx="3" fill="${RIBBON_COLOURS.paper}" fill-opacity="0.92"/>`,
      `<text class="figure" ${anchor} y="${round(middle + 4)}" font-size="12" font-weight="600" fill="${RIBBON_COLOURS.ink}">${escapeHtml(text)}</text>`,
    ].join('')
  }
  const known = hours.filter(({ medianWb }) => !Number.isNaN(medianWb))
  return at(known[0], false) + (known.length > 1 ? at(known.at(-1), true) : '')
}

/** A heavy rule under the hours in which an outfit is set to cut. */
function runMarks({ fromEpochH, hours }: Ribbon, { runs = [] }: RibbonStyle): string {
  return runs
    .map(({ startEpochH, endEpochH }) => {
      const from = Math.min(1, Math.max(0, (startEpochH - fromEpochH) / hours.length))
      const to = Math.min(1, Math.max(0, (endEpochH - fromEpochH) / hours.length))
      if (to <= from) return ''
      return `<rect class="run" x="${percent(from)}" y="${RIBBON_PX + 1}" width="${percent(to - from)}" height="${RUN_PX - 1}" rx="2" fill="${RIBBON_COLOURS.ink}"/>`
    })
    .join('')
}

/** What holds it back, under the hours it holds, where the word fits. */
function words(hours: readonly RibbonHour[], { wordOf }: RibbonStyle): string {
  let free = 0
  return stretches(hours, ({ heldBy }) => heldBy)
    .map(({ from, to, value }) => {
      if (value === undefined) return ''
      const word = wordOf(value)
      const needed = (word.length * LETTER_PX) / NARROWEST_PX
      const middle = (from + to) / 2 / hours.length
      const start = Math.min(1 - needed, Math.max(0, middle - needed / 2))
      if (start < free || start < 0) return ''
      free = start + needed
      const atStart = start === 0
      const atEnd = start === 1 - needed
      const anchor = atStart ? '' : atEnd ? ' text-anchor="end"' : ' text-anchor="middle"'
      const x = atStart ? '0' : atEnd ? '100%' : percent(middle)
      return `<text class="word" x="${x}" y="${RIBBON_HEIGHT_PX - 4}"${anchor} font-size="12" fill="${RIBBON_COLOURS.ink}">${escapeHtml(word)}</text>`
    })
    .join('')
}
