/** Sources: how each weather source is doing, what went wrong last, and whom the weather is owed to. */
import { html, raw } from 'hono/html'
import { COUNTED_DAYS, type Lack, type SourceState } from '#app/source-states.ts'
import { type Manner, number } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import { localDateOf } from '#core/units/time.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { timeMark } from './when.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

/** What a supplier asks to be said of it. */
export interface Credit {
  readonly id: string
  readonly name: string
  readonly attribution: string
  readonly licence: string
}

export interface LiveSources {
  readonly states: (nowEpochH: number) => Promise<readonly SourceState[]>
  /** Of every supplier that `states` may tell of; one may stand here twice. */
  readonly credits: readonly Credit[]
  /** What no source of the farm gives. */
  readonly lacks: readonly Lack[]
}

export interface SourcesShown {
  readonly states: readonly SourceState[]
  readonly lacks: readonly Lack[]
  readonly credits: readonly Credit[]
}

export async function shownSources({ states, credits, lacks }: LiveSources, nowEpochH: number): Promise<SourcesShown> {
  const first = new Map<string, Credit>()
  for (const credit of credits) if (!first.has(credit.id)) first.set(credit.id, credit)
  return { states: await states(nowEpochH), credits: [...first.values()], lacks }
}

/** @param shown absent where no live source is asked. */
export function sourcesPage(farm: Farm, viewer: Viewer, nowEpochH: number, shown: SourcesShown | undefined): Markup {
  const words = wordsOf(viewer.language)
  const { units, timeZone } = farm
  const manner = { units, language: viewer.language, timeZone, today: localDateOf(nowEpochH, timeZone), nowEpochH }
  return layout({
    farm,
    viewer,
    title: words.sources.title,
    body: shown && shown.states.length > 0 ? live(shown, manner, words) : recorded(farm, words),
  })
}

function recorded({ weather }: Farm, words: Words): Markup {
  const { sources } = words
  const stands = weather.find((source) => source.kind === 'recorded')
  if (!stands) return html`<h1>${sources.none}</h1>`
  return html`<h1>${sources.recorded}</h1>
<p>${sources.recordedText}</p>
<section aria-labelledby="credits"><h2 id="credits">${sources.credits}</h2>
<p>${stands.credit}. ${sources.licence}: ${stands.licence}.</p>
</section>`
}

function live({ states, credits, lacks }: SourcesShown, manner: Manner, words: Words): Markup {
  const { sources } = words
  const well = states.filter(({ state }) => state === 'well').length
  const failed = states.filter(({ lastFailure }) => lastFailure !== undefined)
  return html`<h1>${sources.sentence(well, states.length)}</h1>
<div class="scrolled" role="region" tabindex="0" aria-label="${sources.title}"><table>
<caption class="hidden">${sources.title}</caption>
<thead><tr><th scope="col">${sources.column.source}</th><th scope="col">${sources.column.state}</th><th scope="col">${sources.column.age}</th><th scope="col">${sources.column.failed}</th></tr></thead>
<tbody>
${states.map((state) => row(state, manner, words))}
</tbody></table></div>
<p class="quiet after-table">${sources.ageHelp(COUNTED_DAYS)}</p>
<section aria-labelledby="errors"><h2 id="errors">${sources.errors}</h2>
${
  failed.length > 0
    ? html`<ul>${failed.map((state) => html`<li>${timeMark(state.lastFailureEpochH, manner)}, ${sources.kinds[state.kind]}: ${failureOf(state, words)}</li>`)}</ul>`
    : html`<p>${sources.noErrors}</p>`
}
</section>
${
  lacks.length > 0
    ? html`<section aria-labelledby="lacks"><h2 id="lacks">${sources.lacksTitle}</h2>
<ul>${lacks.map((lack) => html`<li>${sources.lacks[lack]}</li>`)}</ul>
</section>
`
    : ''
}<section aria-labelledby="credits"><h2 id="credits">${sources.credits}</h2>
<ul>${credits.map(({ name, attribution, licence }) => html`<li>${name}: <span lang="en">${attribution}</span>. ${sources.licence}: <span lang="en">${licence}</span>.</li>`)}</ul>
</section>`
}

/** In the reader's own language where it is known what it was. */
const failureOf = ({ lastFailure, lastFault }: SourceState, { sources }: Words): Markup =>
  sources.fault && lastFault ? html`${sources.fault(lastFault)}` : html`<span lang="en">${lastFailure}</span>`

function row(state: SourceState, manner: Manner, { sources }: Words): Markup {
  const { name, kind, ageH, lastAskedEpochH, calls, failedShare } = state
  return html`<tr>
<th scope="row">${name}<small>${sources.kinds[kind]}</small></th>
<td>${sources.states[state.state]}${Number.isNaN(lastAskedEpochH) ? '' : html`<small>${raw(sources.asked(`${timeMark(lastAskedEpochH, manner)}`))}</small>`}</td>
<td>${Number.isNaN(ageH) ? '–' : `${number(ageH, 1, manner)} h`}</td>
<td>${Number.isNaN(failedShare) ? '–' : html`${number(100 * failedShare, 0, manner)}%<small>${sources.ofCalls(calls)}</small>`}</td>
</tr>
`
}
