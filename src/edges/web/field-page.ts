/** One field: how it stands in a sentence, its moisture past and ahead, its windows, what was told and decided of it. */
import { html, raw } from 'hono/html'
import type { Day } from '#app/make-day.ts'
import { moisturePast } from '#app/moisture-past.ts'
import type { DayMade } from '#app/morning.ts'
import type { ToldOfField } from '#app/told-of-field.ts'
import { harvestedOf } from '#core/field/harvested.ts'
import { partName } from '#core/messages/names.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import {
  area,
  bareArea,
  clock,
  dayAndClock,
  dayName,
  daysFromToday,
  haul,
  longDate,
  type Manner,
  moisture,
  number,
} from '#core/messages/words/format.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { zonedAt } from '#core/units/time.ts'
import { decided, type FieldTold, inForce } from './field-decisions.ts'
import { todayWord } from './fields-page.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { type ChartReading, drawMoisture } from './moisture-chart.ts'
import { nameOfPart } from './names.ts'
import { skillLine } from './season-page.ts'
import { moistureNow, standingOf } from './standing.ts'
import { shortDate, shortDay, shortWhen } from './when.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

/** Days of a chart that are told apart by their weekday; more carry their date. */
const MOST_WEEKDAYS = 11

export function fieldPage(
  farm: Farm,
  field: Field,
  { message, day }: DayMade,
  viewer: Viewer,
  told: FieldTold,
): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    farm,
    viewer,
    title: field.name,
    date: longDate(message.date, manner),
    current: 'fields',
    body: html`<h1>${day ? sentence(field, day, manner, words) : field.name}</h1>
${day ? partsOfField(field, day, told, manner, words) : html`<p>${words.failures['no-weather'].title}</p>`}
<div class="two-up">
${decided(farm, field, told, manner, words)}
${skillSection(told, manner, words)}
</div>
${toldSection(farm, told, manner, words)}
${facts(farm, field, day, told, manner, words)}`,
  })
}

function sentence(field: Field, day: Day, manner: Manner, words: Words): string {
  const standing = standingOf(day, field.id)
  const outlook = mainOutlook(field, day)
  if (standing.kind === 'done' || !outlook) return words.fieldDone(field.name)
  const crop = words.crop(field.crop)
  const now = moisture(moistureNow(outlook).medianWb, manner)
  return words.fieldSentence(field.name, crop, now, todayWord(standing, manner, words))
}

const mainOutlook = (field: Field, day: Day): Outlook | undefined =>
  day.partOutlooks.find(({ part }) => part.key === field.id)

function partsOfField(field: Field, day: Day, told: ToldOfField, manner: Manner, words: Words): Markup {
  const outlooks = day.partOutlooks.filter(({ part }) => part.field.id === field.id)
  return html`${outlooks.map((outlook) =>
    outlook.part.patch
      ? patchSection(outlook, day, told, manner, words)
      : html`<p class="lede">${nextLine(outlook, day, manner, words)}</p>
${inForce(told, outlook.part.key, manner, words)}
${partBody(outlook, day, told, manner, words)}`,
  )}`
}

/** Folded, so that the field itself is not pushed out of sight by its corners. */
function patchSection(outlook: Outlook, day: Day, told: ToldOfField, manner: Manner, words: Words): Markup {
  const { patch, areaHa } = outlook.part
  const heading = words.patchHeading(patch!.name, words.patchKinds[patch!.kind], area(areaHa, manner))
  const next = nextOf(outlook, day)
  const said = next ? words.field.nextShort(windowSpan(next, manner, words), words.chance(next.chance)) : words.noWindow
  return html`<details class="part"><summary>${words.field.patchSummary(heading, moisture(moistureNow(outlook).medianWb, manner), said)}</summary>
${partBody(outlook, day, told, manner, words)}
</details>`
}

const nextOf = ({ windows }: Outlook, { nowEpochH }: Day): FitWindow | undefined =>
  windows.find(({ endEpochH }) => endEpochH > nowEpochH)

