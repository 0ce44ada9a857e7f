/** The days that the page of the week draws, and the hours of each in which somebody works. */
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf, hoursOfLocalDay } from '#core/units/time.ts'

export const DAYS_DRAWN = 7
/** Where no outfit is named [h]. */
const USUAL_HOURS = { from: 7, to: 21 }

export interface WorkDay {
  readonly date: Temporal.PlainDate
  /** Whole hours since the epoch. */
  readonly fromEpochH: number
  readonly toEpochH: number
}

/** The hours of each day in which an outfit works, days off included: their ribbons say why they are held back. */
export function workDays(farm: Farm, first: Temporal.PlainDate): WorkDay[] {
  const starts = farm.outfits.map(({ crewHours }) => Math.floor(crewHours.startMinute / 60))
  const ends = farm.outfits.map(({ crewHours }) => Math.ceil(crewHours.endMinute / 60))
  const from = starts.length > 0 ? Math.min(...starts) : USUAL_HOURS.from
  const to = ends.length > 0 ? Math.max(...ends) : USUAL_HOURS.to
  return Array.from({ length: DAYS_DRAWN }, (_, n) => {
    const date = first.add({ days: n })
    const { endEpochH } = hoursOfLocalDay(date, farm.timeZone)
    const start = date.toZonedDateTime({ timeZone: farm.timeZone, plainTime: new Temporal.PlainTime(from) })
    const fromEpochH = Math.ceil(epochHoursOf(start.toInstant()))
    return { date, fromEpochH, toEpochH: Math.min(endEpochH, fromEpochH + to - from) }
  })
}
