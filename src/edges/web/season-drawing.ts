/**
 * The season of one crop drawn like a ribbon, a day beside the other from left to right: a day's height is the area cut,
 * its colour the state in which the grain came off, an outline what the plan expects, and the line along it the share
 * that is off. Widths are in percent and heights in pixels, as in the ribbons.
 */

import type { CropSeason, SeasonReport } from '#app/season-report.ts'
import { percent, round } from '#core/messages/drawing.ts'
import { escapeHtml } from '#core/messages/render-html.ts'
import { stateOf } from '#core/messages/ribbon.ts'
import type { Band } from '#core/science/crop.ts'

export interface SeasonFrame {
  readonly from: Temporal.PlainDate
  /** The last day shown. */
  readonly to: Temporal.PlainDate
  readonly today: Temporal.PlainDate
}

export interface SeasonStyle {
  readonly label: string
  readonly band: Band
  readonly share: (share: number) => string
}

const HEIGHT_PX = 48
const FOOT_PX = 4
/** The line stays within the drawing [px]. */
const LINE_MARGIN_PX = 3
const THINNEST_PX = 3
/** A day fills so much of its room. */
const DAY_SHARE = 0.8
/** Days further back are summed up in the line alone. */
const MOST_DAYS_BACK = 60
const MOST_LABELS = 5
const LABEL_STEPS = [1, 2, 7, 14, 28]
const LETTER_PX = 7.5

/** From the first day on which something shown was cut to the last of which the plan speaks. */
export function seasonFrame(
  crops: readonly CropSeason[],
  { today, seenTo }: Pick<SeasonReport, 'today' | 'seenTo'>,
): SeasonFrame {
  const earliest = today.subtract({ days: MOST_DAYS_BACK })
  const days = crops.flatMap((crop) => crop.days.map(({ date }) => date))
  const sorted = [...days, ...(seenTo ? [seenTo] : []), today].sort(Temporal.PlainDate.compare)
  const [first, last] = [sorted[0]!, sorted.at(-1)!]
  return { from: Temporal.PlainDate.compare(first, earliest) < 0 ? earliest : first, to: last, today }
}

const dayCount = ({ from, to }: SeasonFrame): number => from.until(to).days + 1
const placeOf = ({ from }: SeasonFrame, date: Temporal.PlainDate): number => from.until(date).days

export function drawSeason(crop: CropSeason, frame: SeasonFrame, { label, band, share }: SeasonStyle): string {
  const count = dayCount(frame)
  const most = Math.max(...crop.days.map((day) => day.areaHa), ...(crop.ahead?.days ?? []).map((day) => day.meanHa))
  const column = (date: Temporal.PlainDate, ha: number, look: string) => {
    const place = placeOf(frame, date)
    if (place < 0 || !(ha > 0)) return ''
    const height = Math.max(THINNEST_PX, (HEIGHT_PX * ha) / most)
    const x = percent((place + (1 - DAY_SHARE) / 2) / count)
    return `<rect ${look} x="${x}" y="${round((HEIGHT_PX - height) / 2)}" width="${percent(DAY_SHARE / count)}" height="${round(height)}" rx="2"/>`
  }
  return [
    `<svg class="ribbon season" role="img" aria-label="${escapeHtml(label)}" width="100%" height="${HEIGHT_PX + FOOT_PX}" xmlns="http://www.w3.org/2000/svg">`,
    `<line class="division" x1="0" x2="100%" y1="${HEIGHT_PX / 2}" y2="${HEIGHT_PX / 2}"/>`,
    ...crop.days.map(({ date, areaHa, moistureWb }) =>
      column(date, areaHa, `class="grain-${stateOf(moistureWb, band)}"`),
    ),
    ...(crop.ahead?.days ?? []).map(({ date, meanHa }) => column(date, meanHa, 'class="expected"')),
    todayLine(frame, 0, HEIGHT_PX + FOOT_PX),
    shareLine(crop, frame, share),
    '</svg>',
  ].join('')
}

