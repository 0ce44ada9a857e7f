/** Inputs that several forms of the week have. */
import { html } from 'hono/html'
import type { Manner } from '#core/messages/words/format.ts'
import { clockOf } from '#edges/web/api/plan-changes.ts'
import type { Markup } from '#edges/web/layout.ts'
import { weekdayText } from './say-change.ts'

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7]
/** The end of the day is its last minute in an input of time. */
const LAST_MINUTE = 24 * 60 - 1

export const timeInput = (name: string, label: string, minute: number): Markup =>
  html`<label>${label}<input type="time" name="${name}" value="${clockOf(Math.min(minute, LAST_MINUTE))}" required></label>`

/** @param daysOff ISO weekdays that are ticked. */
export const dayTicks = (daysOff: readonly number[], legend: string, manner: Manner): Markup =>
  html`<fieldset><legend>${legend}</legend>${WEEKDAYS.map(
    (day) =>
      html`<label class="tick"><input type="checkbox" name="daysOff" value="${day}"${daysOff.includes(day) ? html` checked` : ''}>${weekdayText(day, manner)}</label>`,
  )}</fieldset>`

export const options = (choices: readonly (readonly [value: string, text: string])[], chosen?: string): Markup[] =>
  choices.map(([value, text]) =>
    value === chosen
      ? html`<option value="${value}" selected>${text}</option>`
      : html`<option value="${value}">${text}</option>`,
  )
