/** Inputs of a form with choices; what was chosen and refused stays chosen. */
import { html } from 'hono/html'
import type { Markup } from './layout.ts'
import type { Typed } from './refused-form.ts'

export type Choice = readonly [value: string, text: string]

/** @param known values that are ticked until something was typed. */
export const ticks = (
  name: string,
  legend: string,
  choices: readonly Choice[],
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

/** What was chosen stays, even where it is no choice any more. */
const offered = (
  choices: readonly Choice[],
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
  choices: readonly Choice[],
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

const options = (choices: readonly Choice[], chosen: string): Markup[] =>
  choices.map(([value, text]) =>
    value === chosen
      ? html`<option value="${value}" selected>${text}</option>`
      : html`<option value="${value}">${text}</option>`,
  )
