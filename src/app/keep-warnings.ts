/**
 * Reads official warnings of each place, keeps what was read, and holds on to what is in force while a source is silent or
 * this service was down.
 */
import type { Ask } from './ask-source.ts'
import { askTimes, type Pace } from './ask-times.ts'
import type { Warning, WarningSource } from './ports.ts'
import { inForce, type WarningWatch } from './warnings.ts'
import { cellOf } from './weather-cell.ts'
import type { WeatherStore } from './weather-store.ts'

/** Every few minutes, for a warning may come at any time; the source's own cache times hold below that. */
const PACE: Pace = {
  soonestH: 0.05,
  usualH: 0.1,
  longestExpiryH: 0.1,
  firstRetryH: 0.05,
  longestRetryH: 0.25,
  jitterH: 0.02,
}

export interface WarningKeeperParts {
  readonly sources: readonly WarningSource[]
  readonly store: Pick<WeatherStore, 'keepWarnings' | 'keptWarnings'>
  readonly ask: Ask
  readonly random: () => number
}

export function keepWarnings({ sources, store, ask, random }: WarningKeeperParts): WarningWatch {
  const times = askTimes(random, PACE)
  /** Why the newest asking failed, by source and place. */
  const failing = new Map<string, string>()
  return async ({ places, nowEpochH, signal }) => {
    const kept = new Map<string, Warning>()
    const failures = new Set<string>()
    for (const source of sources) {
      await Promise.all(
        places.map(async (place) => {
          const cell = cellOf(place)
          const key = `${cell}/${source.id}/warnings`
          if (!times.isDue(key, nowEpochH)) return
          const answer = await ask(
            { source, kind: 'warnings', key, times, nowEpochH },
            () => source.fetch({ place, nowEpochH, ...(signal && { signal }) }),
            // A list of what is in force is as of the asking.
            () => ({ issuedAtEpochH: nowEpochH }),
          )
          if ('failure' in answer) return void failing.set(key, answer.failure.message)
          failing.delete(key)
          await store.keepWarnings(cell, { sourceId: source.id, readAtEpochH: nowEpochH, warnings: answer.found })
        }),
      )
    }
    const known = new Set(sources.map(({ id }) => id))
    for (const cell of new Set(places.map(cellOf))) {
      for (const { sourceId, warnings } of await store.keptWarnings(cell)) {
        if (known.has(sourceId)) for (const warning of warnings) kept.set(warning.id, warning)
      }
      for (const { id } of sources) {
        const failure = failing.get(`${cell}/${id}/warnings`)
        if (failure !== undefined) failures.add(failure)
      }
    }
    return { warnings: inForce([...kept.values()], nowEpochH), failures: [...failures] }
  }
}