function nextLine(outlook: Outlook, day: Day, manner: Manner, words: Words): string {
  const next = nextOf(outlook, day)
  if (!next) return words.field.noneNext
  return words.field.next(windowSpan(next, manner, words), words.chance(next.chance), moistureSpan(next, manner))
}

const moistureSpan = ({ startMoistureWb, endMoistureWb }: FitWindow, manner: Manner): string =>
  `${number(startMoistureWb, 1, manner)}–${moisture(endMoistureWb, manner)}`

function partBody(outlook: Outlook, day: Day, told: ToldOfField, manner: Manner, words: Words): Markup {
  const { part } = outlook
  const now = moistureNow(outlook)
  const state = day.states.find(({ part: { key } }) => key === part.key)
  const past = state && moisturePast(day, state)
  const readings = readingsOf(part.key, day, told, manner, words)
  const since = zonedAt(past?.startEpochH ?? day.nowEpochH, manner.timeZone).toPlainDate()
  const seen = readings.filter(({ atEpochH }) => atEpochH >= (past?.startEpochH ?? Number.POSITIVE_INFINITY))
  const chart = drawMoisture(outlook, past, seen, {
    label: words.field.chartLabel(partName(part), longDate(since, manner), moisture(now.medianWb, manner), seen.length),
    timeZone: day.farm.timeZone,
    moisture: (wb) => moisture(wb, manner),
    dayName: (date, days) => (days > MOST_WEEKDAYS ? shortDate(date, manner) : shortDay(date, manner)),
  })
  const range = `${number(now.lowWb, 1, manner)}–${moisture(now.highWb, manner)}`
  return html`<p>${words.nowSentence(moisture(now.medianWb, manner), range)}</p>
${raw(chart)}
${chartKey(seen, words)}
${outlook.windows.length > 0 ? windowTable(outlook.windows, manner, words) : html`<p>${words.noWindow}</p>`}`
}

function readingsOf(
  partKey: string,
  { belief }: Day,
  { readings }: ToldOfField,
  manner: Manner,
  words: Words,
): ChartReading[] {
  const doubtful = new Set(belief.doubtful.map(({ reading }) => reading.id))
  return readings
    .filter(({ body }) => body.partKey === partKey)
    .map(({ atEpochH, body }) => ({
      atEpochH,
      moistureWb: body.moistureWb,
      doubted: doubtful.has(body.id),
      text: `${shortWhen(atEpochH, manner)}: ${moisture(body.moistureWb, manner)}, ${words.cab.instruments[body.instrument.kind]}`,
    }))
}

function chartKey(readings: readonly ChartReading[], { field }: Words): Markup {
  const item = (drawing: Markup, word: string) =>
    html`<li><svg width="22" height="14" aria-hidden="true" focusable="false">${drawing}</svg>${word}</li>`
  const { chartKey: key, chartMarks: marks } = field
  return html`<ul class="key">
${item(html`<path class="key-line" d="M0 10C8 10 12 4 22 4" fill="none" stroke-width="2"/>`, key.line)}
${item(html`<rect class="key-spread" width="22" height="14"/>`, key.spread)}
${item(html`<rect class="key-band" width="22" height="14"/>`, key.band)}
${item(html`<rect class="grain-fit" y="3" width="22" height="8" rx="2"/>`, marks.windows)}
${item(html`<path class="key-line" d="M11 0V14" stroke-dasharray="3 2"/>`, key.now)}
${readings.some(({ doubted }) => !doubted) ? item(html`<circle class="reading" cx="11" cy="7" r="4.5"/>`, marks.readings) : ''}
${readings.some(({ doubted }) => doubted) ? item(html`<circle class="reading doubted" cx="11" cy="7" r="4.5"/>`, marks.doubted) : ''}
</ul>`
}

function windowTable(windows: readonly FitWindow[], manner: Manner, words: Words): Markup {
  return html`<table class="after-table">
<caption class="hidden">${words.windows}</caption>
<thead><tr><th scope="col">${words.column.window}</th><th scope="col">${words.column.chance}</th><th scope="col">${words.column.moisture}</th></tr></thead>
<tbody>
${windows.map((window) => windowRow(window, manner, words))}
</tbody>
</table>`
}

