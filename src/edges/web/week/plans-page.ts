/** Every plan published, newest first, with the reason why it took the place of the one before. */
import { html } from 'hono/html'
import type { DayMade } from '#app/morning.ts'
import { mannerOf } from '#core/messages/render-text.ts'
import { longDate } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { type NameOf, nameOfPart } from '#edges/web/names.ts'
import type { PublishedPage } from '#edges/web/published.ts'
import { shortWhen } from '#edges/web/when.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import { othersMoved, price, sayChange, sayMoved } from './say-change.ts'
import type { Said } from './week-note.ts'

export interface PlansShown extends PublishedPage {
  readonly nameOf: NameOf
}

export function plansPage(
  farm: Farm,
  { message }: DayMade,
  viewer: Viewer,
  { records, olderThan, nameOf }: PlansShown,
): Markup {
  const manner = mannerOf(message)
  const words = wordsOf(message.language)
  const { plan } = words
  return layout({
    farm,
    viewer,
    title: plan.history,
    date: longDate(message.date, manner),
    body: html`<h1>${records.length > 0 ? plan.historySentence(records.length) : plan.noPlans}</h1>
<ol class="plans">${records.map((record) => published(record, farm, { manner, words, nameOf }))}</ol>
<p>${olderThan === undefined ? '' : html`<a href="/plans?before=${olderThan}">${plan.older}</a> · `}<a href="/week">${words.pages.week}</a></p>`,
  })
}

function published(record: PlanRecord, farm: Farm, said: Said): Markup {
  const { manner, words } = said
  const { publishedAtEpochH, plan: kept, difference } = record
  const { plan } = words
  const { reason } = record
  const [first] = reason.kind === 'planner' ? [...reason.changes, ...(reason.takenBack ?? [])] : []
  const cost = difference && plan.lastCost(...price(difference.money, manner), othersMoved(difference, first))
  const names = [...new Set(kept.visits.map(({ partKey }) => nameOfPart(partKey, farm)))]
  const moves = difference ? sayMoved(difference, farm, manner, plan) : []
  return html`<li><h2>${shortWhen(publishedAtEpochH, manner)} · ${reasonText(record, farm, said)}</h2>
<p>${plan.visits(names)} ${cost ?? ''}</p>
${moves.length > 0 ? html`<details><summary>${plan.movedTitle}</summary><ul class="moves">${moves.map((move) => html`<li>${move}</li>`)}</ul></details>` : ''}</li>
`
}

function reasonText({ reason }: PlanRecord, farm: Farm, { manner, words: { plan }, nameOf }: Said): string {
  switch (reason.kind) {
    case 'planner': {
      const say = (change: PlanChange) => sayChange(change, farm, manner, plan)
      const what = [
        ...reason.changes.map(say),
        ...(reason.takenBack ?? []).map((change) => plan.change.takenBack(say(change))),
      ]
      return `${nameOf(reason.personId)}: ${what.join('; ')}`
    }
    case 'reading':
    case 'progress':
      return `${plan.reasons[reason.kind]}, ${nameOfPart(reason.partKey, farm)}`
    default:
      return plan.reasons[reason.kind]
  }
}
