/** The plain forms under the week: put a field on a day, keep it off, set crews, free what is decided. Scripts or not. */
import { html } from 'hono/html'
import type { DeskWeek } from '#app/plan-desk.ts'
import type { MoreWorth } from '#app/replan.ts'
import { partName } from '#core/messages/names.ts'
import { type Manner, money } from '#core/messages/words/format.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { Markup } from '#edges/web/layout.ts'
import { nameOfOutfit, nameOfPart } from '#edges/web/names.ts'
import type { Words } from '#edges/web/words/words.ts'
import { dayTicks, options, timeInput } from './inputs.ts'
import { outfitInputs } from './outfit-form.ts'
import { datedDay, sayChange } from './say-change.ts'

export interface FormsShown {
  readonly desk: DeskWeek
  readonly outlooks: readonly Outlook[]
  /** Chosen before anybody touches it. */
  readonly part: string | undefined
  /** Outfit that the form for one more starts with; unfolds that form. */
  readonly like: string | undefined
  readonly canChange: boolean
  /** What the pins cost together [money]. */
  readonly pinsCost: number
  /** Absent until asked for. */
  readonly more: readonly MoreWorth[] | undefined
  readonly manner: Manner
  readonly words: Words
}

export function weekForms(shown: FormsShown): Markup {
  return html`<div class="plan-fold two-up">
<div>${whyNote(shown)}${decidedNote(shown)}${moreNote(shown)}</div>
${shown.canChange ? changeForms(shown) : ''}
</div>
<p><a href="/plans">${shown.words.plan.history}</a></p>`
}

function whyNote({ desk, manner, words: { plan } }: FormsShown): Markup | string {
  const { choices } = desk.week
  if (choices.length === 0) return ''
  const amount = (value: number) => (value >= 1 ? money(value, manner) : undefined)
  return html`<section><h2>${plan.why}</h2>
${choices.map(({ partKey, reason, perDayWaiting, instead }) => {
  const name = nameOfPart(partKey, desk.farm)
  const other = instead && plan.instead(nameOfPart(instead.partKey, desk.farm), amount(instead.costs))
  return html`<p>${plan.whyOf(name, reason, amount(perDayWaiting))} ${other ?? ''}</p>`
})}
</section>`
}

function decidedNote({ desk, pinsCost, canChange, manner, words: { plan } }: FormsShown): Markup | string {
  const { pins, keepOffs, deadlines } = desk.rules
  const { farm, view } = desk
  const free = (kind: 'unpin' | 'allow', partKey: string) =>
    canChange
      ? html` <form class="inline" method="post" action="/week/try" data-swap><input type="hidden" name="kind" value="${kind}"><input type="hidden" name="part" value="${partKey}"><button class="quiet-button" aria-label="${plan.freeNamed(nameOfPart(partKey, farm))}">${plan.free}</button></form>`
      : ''
  const back = (key: string, what: string) =>
    canChange
      ? html` <form class="inline" method="post" action="/week/undo" data-swap><input type="hidden" name="key" value="${key}"><button class="quiet-button" aria-label="${plan.undoNamed(what)}">${plan.undo}</button></form>`
      : ''
  const unseen = (date: Temporal.PlainDate) =>
    Temporal.PlainDate.compare(date, view.to) > 0 ? ` (${plan.unseen})` : ''
  const items = [
    ...pins.map(
      (pin) =>
        html`<li>${sayChange({ kind: 'pin', pin }, farm, manner, plan)}${unseen(pin.date)}${free('unpin', pin.partKey)}</li>`,
    ),
    ...keepOffs.map(
      (keepOff) =>
        html`<li>${sayChange({ kind: 'keep-off', keepOff }, farm, manner, plan)}${free('allow', keepOff.partKey)}</li>`,
    ),
    ...deadlines.map((deadline) => {
      const what = sayChange({ kind: 'deadline', deadline }, farm, manner, plan)
      const told = desk.decisions.findLast(
        ({ body }) => body.kind === 'deadline' && body.deadline.partKey === deadline.partKey,
      )
      return html`<li>${what}${told ? back(told.key, what) : ''}</li>`
    }),
    ...desk.decisions
      .filter(({ body }) => 'outfitId' in body || body.kind === 'add-outfit')
      .map(({ key, body }) => {
        const what = sayChange(body, farm, manner, plan)
        return html`<li>${what}${back(key, what)}</li>`
      }),
  ]
  if (items.length === 0) return ''
  return html`<section><h2>${plan.decided}</h2><ul class="moves">${items}</ul>${
    pins.length > 0 && pinsCost >= 1 ? html`<p>${plan.pinsCost(money(pinsCost, manner))}</p>` : ''
  }</section>`
}

