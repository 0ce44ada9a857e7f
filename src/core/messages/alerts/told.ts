/** What the crew was last told of the day: alerts say only what departs from it. */

import type { MorningMessage, SaidFire } from '#core/messages/morning.ts'
import { partName } from '#core/messages/names.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import type { Visibility } from '#core/science/dust/sight.ts'

export interface ToldDay {
  /** ISO 8601. */
  readonly date: string
  readonly runs: readonly ToldRun[]
  readonly fireLevel: SaidFire['level']
  readonly sight: Visibility | undefined
  /** Events of the official warnings quoted. */
  readonly warned: readonly string[]
}

export interface ToldRun {
  /** Absent in what was told by an earlier version. */
  readonly outfitId?: string
  readonly partKey: string
  readonly partName: string
  readonly startEpochH: number
  readonly endEpochH: number
}

export function toldDay(message: MorningMessage, plan: DayPlan | undefined): ToldDay {
  return {
    date: message.date.toString(),
    runs: (plan?.runs ?? []).map(({ part, outfitId, startEpochH, endEpochH }) => ({
      outfitId,
      partKey: part.key,
      partName: partName(part),
      startEpochH,
      endEpochH,
    })),
    fireLevel: message.fire.level,
    sight: message.dust?.rows?.sight,
    warned: message.official.quoted.map(({ event }) => event),
  }
}

/** The hours in which somebody of the farm works today, hours since the epoch; undefined on a day off for all. */
export function crewSpan(farm: Farm, date: Temporal.PlainDate): { startEpochH: number; endEpochH: number } | undefined {
  const working = farm.outfits.filter(({ daysOff }) => !daysOff.includes(date.dayOfWeek))
  if (working.length === 0) return undefined
  const midnight = date.toZonedDateTime(farm.timeZone)
  const at = (minutes: number) => midnight.toPlainDateTime().add({ minutes }).toZonedDateTime(farm.timeZone)
  const hours = (time: Temporal.ZonedDateTime) => time.epochMilliseconds / 3_600_000
  return {
    startEpochH: hours(at(Math.min(...working.map(({ crewHours }) => crewHours.startMinute)))),
    endEpochH: hours(at(Math.max(...working.map(({ crewHours }) => crewHours.endMinute)))),
  }
}
