/** The weeks beyond the forecast reckoned in another thread. */

import type { SeasonAhead, SeasonDay, SeasonReckoner } from '#app/season-ahead.ts'
import type { PartNow } from '#core/field/state.ts'
import type { Weather } from '#core/units/weather.ts'
import type { Thread } from './thread.ts'

export const SEASON = 'season'

export interface SeasonOrder {
  readonly day: SeasonDay
  readonly years: readonly Weather[]
}

export const seasonBy =
  (thread: Thread): SeasonReckoner =>
  async ({ farm, past, ahead, states }, years) => {
    // How each particle came there is not needed, and would be handed over, so lost here.
    const bare = states.map(
      ({ part, particles, moistureWb, depletionMm, standing }): PartNow => ({
        part,
        particles,
        moistureWb,
        depletionMm,
        standing,
      }),
    )
    const order: SeasonOrder = { day: { farm, past, ahead, states: bare }, years }
    return await thread.ask<SeasonAhead | undefined>(SEASON, order)
  }
