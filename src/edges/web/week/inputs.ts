/** Inputs that several forms of the week have. */
import { html } from 'hono/html'
import type { Manner } from '#core/messages/words/format.ts'
import { clockOf } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'
import type { Typed } from '#edges/web/refused-form.ts'
import { weekdayText } from './say-change.ts'

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7]
/** The end of the day is its last minute in an input of time. */
const LAST_MINUTE = 24 * 60 - 1

export const timeInput = (name: string, label: string, minute: number, { asked, marks, text }: Typed): Markup =>
  asked(
    name,
    html`<label>${label}<input type="time" name="${name}" value="${text(name, clockOf(Math.min(minute, LAST_MINUTE)))}" required${marks(name)}></label>`,
  )

/** @param known values that are ticked until something was typed. */
export const ticks = (
  name: string,
  legend: string,
  choices: readonly (readonly [value: string, text: string])[],
  known: readonly string[],
  { all, asked, marks }: Typed,
): Markup => {
  const ticked = all(name, known)
  return asked(
    name,
    html`<fieldset><legend>${legend}</legend>${offered(choices, ticked).map(
      ([value, text], index) =>
        html`<label class="tick"><input type="checkbox" name="${name}" value="${value}"${ticked.includes(value) ? html` checked` : ''}${marks(name, index === 0)}>${text}</label>`,
    )}</fieldset>`,
  )
}

/** @param daysOff ISO weekdays that are ticked. */
export const dayTicks = (daysOff: readonly number[], legend: string, manner: Manner, typed: Typed): Markup =>
  ticks(
    'daysOff',
    legend,
    WEEKDAYS.map((day) => [String(day), weekdayText(day, manner)]),
    daysOff.map(String),
    typed,
  )

/** What was chosen stays, even where it is no choice any more. */
const offered = (
  choices: readonly (readonly [value: string, text: string])[],
  chosen: readonly string[],
  nameOf: (gone: string) => string = (gone) => gone,
) => [
  ...choices,
  ...chosen
    .filter((one) => one !== '' && choices.every(([value]) => value !== one))
    .map((one) => [one, nameOf(one)] as const),
]

/** @param known value that is chosen until something was typed. @param nameOf names what is no choice any more. */
export const select = (
  name: string,
  label: string,
  choices: readonly (readonly [value: string, text: string])[],
  known: string | undefined,
  { text, asked, marks }: Typed,
  nameOf?: (gone: string) => string,
): Markup => {
  const chosen = text(name, known ?? '')
  return asked(
    name,
    html`<label>${label}<select name="${name}"${marks(name)}>${options(offered(choices, [chosen], nameOf), chosen)}</select></label>`,
  )
}

const options = (choices: readonly (readonly [value: string, text: string])[], chosen: string): Markup[] =>
  choices.map(([value, text]) =>
    value === chosen
      ? html`<option value="${value}" selected>${text}</option>`
      : html`<option value="${value}">${text}</option>`,
  )
