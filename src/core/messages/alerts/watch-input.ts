/** What alerts look at. */

import type { MorningMessage } from '#core/messages/morning.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { FireOutlook } from '#core/outlook/day-fire.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import type { Weather } from '#core/units/weather.ts'
import type { ToldDay, ToldRun } from './told.ts'

export interface WatchInput {
  readonly farm: Farm
  readonly nowEpochH: number
  readonly date: Temporal.PlainDate
  /** The newest day; undefined while there is no usable weather. */
  readonly day: WatchedDay | undefined
  /** What the crew was told today; undefined before the morning message. */
  readonly told: ToldDay | undefined
  /** Age of the newest weather [h]; Infinity when there is none. */
  readonly weatherAgeH: number
  readonly meters: readonly WatchedMeter[]
  /** Undefined while it is not known what is in force. */
  readonly warnings: readonly WatchedWarning[] | undefined
}

export interface WatchedDay {
  readonly outlooks: readonly Outlook[]
  readonly plan: DayPlan
  readonly ahead: Weather
  readonly fire: FireOutlook
  readonly message: MorningMessage
}

/** A reading held against what was expected of its part. */
export interface WatchedMeter {
  /** The same for one reading for ever. */
  readonly id: string
  readonly partName: string
  readonly readWb: number
  readonly expectedWb: number
  /** Chance that the reading is wild, 0-1. */
  readonly wildChance: number
}

/** A warning in force that bears on fire or work in the open. */
export interface WatchedWarning {
  /** The same for every renewal of one warning. */
  readonly event: string
  readonly headline: string
  readonly issuer: string
  /** When the event itself is expected. */
  readonly fromEpochH: number
  readonly untilEpochH: number
}

/** A look at the day while it is worked. */
export interface Look extends WatchInput {
  readonly day: WatchedDay
  readonly told: ToldDay
  /** Index of the current hour in `day`'s arrays. */
  readonly hour: number
  /** Runs as told that are not over. */
  readonly runsLeft: readonly ToldRun[]
}

/** Runs that are under way or start within `leadH`. */
export const underWay = (look: Look, leadH: number): readonly ToldRun[] =>
  look.runsLeft.filter(({ startEpochH }) => startEpochH - leadH <= look.nowEpochH)

export const outlookOf = (look: Look, run: ToldRun): Outlook | undefined =>
  look.day.outlooks.find(({ part }) => part.key === run.partKey)

/** Start of the next window that is not under way; NaN when none is in sight. */
export const nextWindow = (outlook: Outlook | undefined, nowEpochH: number): number =>
  outlook?.windows.find(({ startEpochH }) => startEpochH > nowEpochH)?.startEpochH ?? Number.NaN
