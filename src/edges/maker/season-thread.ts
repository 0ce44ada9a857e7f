/** The weeks beyond the forecast reckoned in another thread. */

import type { SeasonAhead, SeasonDay, SeasonReckoner } from '#app/season-ahead.ts'
import { emptySeries } from '#core/science/engine/courses.ts'
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
    // The way each particle came is not needed to go on from where it is.
    const bare = states.map((state) => ({ ...state, past: emptySeries(0, 0) }))
    const order: SeasonOrder = { day: { farm, past, ahead, states: bare }, years }
    return await thread.ask<SeasonAhead | undefined>(SEASON, order)
  }
