/** What stands over ribbons, as wide as they are: the hours of a day with its marks, or the days of a week. */
import { divisions, percent, RIBBON_COLOURS } from './drawing.ts'
import { escapeHtml } from './render-html.ts'

export interface HourMark {
  readonly epochH: number
  readonly text: string
}

/** The hours along the ribbons, with marks of the day such as dew off and dark. Same width as the ribbons. */
export function drawHours(
  fromEpochH: number,
  toEpochH: number,
  ticks: readonly HourMark[],
  marks: readonly HourMark[],
): string {
  const at = (epochH: number) => (epochH - fromEpochH) / (toEpochH - fromEpochH)
  const inside = ({ epochH }: HourMark) => at(epochH) >= 0 && at(epochH) <= 1
  const anchor = (share: number) => (share < 0.06 ? '' : share > 0.94 ? ' text-anchor="end"' : ' text-anchor="middle"')
  const text = (mark: HourMark, y: number, name: string) =>
    `<text class="${name}" x="${percent(at(mark.epochH))}" y="${y}"${anchor(at(mark.epochH))} font-size="12" fill="${RIBBON_COLOURS.ink}">${escapeHtml(mark.text)}</text>`
  const stroke = (mark: HourMark, from: number, to: number, name: string) =>
    `<line class="${name}" x1="${percent(at(mark.epochH))}" x2="${percent(at(mark.epochH))}" y1="${from}" y2="${to}" stroke="${RIBBON_COLOURS.ink}"/>`
  return [
    '<svg class="hours" width="100%" height="38" aria-hidden="true" focusable="false" xmlns="http://www.w3.org/2000/svg">',
    ...marks.filter(inside).map((mark) => text(mark, 12, 'mark') + stroke(mark, 16, 38, 'mark-line')),
    ...ticks.filter(inside).map((tick) => text(tick, 28, 'tick') + stroke(tick, 32, 38, 'tick-line')),
    '</svg>',
  ].join('')
}

/** The names of the days over ribbons that have them side by side. Same width as the ribbons. */
export function drawWeekDays(names: readonly string[]): string {
  const height = 24
  const texts = names.map(
    (name, n) =>
      `<text class="tick" x="${percent((n + 0.5) / names.length)}" y="15" text-anchor="middle" font-size="12" fill="${RIBBON_COLOURS.ink}">${escapeHtml(name)}</text>`,
  )
  return `<svg class="hours" width="100%" height="${height}" aria-hidden="true" focusable="false" xmlns="http://www.w3.org/2000/svg">${divisions(names.length, height)}${texts.join('')}</svg>`
}
