/** What a morning message is composed from. */
import type { Farm } from '#core/operation/farm.ts'
import type { FireOutlook } from '#core/outlook/day-fire.ts'
import type { DewTimes, RainAhead } from '#core/outlook/day-weather.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { Choice } from '#core/planning/optimiser/explain.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import type { Weather } from '#core/units/weather.ts'
import type { SaidAgreement, SaidChange, SaidOfficials, SaidPoorRecord } from './morning.ts'

export interface ComposeInput {
  readonly farm: Farm
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  readonly plan: DayPlan
  readonly outlooks: readonly Outlook[]
  readonly weather: Weather
  readonly dew: DewTimes
  readonly rain: RainAhead
  readonly fire: FireOutlook
  /** Why each visit of the plan was chosen; nothing where it was not weighed. */
  readonly choices?: readonly Choice[]
  readonly changes: readonly SaidChange[]
  /** Whether any reading has been taken in the part run first. */
  readonly measured: boolean
  /** Absent unless the forecasts of late were poor. */
  readonly poorRecord?: SaidPoorRecord | undefined
  /** Official warnings of the day; none unless told. */
  readonly official?: SaidOfficials
  /** What was seen up to now, to credit its supplier. */
  readonly past?: Weather
  readonly agreement?: SaidAgreement | undefined
}

/** Where nobody was asked for warnings. */
export const NOTHING_OFFICIAL: SaidOfficials = { quoted: [], unread: false }
