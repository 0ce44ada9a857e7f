/** Season: how much is off, what came off when and how wet, what is left and likely done by when, how good it all was. */
import { html, raw } from 'hono/html'
import type { DayMade } from '#app/morning.ts'
import type { Saved } from '#app/saved.ts'
import type { CropSeason, Load, SeasonReport } from '#app/season-report.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import { area, bareArea, longDate, type Manner, moisture, money, number } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Skill } from '#core/outlook/skill.ts'
import { SLIVER_HA } from '#core/planning/plan.ts'
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import { buPerAcreFromTPerHa, kgPerBushel } from '#core/units/convert.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { nameOfPart } from './names.ts'
import { drawSeason, drawSeasonDates, type SeasonFrame, seasonFrame } from './season-drawing.ts'
import { shortDate, shortWhen } from './when.ts'
import { wordsOf } from './words/of.ts'
import type { SeasonWords } from './words/season.ts'
import type { Words } from './words/words.ts'

/** Older loads are told by their count alone. */
const MOST_LOADS = 40
/** A crop that was done so long ago is told in words alone [days]. */
const DRAWN_DAYS = 30

export function seasonPage(farm: Farm, { message }: DayMade, viewer: Viewer, report: SeasonReport): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    farm,
    viewer,
    title: words.pages.season,
    date: longDate(message.date, manner),
    current: 'season',
    body: html`<h1>${headline(report, manner, words)}</h1>
${report.crops.map((crop) => html`<p class="lede">${cropLine(crop, report.seenTo, manner, words)}</p>`)}
${dayByDay(farm, report, manner, words)}
${loads(farm, report, manner, words)}
<section aria-labelledby="saved"><h2 id="saved">${words.season.saved}</h2>
${saved(report.saved, manner, words)}</section>
<section aria-labelledby="skill"><h2 id="skill">${words.season.skill}</h2>
<p>${skillLine(report.skill, manner, words)}</p>
<p><a href="/skill">${words.skill.title}</a></p></section>`,
  })
}

export function headline(
  { areaHa, cutHa }: Pick<SeasonReport, 'areaHa' | 'cutHa'>,
  manner: Manner,
  words: Words,
): string {
  const all = area(areaHa, manner)
  if (cutHa < SLIVER_HA) return words.season.nothingCut(all)
  if (areaHa - cutHa < SLIVER_HA) return words.season.allCut(all)
  return words.season.sentence(bareArea(cutHa, manner), all, share(cutHa / areaHa, manner))
}

const share = (value: number, manner: Manner): string => `${number(100 * value, 0, manner)}%`

const isDone = ({ areaHa, cutHa }: CropSeason): boolean => areaHa - cutHa < SLIVER_HA

function cropLine(crop: CropSeason, seenTo: Temporal.PlainDate | undefined, manner: Manner, words: Words): string {
  const { season } = words
  const name = words.crop(crop.crop)
  const last = crop.days.at(-1)
  if (isDone(crop) && last) return season.cropDone(name, area(crop.areaHa, manner), longDate(last.date, manner))
  const said = season.crop(name, bareArea(crop.cutHa, manner), area(crop.areaHa, manner))
  const { ahead } = crop
  if (!ahead || !seenTo) return `${said}; ${season.noPlan}`
  if (ahead.likelyDoneOn) return `${said}; ${season.likelyDone(longDate(ahead.likelyDoneOn, manner))}`
  return `${said}; ${season.likelyLeft(area(ahead.leftHa, manner), longDate(seenTo, manner))}`
}

function dayByDay(farm: Farm, report: SeasonReport, manner: Manner, words: Words): Markup | string {
  const longAgo = report.today.subtract({ days: DRAWN_DAYS })
  const drawn = report.crops.filter(
    (crop) => !isDone(crop) || Temporal.PlainDate.compare(crop.days.at(-1)?.date ?? longAgo, longAgo) > 0,
  )
  if (drawn.every(({ days, ahead }) => days.length === 0 && !ahead)) return ''
  const frame = seasonFrame(drawn, report)
  const { season } = words
  return html`<section aria-labelledby="by-day"><h2 id="by-day">${season.byDay}</h2>
${raw(drawSeasonDates(frame, (date) => shortDate(date, manner), season.today))}
<ol class="ribbons">
${drawn.map((crop) => cropRow(farm, crop, frame, manner, words))}
</ol>
${key(words)}
<p class="quiet after-table">${season.doneHelp}</p></section>`
}

