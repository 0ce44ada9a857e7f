/** What every message begins with: whose it is, of which day, and in whose manner. */
import type { Farm, Language, UnitSystem } from '#core/operation/farm.ts'

export interface Opening {
  readonly farmName: string
  /** The day it is about. */
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  readonly timeZone: string
  readonly units: UnitSystem
  readonly language: Language
}

export const openingOf = (farm: Farm, date: Temporal.PlainDate, nowEpochH: number): Opening => ({
  farmName: farm.name,
  date,
  nowEpochH,
  timeZone: farm.timeZone,
  units: farm.units,
  language: farm.language,
})
