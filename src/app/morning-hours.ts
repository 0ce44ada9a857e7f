/** When the morning message is due, late, and past use. All by instants, so that no clock change doubles or drops it. */
import type { Farm } from '#core/operation/farm.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { epochHoursAtMinute, MINUTES_PER_HOUR } from '#core/units/time.ts'

/** A message that could not be posted before this is late, and says so [h]. */
const LATE_AFTER_H = 0.5
/** On a day without a run the message serves until noon [min after midnight]. */
const NOON_MINUTE = 12 * 60
const SHORTEST_SPAN_H = 1

export interface MorningHours {
  readonly dueEpochH: number
  readonly lateEpochH: number
  /** The day's last run has ended: nothing it says can still be done. */
  readonly closesEpochH: number
}

/** A due time that the clock jumps over falls just after the jump; one that comes twice is its first coming. */
export function morningHours(farm: Farm, date: Temporal.PlainDate, plan: DayPlan | undefined): MorningHours {
  const at = (minute: number) => epochHoursAtMinute(date, minute, farm.timeZone)
  const runs = plan?.runs ?? []
  const firstRun = Math.min(Number.POSITIVE_INFINITY, ...runs.map(({ startEpochH }) => startEpochH))
  const lastRun = Math.max(Number.NEGATIVE_INFINITY, ...runs.map(({ endEpochH }) => endEpochH))
  const { minute, beforeRun } = farm.morning
  const latest = at(minute)
  // Without a run in sight there is nothing to come before.
  const dueEpochH = beforeRun
    ? Math.min(latest, Math.max(at(beforeRun.earliestMinute), firstRun - beforeRun.leadMinutes / MINUTES_PER_HOUR))
    : latest
  return {
    dueEpochH,
    lateEpochH: dueEpochH + LATE_AFTER_H,
    closesEpochH: Math.max(at(NOON_MINUTE), dueEpochH + SHORTEST_SPAN_H, lastRun),
  }
}
