/** Dates and times gone by, short enough for a row of a table. */
import { raw } from 'hono/html'
import type { Manner } from '#core/messages/words/format.ts'
import { zonedAt } from '#core/units/time.ts'

export const localeOf = ({ language }: Pick<Manner, 'language'>): string => (language === 'es' ? 'es-US' : 'en-US')

/** `Sep 29` */
export const shortDate = (date: Temporal.PlainDate, manner: Pick<Manner, 'language'>): string =>
  date.toLocaleString(localeOf(manner), { month: 'short', day: 'numeric' })

/** `Wed` */
export const shortDay = (date: Temporal.PlainDate, manner: Manner): string =>
  date.toLocaleString(localeOf(manner), { weekday: 'short' })

/** `Sep 29 14:05`, to the minute, as a record has it. */
export function shortWhen(epochH: number, manner: Pick<Manner, 'language' | 'timeZone'>): string {
  const at = zonedAt(epochH, manner.timeZone)
  return `${shortDate(at.toPlainDate(), manner)} ${at.hour}:${String(at.minute).padStart(2, '0')}`
}

/** The same for a page, with what a program makes of it (HTML, `time`). */
export const timeMark = (epochH: number, manner: Pick<Manner, 'language' | 'timeZone'>) =>
  mark(
    zonedAt(epochH, manner.timeZone).toString({ smallestUnit: 'minute', timeZoneName: 'never' }),
    shortWhen(epochH, manner),
  )

export const dateMark = (date: Temporal.PlainDate, manner: Pick<Manner, 'language'>) =>
  mark(date.toString(), shortDate(date, manner))

const mark = (datetime: string, text: string) => raw(`<time datetime="${datetime}">${text}</time>`)
