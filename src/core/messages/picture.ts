/**
 * A small picture of the day for the mail: one ribbon for each field to run, time from left to right. Drawn as SVG in
 * pixels; mail shows it as PNG, for many mail readers show no SVG.
 */
import type { Outlook } from '#core/outlook/outlook.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { hoursOfLocalDay, zonedAt } from '#core/units/time.ts'
import { RIBBON_COLOURS } from './drawing.ts'
import type { MorningMessage } from './morning.ts'
import { partName } from './names.ts'
import { escapeHtml, PICTURE_WIDTH_PX } from './render-html.ts'
import { mannerOf } from './render-text.ts'
import { type Ribbon, type RibbonHour, ribbonOf } from './ribbon.ts'
import { clock, type Manner, moisture } from './words/format.ts'
import { wordsOf } from './words/words.ts'

export interface Picture {
  readonly svg: string
  /** What it shows, for who does not see it. */
  readonly alt: string
}

const MOST_ROWS = 3
const EDGE_PX = 12
const NAME_PX = 22
const RIBBON_PX = 40
const RUN_PX = 6
const ROW_PX = NAME_PX + RIBBON_PX + RUN_PX + 12
const AXIS_PX = 22
/** Hours of the day shown: when somebody may be in the field. */
const FIRST_HOUR = 6
const LAST_HOUR = 22
const AXIS_STEP_H = 3
/** Moisture shown around the band [points]. */
const SHOWN_BELOW = 2.5
const SHOWN_ABOVE = 5
/** Thickness of an hour that is never fit, as a share of the ribbon. */
const THINNEST = 0.15

/** @returns undefined on a day on which nothing is run: there is nothing to show. */
export function pictureOf(message: MorningMessage, plan: DayPlan, outlooks: readonly Outlook[]): Picture | undefined {
  const manner = mannerOf(message)
  const day = hoursOfLocalDay(message.date, message.timeZone)
  const fromEpochH = Math.max(day.startEpochH + FIRST_HOUR, outlooks[0]?.startEpochH ?? Number.POSITIVE_INFINITY)
  const toEpochH = day.startEpochH + LAST_HOUR
  if (plan.runs.length === 0 || toEpochH <= fromEpochH) return undefined
  const rows = [...new Set(plan.runs.map(({ part }) => part))].slice(0, MOST_ROWS).flatMap((part) => {
    const outlook = outlooks.find((found) => found.part.key === part.key)
    if (!outlook) return []
    const runs = plan.runs.filter((run) => run.part.key === part.key)
    return [{ name: partName(part), ribbon: ribbonOf(outlook, fromEpochH, toEpochH), runs }]
  })
  const height = 2 * EDGE_PX + rows.length * ROW_PX + AXIS_PX
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${PICTURE_WIDTH_PX}" height="${height}" viewBox="0 0 ${PICTURE_WIDTH_PX} ${height}" font-family="DejaVu Sans" fill="${RIBBON_COLOURS.ink}">`,
    `<rect width="100%" height="100%" fill="${RIBBON_COLOURS.paper}"/>`,
    ...rows.map((row, index) => drawRow(row, EDGE_PX + index * ROW_PX, manner)),
    axis(fromEpochH, toEpochH, EDGE_PX + rows.length * ROW_PX, manner),
    '</svg>',
  ].join('')
  const spans = rows.flatMap(({ name, runs }) =>
    runs.map((run) => ({ name, from: clock(run.startEpochH, manner), to: clock(run.endEpochH, manner) })),
  )
  return { svg, alt: wordsOf(message.language).pictureAlt(spans) }
}

interface Row {
  readonly name: string
  readonly ribbon: Ribbon
  readonly runs: readonly { readonly startEpochH: number; readonly endEpochH: number }[]
}

const INNER_PX = PICTURE_WIDTH_PX - 2 * EDGE_PX
const round = (value: number): string => String(Math.round(value * 10) / 10)

function drawRow({ name, ribbon, runs }: Row, top: number, manner: Manner): string {
  const { hours, fromEpochH } = ribbon
  const x = (hour: number) => EDGE_PX + (INNER_PX * Math.min(hours.length, Math.max(0, hour))) / hours.length
  const ribbonTop = top + NAME_PX
  const bars = hours.map((hour, n) => bar(hour, x(n), x(n + 1) - x(n), ribbonTop)).join('')
  const marks = runs
    .map(({ startEpochH, endEpochH }) => {
      const from = x(startEpochH - fromEpochH)
      const width = x(endEpochH - fromEpochH) - from
      return `<rect x="${round(from)}" y="${ribbonTop + RIBBON_PX + 2}" width="${round(width)}" height="${RUN_PX - 2}" rx="2"/>`
    })
    .join('')
  const ends = [...new Set([hours[0], hours.at(-1)])].flatMap((hour) => (hour && known(hour) ? [hour] : []))
  const figures = ends.map(({ medianWb }) => moisture(medianWb, manner)).join(' → ')
  return [
    `<text x="${EDGE_PX}" y="${top + 15}" font-size="14" font-weight="bold">${escapeHtml(name)}</text>`,
    `<text x="${PICTURE_WIDTH_PX - EDGE_PX}" y="${top + 15}" font-size="13" text-anchor="end">${figures}</text>`,
    bars,
    moistureLine(ribbon, x, ribbonTop),
    marks,
  ].join('')
}

const known = ({ medianWb }: RibbonHour): boolean => !Number.isNaN(medianWb)

/** One hour: its colour is the state of the grain, its thickness the chance that it is fit. */
function bar({ state, chance }: RibbonHour, left: number, width: number, top: number): string {
  const share = THINNEST + (1 - THINNEST) * (Number.isNaN(chance) ? 0 : chance)
  const height = RIBBON_PX * share
  return `<rect x="${round(left)}" y="${round(top + (RIBBON_PX - height) / 2)}" width="${round(width + 0.3)}" height="${round(height)}" fill="${RIBBON_COLOURS[state]}"/>`
}

function moistureLine({ hours, band }: Ribbon, x: (hour: number) => number, top: number): string {
  const lowest = band.lowWb - SHOWN_BELOW
  const range = band.highWb + SHOWN_ABOVE - lowest
  const y = (wb: number) => top + RIBBON_PX * (1 - Math.min(0.96, Math.max(0.04, (wb - lowest) / range)))
  const path = hours
    .map((hour, n) => {
      if (!known(hour)) return ''
      const before = hours[n - 1]
      return `${before && known(before) ? 'L' : 'M'}${round(x(n + 1))} ${round(y(hour.medianWb))}`
    })
    .join('')
  return path === '' ? '' : `<path d="${path}" fill="none" stroke="${RIBBON_COLOURS.ink}" stroke-width="2"/>`
}

function axis(fromEpochH: number, toEpochH: number, top: number, { timeZone }: Manner): string {
  const labels: string[] = []
  for (let h = fromEpochH; h <= toEpochH; h++) {
    const { hour } = zonedAt(h, timeZone)
    if (hour % AXIS_STEP_H !== 0) continue
    const x = EDGE_PX + (INNER_PX * (h - fromEpochH)) / (toEpochH - fromEpochH)
    const anchor = h === fromEpochH ? 'start' : h === toEpochH ? 'end' : 'middle'
    labels.push(`<text x="${round(x)}" y="${top + 14}" font-size="12" text-anchor="${anchor}">${hour}:00</text>`)
  }
  return labels.join('')
}