function cropRow(farm: Farm, crop: CropSeason, frame: SeasonFrame, manner: Manner, words: Words): Markup {
  const name = words.crop(crop.crop)
  const { harvested } = crop
  const drawing = drawSeason(crop, frame, {
    label: words.season.drawing(name, described(crop, frame, manner, words)),
    // What most of the crop's fields are cut by.
    band: farm.fields.find((field) => field.crop === crop.crop)?.band ?? CROP_TRADE[crop.crop].band,
    share: (value) => share(value, manner),
  })
  const facts = [
    words.areaOf(bareArea(crop.cutHa, manner), area(crop.areaHa, manner)),
    ...(Number.isNaN(harvested.yieldTHa) ? [] : [yieldText(crop, manner)]),
    ...(Number.isNaN(harvested.moistureWb) ? [] : [moisture(harvested.moistureWb, manner)]),
  ]
  return html`<li><p class="name"><strong>${name}</strong><span>${facts.join(' · ')}</span></p>${raw(drawing)}</li>
`
}

function yieldText({ crop, harvested }: CropSeason, manner: Manner): string {
  return manner.units === 'metric'
    ? `${number(harvested.yieldTHa, 1, manner)} t/ha`
    : `${number(buPerAcreFromTPerHa(harvested.yieldTHa, CROP_TRADE[crop].lbPerBu), 0, manner)} bu/acre`
}

/** The drawing in words, for who cannot see it. */
function described(crop: CropSeason, { today, to }: SeasonFrame, manner: Manner, { season }: Words): string[] {
  const all = area(crop.areaHa, manner)
  const off = crop.cutHa / crop.areaHa
  const parts = [season.drawnCut(bareArea(crop.cutHa, manner), all, longDate(today, manner), share(off, manner))]
  const most = crop.days.toSorted((a, b) => b.areaHa - a.areaHa)[0]
  if (most) parts.push(season.drawnDay(area(most.areaHa, manner), longDate(most.date, manner)))
  if (crop.ahead) {
    const end = 1 - crop.ahead.leftHa / crop.areaHa
    parts.push(season.drawnAhead(share(end, manner), longDate(to, manner)))
  }
  return parts
}

function key({ season }: Words): Markup {
  const swatch = (inside: Markup, word: string) =>
    html`<li><svg width="22" height="14" aria-hidden="true" focusable="false">${inside}</svg>${word}</li>`
  const day = (look: string) => html`<rect class="${look}" x="4" y="1" width="14" height="12" rx="2"/>`
  return html`<ul class="key">
${swatch(day('grain-fit'), season.key.cut)}
${swatch(day('grain-wet'), season.key.wet)}
${swatch(day('grain-brittle'), season.key.brittle)}
${swatch(day('grain-unknown'), season.key.unmeasured)}
${swatch(day('expected'), season.key.ahead)}
${swatch(html`<path class="key-line" d="M0 12L8 9L14 3L22 1" fill="none" stroke-width="2"/>`, season.key.line)}
</ul>`
}

