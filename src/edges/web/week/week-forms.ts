/** The plain forms under the week: put a field on a day, keep it off, set crews, free what is decided. Scripts or not. */
import { html } from 'hono/html'
import type { DeskWeek } from '#app/plan-desk.ts'
import type { MoreWorth } from '#app/replan.ts'
import { partName } from '#core/messages/names.ts'
import { type Manner, money } from '#core/messages/words/format.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { date } from '#edges/web/api/plan-changes.ts'
import { select } from '#edges/web/choices.ts'
import type { Markup } from '#edges/web/layout.ts'
import { nameOfOutfit, nameOfPart } from '#edges/web/names.ts'
import { type RefusedForm, type Typed, typedIn } from '#edges/web/refused-form.ts'
import type { Words } from '#edges/web/words/words.ts'
import { dayTicks, timeInput } from './inputs.ts'
import { outfitInputs } from './outfit-form.ts'
import { datedDay, sayChange } from './say-change.ts'

export interface FormsShown {
  readonly desk: DeskWeek
  readonly outlooks: readonly Outlook[]
  /** Chosen before anybody touches it. */
  readonly part: string | undefined
  /** Outfit that the form for one more starts with; unfolds that form. */
  readonly like: string | undefined
  /** Comes back as it was typed; unfolds its form. */
  readonly refused: RefusedForm | undefined
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
  for (let next = desk.view.from; Temporal.PlainDate.compare(next, desk.view.to) <= 0; next = next.add({ days: 1 })) {
    dates.push(next)
  }
  const days = dates.map((one) => [one.toString(), datedDay(one, manner)] as const)
  const parts = outlooks.map(({ part: one }) => [one.key, partName(one)] as const)
  const field = (typed: Typed) => select('part', plan.field, parts, part, typed, (gone) => nameOfPart(gone, desk.farm))
  const day = (name: string, label: string, typed: Typed) =>
    select(name, label, days, undefined, typed, (gone) => dayOf(gone, manner))
  const [pin, keepOff, deadline, outfit] = (['pin', 'keep-off', 'deadline', 'add-outfit'] as const).map((kind) =>
    typedIn(refusedOf(shown, kind)),
  )
  const oneMoreOutfit = outfitInputs(desk.farm, like, outfit!, manner, words)
  return html`<section id="change">
<h2>${plan.moveTitle}</h2>
${form('pin', plan.pinForm, html`${field(pin!)}${day('date', plan.on, pin!)}${onlySome(desk.farm, words, pin!)}`, shown)}
${form('keep-off', plan.keepOffForm, html`${field(keepOff!)}${day('from', plan.from, keepOff!)}${day('to', plan.to, keepOff!)}`, shown)}
${form('deadline', plan.deadlineForm, html`${field(deadline!)}${day('date', plan.by, deadline!)}`, shown)}
${[...desk.farm.outfits, ...goneOutfit(shown)].map((one) => outfitForms(one, shown))}
${oneMoreOutfit ? html`<div id="one-more">${form('add-outfit', plan.outfitForm, oneMoreOutfit, shown, like !== undefined)}</div>` : ''}
</section>`
}

/** @returns what was sent where it is no day. */
function dayOf(sent: string, manner: Manner): string {
  const { data } = date.safeParse(sent)
  return data ? datedDay(Temporal.PlainDate.from(data), manner) : sent
}

/** Part of a field, by one of the outfits; left alone, all of it by any. */
const onlySome = ({ units, outfits }: Farm, { plan }: Words, typed: Typed): Markup => {
  const { asked, marks, text } = typed
  const area = asked(
    'area',
    html`<label>${plan.onlyArea[units]}<input name="area" value="${text('area', '')}" inputmode="decimal" autocomplete="off" pattern="[0-9]+([.,][0-9]+)?" placeholder="${plan.all}" size="8"${marks('area')}></label>`,
  )
  const choices = [['', plan.anyOutfit] as const, ...outfits.map(({ id, name }) => [id, name] as const)]
  // One that is gone meanwhile stays to be seen.
  const asks = outfits.length > 1 || text('outfit', '') !== ''
  return html`${area}${asks ? select('outfit', plan.outfit, choices, '', typed) : ''}`
}

