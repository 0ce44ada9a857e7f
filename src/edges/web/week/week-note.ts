/** What stands over the ribbons of the week: the plan in a sentence, or what a change would cost, and the last one made. */
import { html } from 'hono/html'
import type { DeskWeek, ShownWeek, TriedOut } from '#app/plan-desk.ts'
import { type Manner, money } from '#core/messages/words/format.ts'
import { likeliest, moneyOf, type PlanChange } from '#core/planning/optimiser/changes.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { Markup } from '#edges/web/layout.ts'
import { type NameOf, nameOfPart } from '#edges/web/names.ts'
import type { Sent } from '#edges/web/refused-form.ts'
import { shortWhen } from '#edges/web/when.ts'
import type { Words } from '#edges/web/words/words.ts'
import { dayText, othersMoved, partOfChange, price, sayChange, sayMoved } from './say-change.ts'
import { hiddenFields, wrapped } from './week-form.ts'

/** More than this in the large sentence is no sentence any more. */
const MOST_NAMED = 4

export interface Said {
  readonly nameOf: NameOf
  readonly manner: Manner
  readonly words: Words
}

/** The week that stands. */
export function standingNote(desk: DeskWeek, last: LastChange | undefined, canChange: boolean, said: Said): Markup {
  const { plan } = said.words
  const { week } = desk
  const short = week.loss - (week.wishes?.mean ?? 0)
  return html`<h1 data-focus tabindex="-1">${weekSentence(desk, said)}</h1>
${conflictNote(desk, said)}
${last ? lastNote(last, canChange, said) : ''}
<p class="lede">${plan.worth(money(moneyOf(week), said.manner), money(short, said.manner))} ${howGood(week, said)}</p>`
}

/** Less than this could be saved at most: nothing to speak of [money]. */
const NOTHING = 1

function howGood({ status, loss, leastLoss }: WeekPlan, { words, manner }: Said): string {
  const most = loss - leastLoss
  return most < NOTHING ? words.plan.noneBetter : words.plan.status[status](money(most, manner))
}

function weekSentence({ week, farm }: ShownWeek, { manner, words }: Said): string {
  const name = (key: string) => nameOfPart(key, farm)
  const today = [...new Set(week.visits.map(({ partKey }) => name(partKey)))].slice(0, MOST_NAMED)
  const later = new Map<string, { date: Temporal.PlainDate; names: string[] }>()
  for (const key of new Set(week.later.map(({ partKey }) => partKey))) {
    const date = likeliest(week, key)?.date
    if (!date || date.equals(week.day.date)) continue
    const day = later.get(date.toString()) ?? { date, names: [] }
    later.set(date.toString(), { date, names: [...day.names, name(key)] })
  }
  const [next] = [...later.values()].sort((a, b) => Temporal.PlainDate.compare(a.date, b.date))
  return words.plan.sentence(today, next && { day: dayText(next.date, manner), names: next.names.slice(0, MOST_NAMED) })
}

function conflictNote({ week, farm }: ShownWeek, { manner, words: { plan } }: Said): Markup | string {
  const [first] = week.conflict
  if (!first) return ''
  const pins = week.conflict.map(({ partKey, date }) =>
    plan.change.pin(nameOfPart(partKey, farm), dayText(date, manner)),
  )
  return html`<p class="alarm">${plan.conflict(pins)} ${plan.because[first.because]}</p>`
}

export interface LastChange {
  /** Names the decision that undoing takes back. */
  readonly key: string
  readonly change: PlanChange
  readonly by: string
  readonly atEpochH: number
  /** The plan that was published for it; absent where no field moved. */
  readonly published: PlanRecord | undefined
  readonly desk: DeskWeek
}

/** The newest decision that holds, with what came of it. */
export function lastChange(desk: DeskWeek, newest: PlanRecord | undefined): LastChange | undefined {
  const decision = desk.decisions.at(-1)
  if (!decision) return undefined
  const isItsOwn = newest?.reason.kind === 'planner' && newest.publishedAtEpochH >= decision.atEpochH
  const { key, body: change, by, atEpochH } = decision
  return { key, change, by, atEpochH, published: isItsOwn && newest ? newest : undefined, desk }
}

function lastNote({ key, change, by, atEpochH, published, desk }: LastChange, canChange: boolean, said: Said): Markup {
  const { manner, words } = said
  const { plan } = words
  const what = sayChange(change, desk.farm, manner, plan)
  const { difference } = published ?? {}
  const cost = difference ? plan.lastCost(...price(difference.money, manner), othersMoved(difference, change)) : ''
  return html`<div class="last" data-said><p>${plan.last(said.nameOf(by), what, shortWhen(atEpochH, manner))} ${cost}</p>${
    canChange
      ? html`<form method="post" action="/week/undo" data-swap><input type="hidden" name="key" value="${key}"><button class="quiet-button" aria-label="${plan.undoNamed(what)}">${plan.undo}</button></form>`
      : ''
  }</div>`
}

export interface Trial {
  readonly tried: TriedOut
  readonly change: PlanChange
  /** The form it was asked by. */
  readonly typed: Sent
  /** Makes keeping it twice harmless. */
  readonly key: string
}

/** What is tried. */
export function triedNote({ tried, change, typed, key }: Trial, said: Said): Markup {
  const { manner, words } = said
  const { plan } = words
  const { difference, farm } = tried
  const what = sayChange(change, farm, manner, plan)
  const moves = sayMoved(difference, farm, manner, plan)
  const bad = price(difference.badMoney, manner)
  const part = partOfChange(change)
  const isKept = change.kind !== 'pin' || tried.week.conflict.every(({ partKey }) => partKey !== part)
  const would = plan.would(what, ...price(difference.money, manner), othersMoved(difference, change))
  return html`<h1 data-said>${isKept ? would : plan.cannot(what)}</h1>
${conflictNote(tried, said)}
${bad.some((amount) => amount !== undefined) ? html`<p class="lede">${plan.badWeather(...bad)}</p>` : ''}
<form class="decide" method="post" action="/week/keep" data-swap>${hiddenFields(change)}<input type="hidden" name="typed" value="${wrapped(typed)}"><input type="hidden" name="key" value="${key}"><button data-focus>${plan.keep}</button> <a class="button quiet-button" href="/week" data-swap>${plan.leave}</a></form>
${moves.length > 0 ? html`<h2>${plan.movedTitle}</h2><ul class="moves">${moves.map((move) => html`<li>${move}</li>`)}</ul>` : html`<p>${plan.nothingMoved}</p>`}`
}
