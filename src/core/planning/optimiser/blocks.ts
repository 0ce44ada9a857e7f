/** The days ahead cut into blocks: shifts of a day at first, whole days later. */
import type { Outfit } from '#core/operation/farm.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { Block } from './problem.ts'

/** Ends of the shifts, local hours: about when dew is off everywhere, and when the dry of the afternoon ends. */
const SHIFT_ENDS = [12, 16] as const
const DAYS_IN_SHIFTS = 3

/** @param endEpochH nothing is known beyond. */
export function blocksFrom(
  date: Temporal.PlainDate,
  days: number,
  timeZone: string,
  nowEpochH: number,
  endEpochH: number,
): Block[] {
  const blocks: Block[] = []
  for (let day = 0; day < days; day++) {
    const hours = day < DAYS_IN_SHIFTS ? [0, ...SHIFT_ENDS] : [0]
    const edges = [
      ...hours.map((hour) => epochHoursAtMinute(date.add({ days: day }), hour * 60, timeZone)),
      epochHoursAtMinute(date.add({ days: day + 1 }), 0, timeZone),
    ]
    for (let k = 0; k + 1 < edges.length; k++) {
      const start = Math.max(edges[k]!, nowEpochH)
      const end = Math.min(edges[k + 1]!, endEpochH)
      if (end > start) blocks.push({ day, startEpochH: start, endEpochH: end })
    }
  }
  return blocks
}

export interface Span {
  readonly from: number
  readonly to: number
}

/** When a crew is out on a date, hours since the epoch; nothing on its days off. */
export function crewSpan(outfit: Outfit, date: Temporal.PlainDate, timeZone: string): Span | undefined {
  if (outfit.daysOff.includes(date.dayOfWeek)) return undefined
  const { startMinute, endMinute } = outfit.crewHours
  return { from: epochHoursAtMinute(date, startMinute, timeZone), to: epochHoursAtMinute(date, endMinute, timeZone) }
}

export const overlapH = (a: Span, from: number, to: number): number =>
  Math.max(0, Math.min(a.to, to) - Math.max(a.from, from))