function loads(farm: Farm, { crops, loads: all }: SeasonReport, manner: Manner, words: Words): Markup {
  const { season } = words
  const shown = all.slice(0, MOST_LOADS)
  const weighed = crops.filter(({ harvested }) => !Number.isNaN(harvested.massT) || !Number.isNaN(harvested.moistureWb))
  return html`<section aria-labelledby="loads"><h2 id="loads">${season.loads}</h2>
${
  all.length === 0
    ? html`<p>${season.noLoads}</p>`
    : html`${weighed.map((crop) => html`<p>${weighedLine(crop, manner, words)}</p>`)}
<div class="scrolled" role="region" tabindex="0" aria-label="${season.loads}"><table>
<caption class="hidden">${season.loads}</caption>
<thead><tr><th scope="col">${season.column.when}</th>${[season.column.area, season.column.mass, season.column.moisture].map((head) => html`<th scope="col" class="amount">${head}</th>`)}</tr></thead>
<tbody>
${shown.map((load) => loadRow(load, nameOfPart(load.partKey, farm), manner))}
</tbody></table></div>
${all.length > shown.length ? html`<p class="quiet">${season.older(all.length - shown.length)}</p>` : ''}`
}</section>`
}

function weighedLine(crop: CropSeason, manner: Manner, words: Words): string {
  const { massT, yieldTHa, moistureWb } = crop.harvested
  return words.season.yields(
    words.crop(crop.crop),
    Number.isNaN(massT) ? '' : weighed(crop.crop, massT, manner),
    Number.isNaN(yieldTHa) ? '' : yieldText(crop, manner),
    Number.isNaN(moistureWb) ? '' : moisture(moistureWb, manner),
  )
}

/** To the bushel or the tenth of a tonne, as the scale has it. */
const weighed = (crop: CropName, massT: number, manner: Manner): string =>
  manner.units === 'metric'
    ? `${number(massT, 1, manner)} t`
    : `${number((massT * 1000) / kgPerBushel(CROP_TRADE[crop].lbPerBu), 0, manner)} bu`

function loadRow({ crop, atEpochH, areaHa, massT, moistureWb }: Load, place: string, manner: Manner): Markup {
  return html`<tr><th scope="row">${shortWhen(atEpochH, manner)}<small>${place}</small></th>
<td class="amount">${area(areaHa, manner)}</td>
<td class="amount">${Number.isNaN(massT) ? '–' : weighed(crop, massT, manner)}</td>
<td class="amount">${Number.isNaN(moistureWb) ? '–' : moisture(moistureWb, manner)}</td></tr>
`
}

function saved(found: Saved | undefined, manner: Manner, { season }: Words): Markup {
  if (!found) return html`<p>${season.savedUnknown}</p>`
  const { column, rows } = { column: season.ruleColumn, rows: found.against }
  return html`<p>${savedLine(found, manner, season)}</p>
<table class="narrow">
<caption class="hidden">${season.saved}</caption>
<thead><tr><th scope="col">${column.rule}</th><th scope="col" class="amount">${column.days}</th><th scope="col" class="amount">${column.money}</th></tr></thead>
<tbody>
${rows.map(({ rule, days, money: more }) => html`<tr><th scope="row">${season.rules[rule]}</th><td class="amount">${days}</td><td class="amount">${signedMoney(more, manner)}</td></tr>`)}
</tbody></table>
<p class="quiet after-table">${season.savedHelp}</p>`
}

/** Against the best of the rules: what anybody could have had without a planner. */
export function savedLine({ against, days, from, to }: Saved, manner: Manner, season: SeasonWords): string {
  const best = against[0]!
  const say = best.money < 0 ? season.lostSentence : season.savedSentence
  const [first, last] = [longDate(from, manner), longDate(to, manner)]
  return say(money(Math.abs(best.money), manner), days, first, last, season.rules[best.rule])
}

const signedMoney = (amount: number, manner: Manner): string =>
  `${amount <= -0.5 ? '−' : ''}${money(Math.abs(amount), manner)}`

export function skillLine(skill: Skill | undefined, manner: Manner, { season }: Words): string {
  if (!skill || skill.count === 0 || Number.isNaN(skill.rmse)) return season.noSkill
  const points = (value: number) => number(Math.abs(value), 1, manner)
  const said = season.skillSentence(skill.count, points(skill.rmse), share(skill.inside90, manner))
  if (Math.abs(skill.bias) < 0.05) return `${said} ${season.noBias}`
  return `${said} ${skill.bias > 0 ? season.tooWet(points(skill.bias)) : season.tooDry(points(skill.bias))}`
}
