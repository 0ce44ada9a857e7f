/** When the morning message is due, late, and past use. All by instants, so that no clock change doubles or drops it. */
import type { Farm } from '#core/farm/farm.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { epochHoursOf } from '#core/units/time.ts'

/** A message that could not be posted before this is late, and says so [h]. */
const LATE_AFTER_H = 0.5
/** On a day without a run the message serves until noon. */
const NOON = Temporal.PlainTime.from('12:00')
const SHORTEST_SPAN_H = 1
const MINUTES_PER_HOUR = 60

export interface MorningHours {
  readonly dueEpochH: number
  readonly lateEpochH: number
  /** The day's last run has ended: nothing it says can still be done. */
  readonly closesEpochH: number
}

/** A due time that the clock jumps over falls just after the jump; one that comes twice is its first coming. */
export function morningHours(farm: Farm, date: Temporal.PlainDate, plan: DayPlan | undefined): MorningHours {
  const { minute } = farm.morning
  const at = (plainTime: Temporal.PlainTime) =>
    epochHoursOf(date.toZonedDateTime({ timeZone: farm.timeZone, plainTime }).toInstant())
  const dueEpochH = at(new Temporal.PlainTime(Math.floor(minute / MINUTES_PER_HOUR), minute % MINUTES_PER_HOUR))
  const lastRun = Math.max(Number.NEGATIVE_INFINITY, ...(plan?.runs.map((run) => run.endEpochH) ?? []))
  return {
    dueEpochH,
    lateEpochH: dueEpochH + LATE_AFTER_H,
    closesEpochH: Math.max(at(NOON), dueEpochH + SHORTEST_SPAN_H, lastRun),
  }
}
