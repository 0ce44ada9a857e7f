/** One field: how it stands in a sentence, its moisture ahead, its windows, and the same for each of its patches. */
import { html, raw } from 'hono/html'
import type { Farm, Field } from '#core/farm/farm.ts'
import { partsOf } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import {
  area,
  clock,
  dayAndClock,
  dayName,
  haul,
  longDate,
  type Manner,
  moisture,
  number,
} from '#core/messages/words/format.ts'
import type { FitWindow, Outlook } from '#core/outlook/outlook.ts'
import { zonedAt } from '#core/units/time.ts'
import type { Day } from '#work/make-day.ts'
import type { DayMade } from '#work/morning.ts'
import { sayTime } from '#work/record-faults.ts'
import type { Standing } from '#work/records-port.ts'
import { todayWord } from './fields-page.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { drawMoisture } from './moisture-chart.ts'
import { moistureNow, standingOf } from './standing.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

/** What people told of the field, newest first. */
export interface ToldOfField {
  readonly readings: readonly Standing<'reading'>[]
  readonly cuts: readonly Standing<'cut'>[]
}

export function fieldPage(
  farm: Farm,
  field: Field,
  { message, day }: DayMade,
  viewer: Viewer,
  told: ToldOfField,
): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    title: `${field.name} · ${farm.name}`,
    farmName: farm.name,
    date: longDate(message.date, manner),
    language: message.language,
    current: 'fields',
    viewer,
    words,
    body: html`<h1>${day ? sentence(field, day, manner, words) : field.name}</h1>
${day ? partsOfField(field, day, manner, words) : html`<p>${words.failures['no-weather'].title}</p>`}
${toldSection(farm, told, manner, words)}
${facts(farm, field, day, manner, words)}`,
  })
}

function sentence(field: Field, day: Day, manner: Manner, words: Words): string {
  const standing = standingOf(day, field.id)
  const outlook = day.outlooks.find(({ part }) => part.key === field.id)
  if (standing.kind === 'done' || !outlook) return words.fieldDone(field.name)
  const crop = words.crop(field.crop)
  const now = moisture(moistureNow(outlook).medianWb, manner)
  return words.fieldSentence(field.name, crop, now, todayWord(standing, manner, words))
}

function partsOfField(field: Field, day: Day, manner: Manner, words: Words): Markup {
  const outlooks = day.partOutlooks.filter(({ part }) => part.field.id === field.id)
  return html`${outlooks.map((outlook) => partSection(outlook, day, manner, words))}`
}

function partSection(outlook: Outlook, day: Day, manner: Manner, words: Words): Markup {
  const { part } = outlook
  const now = moistureNow(outlook)
  const id = `part-${part.key.replaceAll('/', '-')}`
  const chart = drawMoisture(outlook, {
    label: words.chartLabel(partName(part), moisture(now.medianWb, manner)),
    timeZone: day.farm.timeZone,
    moisture: (wb) => moisture(wb, manner),
    dayName: (epochH) => shortDay(epochH, manner),
  })
  const range = `${number(now.lowWb, 1, manner)}–${moisture(now.highWb, manner)}`
  return html`<section class="part" aria-labelledby="${id}">
<h2 id="${id}">${part.patch ? words.patchHeading(part.patch.name, words.patchKinds[part.patch.kind], area(part.areaHa, manner)) : words.mainHeading(area(part.areaHa, manner))}</h2>
<p>${words.nowSentence(moisture(now.medianWb, manner), range)}</p>
${raw(chart)}
<p class="quiet">${words.chartKey}</p>
${outlook.windows.length > 0 ? windowTable(outlook.windows, manner, words) : html`<p>${words.noWindow}</p>`}
</section>`
}

const shortDay = (epochH: number, manner: Manner): string =>
  zonedAt(epochH, manner.timeZone)
    .toPlainDate()
    .toLocaleString(manner.language === 'es' ? 'es-US' : 'en-US', { weekday: 'short' })

function windowTable(windows: readonly FitWindow[], manner: Manner, words: Words): Markup {
  return html`<table>
<caption class="hidden">${words.windows}</caption>
<thead><tr><th scope="col">${words.column.window}</th><th scope="col">${words.column.chance}</th><th scope="col">${words.column.moisture}</th><th scope="col">${words.column.closes}</th></tr></thead>
<tbody>
${windows.map((window) => windowRow(window, manner, words))}
</tbody>
</table>`
}

function windowRow(window: FitWindow, manner: Manner, words: Words): Markup {
  const sameDay = dayName(window.startEpochH, manner) === dayName(window.endEpochH, manner)
  const end = sameDay ? clock(window.endEpochH, manner) : dayAndClock(window.endEpochH, manner)
  return html`<tr>
<th scope="row">${dayAndClock(window.startEpochH, manner)}–${end}</th>
<td>${words.chance(window.chance)}</td>
<td>${moisture(window.startMoistureWb, manner)} → ${moisture(window.endMoistureWb, manner)}</td>
<td>${window.closesWith ? words.held[window.closesWith] : '–'}</td>
</tr>
`
}

function toldSection(farm: Farm, { readings, cuts }: ToldOfField, manner: Manner, words: Words): Markup | string {
  if (readings.length + cuts.length === 0) return ''
  const who = (by: string) => farm.people.find(({ id }) => id === by)?.name ?? by
  const at = (epochH: number) => sayTime(epochH, farm.timeZone)
  const place = (partKey: string) => partsOfFarm(farm).get(partKey) ?? partKey
  return html`<section aria-labelledby="told"><h2 id="told">${words.toldTitle}</h2>
<ul>
${readings.map(({ atEpochH, by, body }) => html`<li>${at(atEpochH)} ${place(body.partKey)}: ${moisture(body.moistureWb, manner)}, ${words.cab.instruments[body.instrument.kind]}, ${who(by)}</li>`)}
${cuts.map(({ atEpochH, by, body }) => html`<li>${at(atEpochH)} ${place(body.partKey)}: ${words.cutSaid(area(body.areaHa, manner), body.done === true)}, ${who(by)}</li>`)}
</ul></section>`
}

const partsOfFarm = (farm: Farm): ReadonlyMap<string, string> =>
  new Map(farm.fields.flatMap(partsOf).map((part) => [part.key, partName(part)]))

function facts(farm: Farm, field: Field, day: Day | undefined, manner: Manner, words: Words): Markup {
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
  return html`<section aria-labelledby="facts">
<h2 id="facts">${words.facts}</h2>
<dl class="facts">${rows.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
</section>`
}
