/** What was decided of a field: what binds the plan, and everything that was said, by whom. */
import { html } from 'hono/html'
import type { ToldOfField } from '#app/told-of-field.ts'
import { area, longDate, type Manner } from '#core/messages/words/format.ts'
import type { Farm, Field } from '#core/operation/farm.ts'
import type { PlanChange } from '#core/planning/optimiser/changes.ts'
import type { Markup } from './layout.ts'
import { type NameOf, nameOfPart } from './names.ts'
import { shortWhen } from './when.ts'
import type { Words } from './words/words.ts'

export interface FieldTold extends ToldOfField {
  readonly nameOf: NameOf
}

export function decided(
  farm: Farm,
  field: Field,
  { decisions, nameOf }: FieldTold,
  manner: Manner,
  words: Words,
): Markup {
  const list = decisions.flatMap(({ atEpochH, by, body }) => {
    const said = sayDecision(body, manner, words)
    if (!said) return []
    const where = said.partKey === field.id ? '' : `${nameOfPart(said.partKey, farm)}: `
    const over = said.last && Temporal.PlainDate.compare(said.last, manner.today) < 0 ? ` (${words.field.over})` : ''
    return [html`<li>${where}${said.text}${over}<small>${nameOf(by)}, ${shortWhen(atEpochH, manner)}</small></li>`]
  })
  return html`<section aria-labelledby="decided"><h2 id="decided">${words.field.decisions}</h2>
${list.length > 0 ? html`<ul>${list}</ul>` : html`<p>${words.field.noDecisions}</p>`}
<p><a href="/week">${words.field.toWeek}</a></p></section>`
}

/** What binds the plan from today on, said where the window is told: a later word takes back an earlier one. */
export function inForce({ decisions }: ToldOfField, partKey: string, manner: Manner, words: Words): Markup | string {
  const over = new Set<PlanChange['kind']>()
  const said: string[] = []
  for (const { body } of decisions) {
    const decision = sayDecision(body, manner, words)
    if (decision?.partKey !== partKey || over.has(body.kind)) continue
    const past = decision.last && Temporal.PlainDate.compare(decision.last, manner.today) < 0
    if (body.kind === 'unpin' || body.kind === 'pin') over.add('pin')
    if (body.kind === 'allow') over.add('keep-off')
    if (body.kind === 'deadline') over.add('deadline')
    if (!past && body.kind !== 'unpin' && body.kind !== 'allow') said.push(decision.text)
  }
  return said.length === 0 ? '' : html`<p class="next">${words.field.decisions}: ${said.join('; ')}.</p>`
}

interface SaidDecision {
  readonly partKey: string
  readonly text: string
  /** After this day it is over; a deadline missed still presses. */
  readonly last?: Temporal.PlainDate
}

function sayDecision(change: PlanChange, manner: Manner, { field }: Words): SaidDecision | undefined {
  const day = (date: Temporal.PlainDate) => longDate(date, manner)
  switch (change.kind) {
    case 'pin': {
      const { partKey, date, areaHa } = change.pin
      const text = areaHa === undefined ? field.pin(day(date)) : field.pinArea(area(areaHa, manner), day(date))
      return { partKey, text, last: date }
    }
    case 'keep-off': {
      const { partKey, from, to } = change.keepOff
      return {
        partKey,
        text: from.equals(to) ? field.keepOffDay(day(from)) : field.keepOff(day(from), day(to)),
        last: to,
      }
    }
    case 'deadline':
      return { partKey: change.deadline.partKey, text: field.deadline(day(change.deadline.date)) }
    case 'unpin':
      return { partKey: change.partKey, text: field.unpin }
    case 'allow':
      return { partKey: change.partKey, text: field.allow }
    default:
      return undefined
  }
}
