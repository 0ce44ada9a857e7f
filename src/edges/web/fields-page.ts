/** All fields: the farm drawn, and a table of how each stands. */
import { html, raw } from 'hono/html'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import { RIBBON_HATCH } from '#core/messages/draw-ribbon.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import {
  area,
  clock,
  dayAndClock,
  daysFromToday,
  longDate,
  type Manner,
  moisture,
  number,
} from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import type { Waiting } from '#core/planning/plan.ts'
import { drawMap, grainClass } from './field-map.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { type FieldStanding, moistureNow, reasonWord, standingOf } from './standing.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

interface FieldRow {
  readonly outlook: Outlook | undefined
  readonly standing: FieldStanding
  readonly id: string
  readonly name: string
  readonly facts: string
}

export function fieldsPage(farm: Farm, { message, day }: DayMade, viewer: Viewer): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    farm,
    viewer,
    title: words.pages.fields,
    date: longDate(message.date, manner),
    current: 'fields',
    body: html`${
      day
        ? allFields(farm, day, manner, words)
        : html`<h1>${words.failures['no-weather'].title}</h1>
<p>${words.failures['no-weather'].text}</p>`
    }
<p class="after-table"><a href="/skill">${words.skill.title}</a></p>`,
  })
}

function allFields(farm: Farm, day: Day, manner: Manner, words: Words): Markup {
  const rows = farm.fields
    .map((field): FieldRow => {
      const outlook = day.outlooks.find(({ part }) => part.key === field.id)
      return {
        outlook,
        standing: standingOf(day, field.id),
        id: field.id,
        name: field.name,
        facts: `${words.crop(field.crop)}, ${area(field.areaHa, manner)}`,
      }
    })
    .sort((a, b) => orderOf(a.standing, day) - orderOf(b.standing, day))
  const mapped = farm.fields.map((field) => {
    const standing = standingOf(day, field.id)
    return { field, standing, state: todayWord(standing, manner, words) }
  })
  return html`<h1>${summary(rows, words)}</h1>
${raw(RIBBON_HATCH)}
<div class="map-and-table">
<div class="map-frame">${raw(drawMap(farm, mapped, manner, words.mapLabel))}
<ul class="key">
<li><svg width="22" height="14" aria-hidden="true"><rect class="grain-fit" width="22" height="14" rx="3"/></svg>${words.key.fit}</li>
<li><svg width="22" height="14" aria-hidden="true"><rect class="grain-wet" width="22" height="14" rx="3"/></svg>${words.key.wet}</li>
<li><svg width="22" height="14" aria-hidden="true"><rect class="grain-brittle" width="22" height="14" rx="3"/></svg>${words.key.brittle}</li>
<li><svg width="22" height="14" aria-hidden="true"><rect width="22" height="14" rx="3" fill="url(#hatch)"/></svg>${words.key.held}</li>
<li>${words.numbersAre}</li>
</ul>${farm.baseMap ? html`<p class="quiet"><small>${farm.baseMap.credit}</small></p>` : ''}</div>
<table class="field-table">
<caption class="hidden">${words.pages.fields}</caption>
<thead><tr><th scope="col">${words.column.field}</th><th scope="col">${words.column.now}</th><th scope="col">${words.column.today}</th></tr></thead>
<tbody>
${rows.map((row) => tableRow(row, day, manner, words))}
</tbody>
</table>
</div>`
}

const isFitToday = ({ reason }: Waiting): boolean => reason === 'later-turn' || reason === 'worth-waiting'

function summary(rows: readonly FieldRow[], words: Words): string {
  const count = (wanted: (standing: FieldStanding) => boolean) => rows.filter(({ standing }) => wanted(standing)).length
  return words.fieldsSummary({
    run: count(({ kind }) => kind === 'run'),
    fit: count((standing) => standing.kind === 'waiting' && isFitToday(standing.waiting)),
    waiting: count((standing) => standing.kind === 'waiting' && !isFitToday(standing.waiting)),
    done: count(({ kind }) => kind === 'done'),
  })
}

function orderOf(standing: FieldStanding, day: Day): number {
  if (standing.kind === 'run') return standing.place
  if (standing.kind === 'waiting') return day.plan.runs.length + 1 + day.plan.waiting.indexOf(standing.waiting)
  return Number.MAX_SAFE_INTEGER
}

export function todayWord(standing: FieldStanding, manner: Manner, words: Words): string {
  switch (standing.kind) {
    case 'done':
      return words.done
    case 'run':
      return words.runSpan(clock(standing.run.startEpochH, manner), clock(standing.run.endEpochH, manner))
    case 'waiting':
      return reasonWord(standing.waiting.reason, words)
  }
}

function tableRow({ outlook, standing, id, name, facts }: FieldRow, day: Day, manner: Manner, words: Words): Markup {
  const now = outlook && moistureNow(outlook)
  const range = now && `${number(now.lowWb, 1, manner)}–${moisture(now.highWb, manner)}`
  return html`<tr>
<th scope="row"><a href="/fields/${encodeURIComponent(id)}">${name}</a><small>${facts}</small></th>
<td>${now ? html`${moisture(now.medianWb, manner)}<small class="whole">${range}</small>` : '–'}</td>
<td><span class="state"><svg class="dot" width="12" height="12" aria-hidden="true"><rect class="${grainClass(standing)}" width="12" height="12" rx="3"/></svg>${todayWord(standing, manner, words)}</span>${outlook ? html`<small class="state">${nextWindow(outlook.windows, day.nowEpochH, manner, words)}</small>` : ''}</td>
</tr>
`
}

function nextWindow(windows: readonly FitWindow[], nowEpochH: number, manner: Manner, words: Words): string {
  const next = windows.find(({ endEpochH }) => endEpochH > nowEpochH)
  if (!next) return words.field.noneNext
  const today = daysFromToday(next.startEpochH, manner) === 0
  const when = today
    ? `${words.season.today} ${clock(next.startEpochH, manner)}`
    : dayAndClock(next.startEpochH, manner)
  return words.field.fitFrom(when, words.chance(next.chance))
}
