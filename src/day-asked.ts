/** The day that a command asks for, made from the newest weather and what was told, and planned as the service plans it. */

import { dayPlanner } from '#app/day-planner.ts'
import { decidedBy } from '#app/kept-plans.ts'
import { type DayMade, dayBefore, dayFromSources } from '#app/morning.ts'
import { leftOver, type SeasonAhead, seasonOf } from '#app/season-ahead.ts'
import { NOTHING_TOLD, type Told, toldInBook } from '#app/told.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Plannable } from '#core/planning/optimiser/changes.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Environment } from '#edges/config/environment.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { hasDatabase, openBook, weatherStoreIn } from './book.ts'
import { suppliersOf } from './suppliers.ts'

export interface DayAsked {
  readonly farm: Farm
  readonly made: DayMade
  /** The weeks beyond the forecast; absent where they were not asked for or no past year is known. */
  readonly season: SeasonAhead | undefined
}

export interface Asked {
  /** Hours since the epoch; the clock's or the demo's own unless told. */
  readonly now?: number | undefined
  /** Whether it is told what changed since yesterday. */
  readonly withYesterday: boolean
  /** Whether it is looked beyond the forecast. */
  readonly withSeason: boolean
}

const log = (line: string): void => void process.stderr.write(`${line}\n`)

/** No clock bounds the solver: the same inputs print the same bytes. */
export async function dayAsked(file: Farm, environment: Environment, asked: Asked): Promise<DayAsked> {
  const solver = createHighsSolver({ soon: true })
  const { suppliers, startEpochH, replayable } = await suppliersOf(file, environment)
  const now = asked.now ?? startEpochH ?? epochHoursOf(Temporal.Now.instant())
  const { farm, rules, told } = await known(file, environment, now)
  const planner = dayPlanner(solver, log)
  // Recorded weather can be asked for yesterday as well; a live service can't.
  const memory = replayable && asked.withYesterday ? dayBefore(farm, suppliers, now, told) : undefined
  const store = replayable ? undefined : await weatherStoreIn(environment)
  try {
    const sources = store ? keepWeather({ suppliers, store, random: Math.random, log }).suppliers : suppliers
    const made = await dayFromSources(farm, sources, now, memory, undefined, told, { planner, rules })
    for (const failure of made.failures) log(failure)
    const { day } = made
    const season = asked.withSeason && day ? await seasonOf(day, sources.earlierYears, leftOver(day)) : undefined
    return { farm, made, season }
  } finally {
    await store?.close()
    await solver.close()
  }
}

/** What was told and decided; a farm of which nothing was ever told needs no database. */
async function known(file: Farm, environment: Environment, nowEpochH: number): Promise<Plannable & { told: Told }> {
  if (!hasDatabase(environment)) return { farm: file, rules: NO_RULES, told: NOTHING_TOLD }
  const book = await openBook(file, environment, log)
  try {
    const { farm, told } = await toldInBook(file, book.store, book.nowEpochH, book.forecasts)
    return { ...(await decidedBy(farm, nowEpochH, await book.plans.last(farm.id), book.store)), told }
  } finally {
    await book.close()
  }
}
