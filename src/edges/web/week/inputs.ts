/** Inputs that several forms of the week have. */
import { html } from 'hono/html'
import type { Manner } from '#core/messages/words/format.ts'
import { clockOf } from '#edges/web/api/plan-changes.ts'
import { ticks } from '#edges/web/choices.ts'
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

/** @param daysOff ISO weekdays that are ticked. */
export const dayTicks = (daysOff: readonly number[], legend: string, manner: Manner, typed: Typed): Markup =>
  ticks(
    'daysOff',
    legend,
    WEEKDAYS.map((day) => [String(day), weekdayText(day, manner)]),
    daysOff.map(String),
    typed,
  )
