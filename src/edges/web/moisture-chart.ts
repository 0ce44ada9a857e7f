/** Moisture ahead of one part of a field: median and middle 80 %, the band to cut in, and the windows below it. */
import { escapeHtml } from '#core/messages/render-html.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { zonedAt } from '#core/units/time.ts'

const HEIGHT_PX = 190
const WINDOWS_PX = 16
const DAYS_PX = 20
const LEAST_RANGE = 8
/** Lines across the chart: so many points apart, as few as fit [points of moisture]. */
const STEPS = [2, 5, 10, 20]
const MOST_LINES = 5

export interface ChartStyle {
  readonly label: string
  readonly timeZone: string
  readonly moisture: (wb: number) => string
  /** A day's name, short, from an hour of it. */
  readonly dayName: (epochH: number) => string
}

const percent = (share: number): string => `${Math.round(share * 10_000) / 100}%`
const round = (value: number): string => String(Math.round(value * 100) / 100)

export function drawMoisture(outlook: Outlook, style: ChartStyle): string {
  const { hours, startEpochH, medianWb, lowWb, highWb } = outlook
  const { band } = outlook.part.field
  const known = (values: Float32Array) => values.filter((value) => !Number.isNaN(value))
  const top = Math.max(band.highWb + 1, ...known(highWb))
  const foot = Math.min(band.lowWb - 1, ...known(lowWb))
  const range = Math.max(LEAST_RANGE, top - foot)
  const y = (wb: number) => (100 * (foot + range - wb)) / range
  const at = (epochH: number) => (epochH - startEpochH) / hours
  const path = (values: Float32Array) => {
    let drawn = ''
    for (let h = 0; h < hours; h++) {
      if (Number.isNaN(values[h]!)) continue
      drawn += `${h === 0 || Number.isNaN(values[h - 1]!) ? 'M' : 'L'}${round((100 * (h + 1)) / hours)} ${round(y(values[h]!))}`
    }
    return drawn
  }
  const days = midnights(outlook, style.timeZone)
  const yPx = (wb: number) => round((y(wb) / 100) * HEIGHT_PX)
  const total = HEIGHT_PX + WINDOWS_PX + DAYS_PX
  return [
    `<svg class="moisture-chart" width="100%" height="${total}" role="img" aria-label="${escapeHtml(style.label)}" xmlns="http://www.w3.org/2000/svg">`,
    `<rect class="band-ground" x="0" width="100%" y="${yPx(band.highWb)}" height="${round(Number(yPx(band.lowWb)) - Number(yPx(band.highWb)))}"/>`,
    ...days.map(
      (epochH) =>
        `<line class="day-line" x1="${percent(at(epochH))}" x2="${percent(at(epochH))}" y1="0" y2="${total}"/>`,
    ),
    scaleLines(foot, range, yPx, style),
    `<svg x="0" y="0" width="100%" height="${HEIGHT_PX}" viewBox="0 0 100 100" preserveAspectRatio="none">`,
    `<path class="spread-ground" d="${spreadPath(outlook, y)}"/>`,
    `<path class="moisture" d="${path(medianWb)}" fill="none" stroke-width="2" vector-effect="non-scaling-stroke"/>`,
    '</svg>',
    ...outlook.windows.map(
      ({ startEpochH: from, endEpochH: to, chance }) =>
        `<rect class="grain-fit" x="${percent(at(from))}" width="${percent(at(to) - at(from))}" y="${round(HEIGHT_PX + (WINDOWS_PX - height(chance)) / 2)}" height="${round(height(chance))}" rx="2"/>`,
    ),
    bandText(band.highWb, Number(yPx(band.highWb)) - 4, style),
    bandText(band.lowWb, Number(yPx(band.lowWb)) + 12, style),
    ...days.map((epochH, index) =>
      at(epochH) < 0.96
        ? `<text class="day${index % 2 === 1 ? ' every-other' : ''}" x="${percent(at(epochH))}" dx="4" y="${total - 6}">${escapeHtml(style.dayName(epochH + 12))}</text>`
        : '',
    ),
    '</svg>',
  ].join('')
}

const height = (chance: number): number => 3 + (WINDOWS_PX - 5) * chance

function bandText(wb: number, y: number, { moisture }: ChartStyle): string {
  return `<text class="figure" x="100%" dx="-4" text-anchor="end" y="${round(y)}">${escapeHtml(moisture(wb))}</text>`
}

/** Lines across at round figures, so that a height can be read. */
function scaleLines(foot: number, range: number, yPx: (wb: number) => string, { moisture }: ChartStyle): string {
  const step = STEPS.find((each) => range / each <= MOST_LINES) ?? range
  let drawn = ''
  for (let wb = Math.ceil(foot / step) * step; wb < foot + range; wb += step) {
    const y = yPx(wb)
    drawn += `<line class="day-line" x1="0" x2="100%" y1="${y}" y2="${y}"/><text x="2" y="${Number(y) - 3}">${escapeHtml(moisture(wb))}</text>`
  }
  return drawn
}

function spreadPath({ hours, lowWb, highWb }: Outlook, y: (wb: number) => number): string {
  const upper: string[] = []
  const lower: string[] = []
  for (let h = 0; h < hours; h++) {
    if (Number.isNaN(lowWb[h]! + highWb[h]!)) continue
    const x = round((100 * (h + 1)) / hours)
    upper.push(`${x} ${round(y(highWb[h]!))}`)
    lower.push(`${x} ${round(y(lowWb[h]!))}`)
  }
  return upper.length < 2 ? '' : `M${upper.join('L')}L${lower.reverse().join('L')}Z`
}

/** The start of each local day within the outlook. */
function midnights({ startEpochH, hours }: Outlook, timeZone: string): number[] {
  const found: number[] = []
  for (let epochH = startEpochH; epochH < startEpochH + hours; epochH++) {
    if (zonedAt(epochH, timeZone).hour === 0) found.push(epochH)
  }
  return found
}