function moreNote({ desk, more, manner, words: { plan } }: FormsShown): Markup {
  if (!more) return html`<p><a href="/week?more=1#more" data-swap>${plan.moreAsk}</a></p>`
  const lines = more.map(({ what, outfitId, money: worth }) =>
    plan.more(what, nameOfOutfit(outfitId, desk.farm), worth >= 1 ? money(worth, manner) : undefined),
  )
  return html`<section id="more" data-said><h2>${plan.moreTitle}</h2>${
    lines.length > 0
      ? html`<ul class="moves">${lines.map((line) => html`<li>${line}</li>`)}</ul>`
      : html`<p>${plan.noMore}</p>`
  }</section>`
}

function changeForms(shown: FormsShown): Markup {
  const { desk, outlooks, part, like, manner, words } = shown
  const { plan } = words
  const dates: Temporal.PlainDate[] = []
  for (let date = desk.view.from; Temporal.PlainDate.compare(date, desk.view.to) <= 0; date = date.add({ days: 1 })) {
    dates.push(date)
  }
  const days = options(dates.map((date) => [date.toString(), datedDay(date, manner)]))
  const parts = options(
    outlooks.map(({ part: one }) => [one.key, partName(one)]),
    part,
  )
  const field = html`<label>${plan.field}<select name="part">${parts}</select></label>`
  const day = (name: string, label: string) => html`<label>${label}<select name="${name}">${days}</select></label>`
  const oneMoreOutfit = outfitInputs(desk.farm, like, manner, words)
  return html`<section id="change">
<h2>${plan.moveTitle}</h2>
${form('pin', plan.pinForm, html`${field}${day('date', plan.on)}${onlySome(desk.farm, words)}`, plan)}
${form('keep-off', plan.keepOffForm, html`${field}${day('from', plan.from)}${day('to', plan.to)}`, plan)}
${form('deadline', plan.deadlineForm, html`${field}${day('date', plan.by)}`, plan)}
${desk.farm.outfits.map((outfit) => outfitForms(outfit, shown))}
${oneMoreOutfit ? html`<div id="one-more">${form('add-outfit', plan.outfitForm, oneMoreOutfit, plan, like !== undefined)}</div>` : ''}
</section>`
}

/** Part of a field, by one of the outfits; left alone, all of it by any. */
const onlySome = ({ units, outfits }: Farm, { plan }: Words): Markup =>
  html`<label>${plan.onlyArea[units]}<input name="area" inputmode="decimal" autocomplete="off" pattern="[0-9]+([.,][0-9]+)?" placeholder="${plan.all}" size="8"></label>${
    outfits.length > 1
      ? html`<label>${plan.outfit}<select name="outfit">${options([['', plan.anyOutfit], ...outfits.map(({ id, name }) => [id, name] as const)])}</select></label>`
      : ''
  }`

/** One change; all but the commonest folded up until it is wanted. */
const form = (kind: string, title: string, inputs: Markup, { tryIt }: Words['plan'], open = kind === 'pin'): Markup =>
  html`<details${open ? html` open` : ''}><summary>${title}</summary><form class="line" method="post" action="/week/try" data-swap><input type="hidden" name="kind" value="${kind}">${inputs}<button>${tryIt}</button></form></details>
`

function outfitForms({ id, name, crewHours, daysOff, carts, trucks }: Outfit, { manner, words }: FormsShown): Markup {
  const { plan } = words
  const own = html`<input type="hidden" name="outfit" value="${id}">`
  const { startMinute, endMinute } = crewHours
  const oneMore = (kind: string, label: string) =>
    html`<form class="line" method="post" action="/week/try" data-swap><input type="hidden" name="kind" value="${kind}">${own}<button class="quiet-button">${label}</button></form>`
  return html`<details><summary>${plan.crewTitle}: ${name}</summary>
<form class="line" method="post" action="/week/try" data-swap><input type="hidden" name="kind" value="hours">${own}${timeInput('start', plan.starts, startMinute)}${timeInput('end', plan.ends, endMinute)}<button>${plan.tryIt}</button></form>
<form class="line" method="post" action="/week/try" data-swap><input type="hidden" name="kind" value="days-off">${own}${dayTicks(daysOff, plan.daysOff, manner)}<button>${plan.tryIt}</button></form>
${carts.length > 0 ? oneMore('add-cart', plan.oneCart) : ''}${trucks.length > 0 ? oneMore('add-truck', plan.oneTruck) : ''}
</details>`
}
