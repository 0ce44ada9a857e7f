/** Today: the morning message as a note, and the day drawn as ribbons beside it. */
import { html, raw } from 'hono/html'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import { drawHours } from '#core/messages/draw-axis.ts'
import { RIBBON_HATCH } from '#core/messages/draw-ribbon.ts'
import type { MorningMessage } from '#core/messages/morning.ts'
import { type Line, type LineKind, mannerOf, sayMorning } from '#core/messages/render-text.ts'
import { clock, longDate, type Manner } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { type DayFrame, dayFrame, hourTicks } from './day-frame.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { ribbonKey } from './ribbon-key.ts'
import { type RibbonRow, ribbonRow } from './ribbon-row.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

/** More ribbons than this are for the page of fields. */
const MOST_RIBBONS = 16

export function todayPage(farm: Farm, { message, day }: DayMade, viewer: Viewer): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  const lines = sayMorning(message)
  const said = (kind: LineKind) => lines.filter((line) => line.kind === kind)
  const alarming = isAlarming(message)
  return layout({
    farm,
    viewer,
    title: lines[0]!.text,
    date: longDate(message.date, manner),
    current: 'today',
    body: html`<h1>${lines[0]!.text}</h1>
${said('work').map(({ text }) => html`<p class="lede">${text}</p>`)}
${said('why').map(({ text }) => html`<p class="next">${text}</p>`)}
${said('after').map(({ text }) => html`<p class="next">${text}</p>`)}
${alarming ? said('fire').map(({ text }) => html`<p class="alarm">${text}</p>`) : ''}
<div class="spread-out">
${day && day.outlooks.length > 0 ? theDay(day, manner, words) : ''}
${note(lines, alarming, words)}
</div>`,
  })
}

const isAlarming = ({ fire }: MorningMessage): boolean => fire.level === 'care' || fire.level === 'stop'

function theDay(day: Day, manner: Manner, words: Words): Markup {
  const frame = dayFrame(day)
  const rows = inOrder(day)
  const shown = rows.slice(0, MOST_RIBBONS)
  return html`<section aria-labelledby="the-day">
<h2 id="the-day">${words.theDay}</h2>
${raw(RIBBON_HATCH)}
${raw(drawHours(frame.fromEpochH, frame.toEpochH, hourTicks(frame, day.farm.timeZone), marks(frame, manner, words)))}
<ol class="ribbons">
${shown.map((row, index) => ribbonRow(row, index, frame, manner, words))}
</ol>
${rows.length > shown.length ? html`<p class="quiet">${words.moreParts(rows.length - shown.length)}</p>` : ''}
${ribbonKey(words)}
</section>`
}

function marks(frame: DayFrame, manner: Manner, words: Words) {
  const { dewOffEpochH, dewBackEpochH, darkEpochH } = frame
  const all = [
    { epochH: dewOffEpochH, text: words.dewOff },
    { epochH: dewBackEpochH, text: words.dewBack },
    { epochH: darkEpochH, text: words.dark },
  ]
  return all
    .filter(({ epochH }) => Number.isFinite(epochH))
    .map(({ epochH, text }) => ({ epochH, text: text(clock(epochH, manner)) }))
}

/** Set to cut first, then in the order in which the rest is likely to be. */
export function inOrder({ plan, outlooks }: Day): RibbonRow[] {
  const place = new Map<string, number>()
  for (const { part } of [...plan.runs, ...plan.waiting]) if (!place.has(part.key)) place.set(part.key, place.size)
  const placeOf = (key: string) => place.get(key) ?? place.size
  return outlooks
    .map((outlook) => ({
      outlook,
      runs: plan.runs.filter(({ part }) => part.key === outlook.part.key),
      waiting: plan.waiting.find(({ part }) => part.key === outlook.part.key),
    }))
    .sort((a, b) => placeOf(a.outlook.part.key) - placeOf(b.outlook.part.key))
}

/** The rest of the message, one paragraph a line, lines of a kind together. */
function note(lines: readonly Line[], alarming: boolean, words: Words): Markup {
  const usual: readonly LineKind[] = ['headline', 'work', 'why', 'after']
  const above = alarming ? [...usual, 'fire'] : usual
  const rest = Map.groupBy(
    lines.filter(({ kind }) => !above.includes(kind)),
    ({ kind }) => kind,
  )
  return html`<section class="note" aria-labelledby="note">
<h2 id="note">${words.alsoToday}</h2>
${[...rest].map(([kind, said]) => html`<div class="${kind}">${said.map(({ text }) => html`<p>${text}</p>`)}${kind === 'source' ? html`<p><a href="/sources">${words.sources.title}</a></p>` : ''}</div>`)}
</section>`
}
