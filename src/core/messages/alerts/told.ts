/** What the crew was last told of the day: alerts say only what departs from it. */

import type { MorningMessage, SaidFire } from '#core/messages/morning.ts'
import { partName } from '#core/messages/names.ts'
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
