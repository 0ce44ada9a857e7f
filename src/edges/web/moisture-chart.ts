/**
 * Moisture of one part of a field since it ripened and over the days ahead: median and middle 80 %, the band to cut in,
 * readings as dots, and the windows below it.
 */

import type { MoisturePast } from '#app/moisture-past.ts'
import { percent } from '#core/messages/drawing.ts'
import { escapeHtml } from '#core/messages/render-html.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { zonedAt } from '#core/units/time.ts'

export interface ChartReading {
  readonly atEpochH: number
  readonly moistureWb: number
  readonly doubted: boolean
  /** What shows when it is pointed at. */
  readonly text: string
}

export interface ChartStyle {
  readonly label: string
  readonly timeZone: string
  readonly moisture: (wb: number) => string
  /** A day's name, short enough for so many days beside each other. */
  readonly dayName: (date: Temporal.PlainDate, days: number) => string
}

const HEIGHT_PX = 190
const WINDOWS_PX = 16
const DAYS_PX = 20
const TOTAL_PX = HEIGHT_PX + WINDOWS_PX + DAYS_PX
const LEAST_RANGE = 8
/** Green grain of weeks ago, and the shade of what may still be green, are cut off so far above the rest [points]. */
const MOST_ABOVE_WB = 10
/** Lines across the chart: so many points apart, as few as fit [points of moisture]. */
const STEPS = [2, 5, 10, 20]
const MOST_LINES = 5
const MOST_NAMES = 11

const round = (value: number): string => String(Math.round(value * 100) / 100)

/** Values at the ends of hours, from its first hour on. */
interface Series extends Pick<MoisturePast, 'startEpochH' | 'hours' | 'medianWb' | 'lowWb' | 'highWb'> {}

interface Frame {
  readonly at: (epochH: number) => number
  /** From the top of the chart, in a height of 100. */
  readonly y: (wb: number) => number
  readonly yPx: (wb: number) => number
  readonly foot: number
  readonly top: number
}

export function drawMoisture(
  outlook: Outlook,
  past: MoisturePast | undefined,
  readings: readonly ChartReading[],
  style: ChartStyle,
): string {
  const { band } = outlook.part.field
  const all = [...(past ? [past] : []), outlook]
  const fromEpochH = all[0]!.startEpochH
  const hours = outlook.startEpochH + outlook.hours - fromEpochH
  const shown = readings.filter(({ atEpochH }) => atEpochH >= fromEpochH)
  const frame = frameOf(outlook, past, shown, fromEpochH)
  const { at, yPx } = frame
  const now = percent(at(outlook.startEpochH))
  return [
    `<svg class="moisture-chart" width="100%" height="${TOTAL_PX}" role="img" aria-label="${escapeHtml(style.label)}" xmlns="http://www.w3.org/2000/svg">`,
    `<rect class="band-ground" x="0" width="100%" y="${round(yPx(band.highWb))}" height="${round(yPx(band.lowWb) - yPx(band.highWb))}"/>`,
    dayLines(fromEpochH, hours, at, style),
    scaleLines(frame, style),
    `<svg class="clipped" x="0" y="0" width="100%" height="${HEIGHT_PX}" viewBox="0 0 100 100" preserveAspectRatio="none">`,
    ...all.map((series) => `<path class="spread-ground" d="${spreadPath(series, frame)}"/>`),
    ...all.map(
      (series) =>
        `<path class="moisture" d="${medianPath(series, frame)}" fill="none" stroke-width="2" vector-effect="non-scaling-stroke"/>`,
    ),
    '</svg>',
    past ? `<line class="now" x1="${now}" x2="${now}" y1="0" y2="${TOTAL_PX - DAYS_PX}"/>` : '',
    ...outlook.windows.map(
      ({ startEpochH: from, endEpochH: to, chance }) =>
        `<rect class="grain-fit" x="${percent(at(from))}" width="${percent(at(to) - at(from))}" y="${round(HEIGHT_PX + (WINDOWS_PX - height(chance)) / 2)}" height="${round(height(chance))}" rx="2"/>`,
    ),
    ...shown.map(
      ({ atEpochH, moistureWb, doubted, text }) =>
        `<circle class="${doubted ? 'reading doubted' : 'reading'}" cx="${percent(at(atEpochH))}" cy="${round(yPx(moistureWb))}" r="4.5"><title>${escapeHtml(text)}</title></circle>`,
    ),
    bandText(band.highWb, yPx(band.highWb) - 4, style),
    bandText(band.lowWb, yPx(band.lowWb) + 13, style),
    '</svg>',
  ].join('')
}