/** `today 10:40–13:00`, `Friday 10:40–13:00`. */
function windowSpan(window: FitWindow, manner: Manner, words: Words): string {
  return `${windowDay(window, manner, words)} ${windowHours(window, manner)}`
}

const windowDay = ({ startEpochH }: FitWindow, manner: Manner, { season }: Words): string =>
  daysFromToday(startEpochH, manner) === 0 ? season.today : dayName(startEpochH, manner)

function windowHours({ startEpochH, endEpochH }: FitWindow, manner: Manner): string {
  const sameDay = dayName(startEpochH, manner) === dayName(endEpochH, manner)
  return `${clock(startEpochH, manner)}–${sameDay ? clock(endEpochH, manner) : dayAndClock(endEpochH, manner)}`
}

function windowRow(window: FitWindow, manner: Manner, words: Words): Markup {
  return html`<tr>
<th scope="row">${windowDay(window, manner, words)} <span class="whole">${windowHours(window, manner)}</span>${window.closesWith ? html`<small>${words.field.closes(words.held[window.closesWith])}</small>` : ''}</th>
<td class="whole">${words.chance(window.chance)}</td>
<td class="whole">${moistureSpan(window, manner)}</td>
</tr>
`
}

function skillSection({ skill }: ToldOfField, manner: Manner, words: Words): Markup {
  return html`<section aria-labelledby="skill"><h2 id="skill">${words.field.skill}</h2>
<p>${skill && skill.count > 0 ? skillLine(skill, manner, words) : words.field.noSkill}</p></section>`
}

function toldSection(farm: Farm, { readings, cuts, nameOf }: FieldTold, manner: Manner, words: Words): Markup | string {
  if (readings.length + cuts.length === 0) return ''
  const at = (epochH: number) => shortWhen(epochH, manner)
  const place = (partKey: string) => nameOfPart(partKey, farm)
  return html`<section aria-labelledby="told"><h2 id="told">${words.toldTitle}</h2>
<ul>
${readings.map(({ atEpochH, by, body }) => html`<li>${at(atEpochH)} ${place(body.partKey)}: ${moisture(body.moistureWb, manner)}, ${words.cab.instruments[body.instrument.kind]}, ${nameOf(by)}</li>`)}
${cuts.map(({ atEpochH, by, body }) => html`<li>${at(atEpochH)} ${place(body.partKey)}: ${words.cutSaid(area(body.areaHa, manner), body.done === true)}${body.moistureWb === undefined ? '' : `, ${moisture(body.moistureWb, manner)}`}, ${nameOf(by)}</li>`)}
</ul></section>`
}

function facts(
  farm: Farm,
  field: Field,
  day: Day | undefined,
  { cuts }: ToldOfField,
  manner: Manner,
  words: Words,
): Markup {
  const buyer = farm.buyers.find(({ id }) => id === field.buyerId)
  const maturity = day?.maturity.get(field.id)
  const rows: (readonly [string, string])[] = [
    [words.fact.crop, `${words.crop(field.crop)}, ${area(field.areaHa, manner)}`],
    [words.fact.band, `${number(field.band.lowWb, 1, manner)}–${moisture(field.band.highWb, manner)}`],
    [words.fact.planted, longDate(field.plantedOn, manner)],
  ]
  if (maturity) {
    rows.push([words.fact.mature, words.matureOn(longDate(maturity.matureOn, manner), Math.round(maturity.sdDays))])
  }
  if (buyer) rows.push([words.fact.buyer, `${buyer.name}, ${haul(field.haulKm, manner)}`])
  const { areaHa, moistureWb } = harvestedOf(
    field,
    cuts.map(({ body }) => body),
  )
  if (areaHa > 0) {
    const off = words.field.off(bareArea(areaHa, manner), area(field.areaHa, manner))
    rows.push([words.field.cutSoFar, Number.isNaN(moistureWb) ? off : `${off}, ${moisture(moistureWb, manner)}`])
  }
  return html`<section aria-labelledby="facts">
<h2 id="facts">${words.facts}</h2>
<dl class="facts">${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
</section>`
}
