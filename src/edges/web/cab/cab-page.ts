/** In the cab: one hand, sunlight. What runs now and until when, the moisture to expect, wind and fire, three buttons. */
import { html } from 'hono/html'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import { partName } from '#core/messages/names.ts'
import { mannerOf, sayMorning } from '#core/messages/render-text.ts'
import { clock, dayAndClock, longDate, type Manner, moisture } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { fitMoistureWb } from '#core/outlook/windows.ts'
import type { Run } from '#core/planning/plan.ts'
import { CAB_SCRIPT } from '#edges/web/assets.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import type { Words } from '#edges/web/words/words.ts'
import type { ToldKind } from './forms.ts'

/** The run that is on now, or the next one of the day. */
export const runNow = (day: Day, nowEpochH: number): Run | undefined =>
  day.plan.runs.find(({ endEpochH }) => endEpochH > nowEpochH)

export function cabPage(
  farm: Farm,
  { message, day }: DayMade,
  viewer: Viewer,
  nowEpochH: number,
  told: ToldKind | undefined,
): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  const lines = sayMorning(message)
  const run = day && runNow(day, nowEpochH)
  const care = message.fire.level === 'ordinary' ? 'quiet' : 'alarm'
  return layout({
    farm,
    viewer,
    title: words.pages.cab,
    date: longDate(message.date, manner),
    current: 'cab',
    look: 'cab',
    script: CAB_SCRIPT.path,
    body: html`${told ? html`<p class="told" role="status">${words.cab.told[told]}</p>` : ''}
${run && day ? work(run, day, nowEpochH, manner, words) : html`<h1>${lines[0]!.text}</h1>`}
${lines.filter(({ kind }) => kind === 'fire').map(({ text }) => html`<p class="${care}">${text}</p>`)}
${lines.filter(({ kind }) => kind === 'dust').map(({ text }) => html`<p>${text}</p>`)}
<p class="offline alarm" role="status" hidden data-text="${words.cab.offline}"></p>
<p class="waiting" role="status" hidden data-text="${words.cab.waiting}"></p>
<nav class="thumb" aria-label="${words.cab.tell}">
<a class="big" href="/cab/reading">${words.cab.buttons.reading}</a>
<a class="big" href="/cab/cut">${words.cab.buttons.cut}</a>
<a class="big" href="/cab/problem">${words.cab.buttons.problem}</a>
</nav>
<p class="quiet">${lines.filter(({ kind }) => kind === 'source')[0]?.text}</p>`,
  })
}

function work(run: Run, day: Day, nowEpochH: number, manner: Manner, words: Words): Markup {
  const name = partName(run.part)
  const outlook = day.outlooks.find(({ part }) => part.key === run.part.key)
  const isOn = run.startEpochH <= nowEpochH
  // Before it begins, the same figures as in the morning message.
  const begins =
    isOn && outlook ? fitMoistureWb(outlook, Math.floor(nowEpochH - outlook.startEpochH)) : run.startMoistureWb
  const [now, end] = [begins, run.endMoistureWb].map((wb) => (Number.isNaN(wb) ? '–' : moisture(wb, manner)))
  return html`<h1>${isOn ? words.cab.runUntil(name, clock(run.endEpochH, manner)) : words.cab.runFrom(name, dayAndClock(run.startEpochH, manner), clock(run.endEpochH, manner))}</h1>
<p class="expect">${words.cab.expect(now!, end!)}</p>`
}