function frameOf(
  outlook: Outlook,
  past: MoisturePast | undefined,
  readings: readonly ChartReading[],
  fromEpochH: number,
): Frame {
  const { band } = outlook.part.field
  const hours = outlook.startEpochH + outlook.hours - fromEpochH
  const known = (values: Float32Array | undefined) => Array.from(values ?? []).filter((value) => !Number.isNaN(value))
  const read = readings.map(({ moistureWb }) => moistureWb)
  // What is ahead and what was read is shown whole.
  const line = Math.max(band.highWb, ...known(outlook.medianWb), ...read)
  const drawn = Math.max(line + 1, ...known(outlook.highWb), ...known(past?.medianWb))
  const top = Math.min(line + MOST_ABOVE_WB, drawn)
  const lows = [...known(outlook.lowWb), ...known(past?.lowWb), ...read]
  const foot = Math.min(band.lowWb - 1, top - LEAST_RANGE, ...lows.map((wb) => wb - 0.5))
  const y = (wb: number) => (100 * (top - wb)) / (top - foot)
  return { at: (epochH) => (epochH - fromEpochH) / hours, y, yPx: (wb) => (y(wb) / 100) * HEIGHT_PX, foot, top }
}

const height = (chance: number): number => 3 + (WINDOWS_PX - 5) * chance

function medianPath({ startEpochH, hours, medianWb }: Series, { at, y }: Frame): string {
  let drawn = ''
  for (let h = 0; h < hours; h++) {
    if (Number.isNaN(medianWb[h]!)) continue
    const starts = h === 0 || Number.isNaN(medianWb[h - 1]!)
    drawn += `${starts ? 'M' : 'L'}${round(100 * at(startEpochH + h + 1))} ${round(y(medianWb[h]!))}`
  }
  return drawn
}

function spreadPath({ startEpochH, hours, lowWb, highWb }: Series, { at, y }: Frame): string {
  const upper: string[] = []
  const lower: string[] = []
  for (let h = 0; h < hours; h++) {
    if (Number.isNaN(lowWb[h]! + highWb[h]!)) continue
    const x = round(100 * at(startEpochH + h + 1))
    upper.push(`${x} ${round(y(highWb[h]!))}`)
    lower.push(`${x} ${round(y(lowWb[h]!))}`)
  }
  return upper.length < 2 ? '' : `M${upper.join('L')}L${lower.reverse().join('L')}Z`
}

function bandText(wb: number, y: number, { moisture }: ChartStyle): string {
  return `<text class="figure" x="100%" dx="-4" text-anchor="end" y="${round(y)}">${escapeHtml(moisture(wb))}</text>`
}

/** Lines across at round figures, so that a height can be read. */
function scaleLines({ foot, top, yPx }: Frame, { moisture }: ChartStyle): string {
  const range = top - foot
  const step = STEPS.find((each) => range / each <= MOST_LINES) ?? range
  let drawn = ''
  for (let wb = Math.ceil(foot / step) * step; wb < top; wb += step) {
    const y = round(yPx(wb))
    drawn += `<line class="day-line" x1="0" x2="100%" y1="${y}" y2="${y}"/><text x="2" y="${round(yPx(wb) - 3)}">${escapeHtml(moisture(wb))}</text>`
  }
  return drawn
}

/** A line at the start of each local day, and the names of as many of them as fit. */
function dayLines(fromEpochH: number, hours: number, at: (epochH: number) => number, style: ChartStyle): string {
  const starts: number[] = []
  for (let epochH = Math.ceil(fromEpochH); epochH < fromEpochH + hours; epochH++) {
    if (zonedAt(epochH, style.timeZone).hour === 0) starts.push(epochH)
  }
  const step = Math.ceil(starts.length / MOST_NAMES)
  const lines = starts.map((epochH) => {
    const x = percent(at(epochH))
    return `<line class="day-line" x1="${x}" x2="${x}" y1="0" y2="${TOTAL_PX}"/>`
  })
  const names = starts
    .filter((_, n) => n % step === 0)
    .map((epochH, n) =>
      at(epochH) > 0.94
        ? ''
        : `<text class="day${n % 2 === 1 ? ' every-other' : ''}" x="${percent(at(epochH))}" dx="4" y="${TOTAL_PX - 6}">${escapeHtml(style.dayName(zonedAt(epochH, style.timeZone).toPlainDate(), starts.length))}</text>`,
    )
  return lines.concat(names).join('')
}
