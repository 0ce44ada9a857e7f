/** Skill: how the morning's forecasts of moisture did against what was read, and which meters disagree. */
import { html } from 'hono/html'
import type { DayMade } from '#app/morning.ts'
import type { SkillReport, SkillRow } from '#app/skill.ts'
import type { DoubtfulReading, InstrumentBelief } from '#core/field/filter/assimilate.ts'
import type { Instrument } from '#core/field/reading.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import { longDate, type Manner, moisture, number } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { CROPS } from '#core/science/crop.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { nameOfPart } from './names.ts'
import { shortWhen } from './when.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

/** @param report absent where no forecasts are kept. */
export function skillPage(
  farm: Farm,
  { message, day }: DayMade,
  viewer: Viewer,
  report: SkillReport | undefined,
): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  return layout({
    farm,
    viewer,
    title: words.skill.title,
    date: longDate(message.date, manner),
    body: html`${
      report && report.rows.length > 0
        ? figures(report, manner, words)
        : html`<h1>${words.skill.nothing}</h1>
<p>${words.skill.nothingHelp}</p>`
    }
${day ? meters(farm, day.belief.instruments, day.belief.doubtful, manner, words) : ''}`,
  })
}

function figures({ rows, recent }: SkillReport, manner: Manner, words: Words): Markup {
  const { skill } = words
  const { count, inside90, rmse, bias } = recent.skill
  const told = count > 0 ? skill.recent(share(inside90, manner), count) : skill.noRecent
  const off = count > 0 ? skill.off(number(rmse, 1, manner), leanOf(bias)) : undefined
  return html`<h1>${recent.poor ? skill.poor : (off ?? told)}</h1>
${recent.poor && off ? html`<p class="lede">${off}</p>` : ''}
${off || recent.poor ? html`<p class="lede">${told}</p>` : ''}
${CROPS.map((crop) =>
  cropTable(
    words.crop(crop),
    rows.filter((row) => row.crop === crop),
    manner,
    words,
  ),
)}
<p class="quiet after-table">${skill.help}</p>`
}

/** Less than half of what is shown is neither. */
const leanOf = (bias: number): 'wet' | 'dry' | 'even' => (Math.abs(bias) < 0.05 ? 'even' : bias > 0 ? 'wet' : 'dry')

function cropTable(name: string, rows: readonly SkillRow[], manner: Manner, { skill }: Words): Markup | string {
  if (rows.length === 0) return ''
  const { lead, bias, error, score } = skill.column
  return html`<section><h2>${name}</h2>
<div class="scrolled" role="region" tabindex="0" aria-label="${name}"><table class="figures">
<caption class="hidden">${skill.title}: ${name}</caption>
<thead><tr><th scope="col">${lead}</th>${[bias, error, '50%', '90%', score].map((head) => html`<th scope="col" class="amount">${head}</th>`)}</tr></thead>
<tbody>
${rows.map(
  (
    row,
  ) => html`<tr><th scope="row">${row.leadDays}<small>${skill.checks(row.skill.count)}</small></th>${cells(row, manner).map((cell) => html`<td class="amount">${cell}</td>`)}</tr>
`,
)}
</tbody></table></div></section>`
}

const cells = ({ skill }: SkillRow, manner: Manner): string[] => [
  signed(skill.bias, manner),
  known(skill.rmse, 1, manner),
  share(skill.inside50, manner),
  share(skill.inside90, manner),
  known(skill.crps, 2, manner),
]

const known = (value: number, digits: number, manner: Manner): string =>
  Number.isNaN(value) ? '–' : number(value, digits, manner)
const share = (value: number, manner: Manner): string =>
  Number.isNaN(value) ? '–' : `${number(100 * value, 0, manner)}%`

function signed(value: number, manner: Manner): string {
  const text = known(Math.abs(value), 1, manner)
  if (Number.isNaN(value) || Number(Math.abs(value).toFixed(1)) === 0) return text
  return `${value > 0 ? '+' : '−'}${text}`
}

function meters(
  farm: Farm,
  instruments: readonly InstrumentBelief[],
  doubtful: readonly DoubtfulReading[],
  manner: Manner,
  words: Words,
): Markup {
  const { skill } = words
  const off = instruments.filter(({ setRight }) => setRight)
  return html`<section aria-labelledby="meters"><h2 id="meters">${skill.meters}</h2>
${off.length + doubtful.length === 0 ? html`<p>${skill.noMeters}</p>` : ''}
${off.length > 0 ? html`<ul>${off.map((meter) => html`<li>${offMeter(farm, meter, manner, words)}</li>`)}</ul>` : ''}
${
  doubtful.length > 0
    ? html`<ul>${doubtful.map(({ reading, lowWb, highWb }) => html`<li>${meterName(farm, reading.instrument, words)}, ${skill.doubted(nameOfPart(reading.partKey, farm), shortWhen(reading.atEpochH, manner), moisture(reading.moistureWb, manner), moisture(lowWb, manner), moisture(highWb, manner))}</li>`)}</ul>
<p>${skill.secondSample}</p>`
    : ''
}
</section>`
}

function offMeter(farm: Farm, meter: InstrumentBelief, manner: Manner, words: Words): string {
  const { skill } = words
  const say = meter.offsetWb > 0 ? skill.tooHigh : skill.tooLow
  const said = say(number(Math.abs(meter.offsetWb), 1, manner), number(meter.sdWb, 1, manner))
  return `${meterName(farm, meter, words)} ${said}; ${skill.readings(meter.readings)}; ${skill.setRight}.`
}

/** The kind, and which of them where that says more. */
function meterName(farm: Farm, { id, kind }: Pick<Instrument, 'id' | 'kind'>, words: Words): string {
  const name = farm.buyers.find((buyer) => buyer.id === id)?.name ?? id
  const of = words.cab.instruments[kind]
  return name === kind ? of : `${of} (${name})`
}