/** One change; all but the commonest folded up until it is wanted. */
function form(kind: string, title: string, inputs: Markup, shown: FormsShown, open = kind === 'pin'): Markup {
  const refused = refusedOf(shown, kind)
  return html`<details${open || refused ? html` open` : ''}><summary>${title}</summary><form class="line" method="post" action="/week/try" data-swap>${typedIn(refused).whole()}<input type="hidden" name="kind" value="${kind}">${inputs}<button>${shown.words.plan.tryIt}</button></form></details>
`
}

/** Of a form under the week, or of one of an outfit's. */
function refusedOf({ refused }: Pick<FormsShown, 'refused'>, kind: string, outfit?: string): RefusedForm | undefined {
  const isIts = refused?.sent.kind === kind && (outfit === undefined || refused.sent.outfit === outfit)
  return isIts ? refused : undefined
}

/** Whose form came in when it was no more on the farm: what was typed for it is still to be seen. */
function goneOutfit({ refused, desk: { farm } }: Pick<FormsShown, 'refused' | 'desk'>): Outfit[] {
  const { kind, outfit: id } = refused?.sent ?? {}
  const [model] = farm.outfits
  const isGone = typeof id === 'string' && farm.outfits.every((one) => one.id !== id)
  return isGone && model && TYPED_OF_AN_OUTFIT.has(kind) ? [{ ...model, id, name: id, carts: [], trucks: [] }] : []
}

const TYPED_OF_AN_OUTFIT: ReadonlySet<unknown> = new Set(['hours', 'days-off'])
const OF_ALL: ReadonlySet<unknown> = new Set(['pin', 'keep-off', 'deadline', 'add-outfit'])
const OF_AN_OUTFIT = ['hours', 'days-off', 'add-cart', 'add-truck'] as const

/** Whether the form that was refused stands under the week. */
export const hasFormOf = (refused: RefusedForm, desk: DeskWeek): boolean =>
  OF_ALL.has(refused.sent.kind) ||
  [...desk.farm.outfits, ...goneOutfit({ refused, desk })].some(({ id }) =>
    OF_AN_OUTFIT.some((kind) => refusedOf({ refused }, kind, id) !== undefined),
  )

function outfitForms({ id, name, crewHours, daysOff, carts, trucks }: Outfit, shown: FormsShown): Markup {
  const { manner, words } = shown
  const { plan } = words
  const own = html`<input type="hidden" name="outfit" value="${id}">`
  const { startMinute, endMinute } = crewHours
  const [hours, off] = (['hours', 'days-off'] as const).map((kind) => typedIn(refusedOf(shown, kind, id)))
  const isOpen = OF_AN_OUTFIT.some((kind) => refusedOf(shown, kind, id))
  const oneMore = (kind: string, label: string) =>
    html`<form class="line" method="post" action="/week/try" data-swap>${typedIn(refusedOf(shown, kind, id)).whole()}<input type="hidden" name="kind" value="${kind}">${own}<button class="quiet-button">${label}</button></form>`
  return html`<details${isOpen ? html` open` : ''}><summary>${plan.crewTitle}: ${name}</summary>
<form class="line" method="post" action="/week/try" data-swap>${hours!.whole()}<input type="hidden" name="kind" value="hours">${own}${timeInput('start', plan.starts, startMinute, hours!)}${timeInput('end', plan.ends, endMinute, hours!)}<button>${plan.tryIt}</button></form>
<form class="line" method="post" action="/week/try" data-swap>${off!.whole()}<input type="hidden" name="kind" value="days-off">${own}${dayTicks(daysOff, plan.daysOff, manner, off!)}<button>${plan.tryIt}</button></form>
${carts.length > 0 ? oneMore('add-cart', plan.oneCart) : ''}${trucks.length > 0 ? oneMore('add-truck', plan.oneTruck) : ''}
</details>`
}