/** The dates over the drawings, as wide as they are. */
export function drawSeasonDates(
  frame: SeasonFrame,
  dateOf: (date: Temporal.PlainDate) => string,
  todayWord: string,
): string {
  const count = dayCount(frame)
  const step = LABEL_STEPS.find((days) => count / days <= MOST_LABELS) ?? Math.ceil(count / MOST_LABELS)
  const labels = []
  for (let place = 0; place < count; place += step) {
    const at = (place + 0.5) / count
    const anchor = at < 0.08 ? 'start' : at > 0.92 ? 'end' : 'middle'
    labels.push(
      `<text class="tick" x="${anchor === 'start' ? '0' : anchor === 'end' ? '100%' : percent(at)}" y="30" text-anchor="${anchor}" font-size="12">${escapeHtml(dateOf(frame.from.add({ days: place })))}</text>`,
    )
  }
  const now = (placeOf(frame, frame.today) + 0.5) / count
  const anchor = now < 0.08 ? 'start' : now > 0.92 ? 'end' : 'middle'
  return [
    '<svg class="hours" width="100%" height="38" aria-hidden="true" focusable="false" xmlns="http://www.w3.org/2000/svg">',
    `<text class="mark" x="${percent(now)}" y="12" text-anchor="${anchor}" font-size="12">${escapeHtml(todayWord)}</text>`,
    ...labels,
    '</svg>',
  ].join('')
}

function todayLine(frame: SeasonFrame, from: number, to: number): string {
  const x = percent((placeOf(frame, frame.today) + 0.5) / dayCount(frame))
  return `<line class="today" x1="${x}" x2="${x}" y1="${from}" y2="${to}"/>`
}

interface Point {
  /** Share of the width, 0-1, at the end of a day. */
  readonly x: number
  /** Share of the crop that is off by then, 0-1. */
  readonly off: number
}

/** Solid up to today, broken beyond, with the share in figures at today and at the end. */
function shareLine(crop: CropSeason, frame: SeasonFrame, share: (share: number) => string): string {
  const count = dayCount(frame)
  const upTo = (date: Temporal.PlainDate) => Math.max(0, placeOf(frame, date) + 0.5) / count
  let cut = 0
  const past: Point[] = [{ x: 0, off: 0 }]
  for (const { date, areaHa } of crop.days) {
    const x = upTo(date)
    past.push({ x, off: cut / crop.areaHa })
    cut += areaHa
    past.push({ x, off: cut / crop.areaHa })
  }
  const now = { x: upTo(frame.today), off: cut / crop.areaHa }
  past.push(now)
  const ahead: Point[] = [now]
  for (const { date, meanHa } of crop.ahead?.days ?? []) {
    cut += meanHa
    ahead.push({ x: upTo(date), off: Math.min(1, cut / crop.areaHa) })
  }
  const end = { x: upTo(frame.to), off: ahead.at(-1)!.off }
  if (crop.ahead) ahead.push(end)
  return [
    `<svg x="0" y="0" width="100%" height="${HEIGHT_PX}" viewBox="0 0 100 ${HEIGHT_PX}" preserveAspectRatio="none" fill="none">`,
    line(past, 'moisture'),
    ahead.length > 1 ? line(ahead, 'moisture ahead') : '',
    '</svg>',
    figure(now, share(now.off), false),
    ahead.length > 1 ? figure(end, share(end.off), true) : '',
  ].join('')
}

const heightOf = ({ off }: Point): number => HEIGHT_PX - LINE_MARGIN_PX - off * (HEIGHT_PX - 2 * LINE_MARGIN_PX)

const line = (points: readonly Point[], look: string): string =>
  `<path class="${look}" d="M${points.map((point) => `${round(100 * point.x)} ${round(heightOf(point))}`).join('L')}" stroke-width="2" vector-effect="non-scaling-stroke"/>`

/** On a slip, so that it reads on any colour; left of its point, or at the right edge. */
function figure(point: Point, text: string, atEnd: boolean): string {
  const width = text.length * LETTER_PX + 6
  const y = Math.min(HEIGHT_PX - 9, Math.max(9, heightOf(point) + (point.off > 0.5 ? 13 : -13)))
  const right = atEnd || point.x * 100 > 14
  const x = atEnd ? '100%' : percent(point.x)
  const shift = right ? -width - (atEnd ? 0 : 3) : 3
  return [
    `<rect class="slip" x="${x}" transform="translate(${round(shift)} 0)" y="${round(y - 8)}" width="${round(width)}" height="16" rx="3" fill-opacity="0.92"/>`,
    `<text class="figure" x="${x}" dx="${round(shift + 3)}" y="${round(y + 4)}" font-size="12" font-weight="600">${escapeHtml(text)}</text>`,
  ].join('')
}
