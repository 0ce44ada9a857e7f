/** Small pieces of the farm file used by several sections: names, dates, times of day, weekdays, crops. */

import { z } from 'zod'
import { CROPS } from '#core/science/crop.ts'

export const name = (meaning: string) =>
  z.string().trim().min(1).max(60).describe(`${meaning} Text of 1 to 60 characters, unlike any other in this list.`)

export const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(60)
  .optional()
  .describe(
    'Short name used inside the program and in addresses: small letters, digits and single hyphens. ' +
      'Left out, it is made from the name. Do not change it once in use.',
  )

export const crop = z.enum(CROPS).describe(`The crop: ${CROPS.join(', ')}.`)

/** @returns the date, or nothing if the text is not one of the ISO calendar. */
export function dateFrom(text: string): Temporal.PlainDate | undefined {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined
  try {
    return Temporal.PlainDate.from(text, { overflow: 'reject' })
  } catch {
    return undefined
  }
}

export const date = (meaning: string) =>
  z
    .string()
    .refine((text) => dateFrom(text) !== undefined, 'is not a date of the calendar')
    .meta({ description: `${meaning} A date as year-month-day, such as 2010-05-02.`, format: 'date' })

export const timeOfDay = (meaning: string) =>
  z
    .string()
    .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/)
    .describe(`${meaning} A time of day as hour:minute, two digits each, such as 07:30, at most 24:00.`)

/** @returns minutes after midnight of a time already known to be valid. */
export function minuteOf(time: string): number {
  const [hour = Number.NaN, minute = Number.NaN] = time.split(':').map(Number)
  return hour * 60 + minute
}

/** Hours within one civil day. */
export const dayHours = (meaning: string) =>
  z
    .strictObject({
      from: timeOfDay('First moment.'),
      to: timeOfDay('Last moment, later than `from` on the same day.'),
    })
    .refine((hours) => !(minuteOf(hours.from) >= minuteOf(hours.to)), {
      error: 'ends before it begins',
      params: { cure: 'Put the earlier time in `from` and the later in `to`; midnight at the end is 24:00.' },
    })
    .describe(meaning)

/** Hours that may run over midnight, such as 21:00 to 05:00. */
export const nightHours = (meaning: string) =>
  z
    .strictObject({ from: timeOfDay('First moment.'), to: timeOfDay('Last moment; may be past midnight.') })
    .describe(meaning)

const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const

export const weekdays = (meaning: string) =>
  z
    .array(z.enum(WEEKDAYS))
    .max(7)
    .default([])
    .describe(`${meaning} A list of ${WEEKDAYS.join(', ')}.`)

/** @returns ISO weekdays, 1 = Monday, in order and each once. */
export const isoWeekdays = (days: readonly (typeof WEEKDAYS)[number][]): number[] =>
  [...new Set(days.map((day) => WEEKDAYS.indexOf(day) + 1))].sort((a, b) => a - b)

export const weekdayNames = (days: readonly number[]): string[] => days.map((day) => WEEKDAYS[day - 1] ?? String(day))

export const moisture = (meaning: string) =>
  z.number().min(1).max(60).describe(`${meaning} Percent moisture, wet basis, 1 to 60.`)

export const count = z
  .int()
  .min(1)
  .max(50)
  .default(1)
  .describe('How many alike there are, 1 to 50. More than one are named with a number behind the name.')

/** @returns the id made from a name: letters without accents, everything else a hyphen. */
export const slug = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
