/** One question to a source: through the gate, timed, noted; a failure of the world is told, never thrown. */
import type { AskTimes } from './ask-times.ts'
import { SourceFailure } from './failures.ts'
import type { gate } from './gate.ts'
import type { Log } from './log.ts'
import { keptFault } from './source-fault.ts'
import type { CallKind, WeatherStore } from './weather-store.ts'

export interface AskedSource {
  readonly source: { readonly id: string }
  readonly kind: CallKind
  /** Under which the times of asking are kept. */
  readonly key: string
  readonly times: AskTimes
  readonly nowEpochH: number
}

/** What the source said of its answer's age. */
export interface AnswerTimes {
  readonly expiresAtEpochH?: number | undefined
  readonly issuedAtEpochH: number
}

export interface AskParts {
  readonly store: Pick<WeatherStore, 'noteCall'>
  readonly connections: ReturnType<typeof gate>
  readonly log: Log
}

export type Ask = <T>(
  asked: AskedSource,
  work: () => Promise<T>,
  timesOf: (found: T) => AnswerTimes,
) => Promise<{ readonly found: T } | { readonly failure: SourceFailure }>

export function asker({ store, connections, log }: AskParts): Ask {
  return async ({ source, kind, key, times, nowEpochH }, work, timesOf) => {
    try {
      const found = await connections.through(work)
      const { expiresAtEpochH, issuedAtEpochH } = timesOf(found)
      times.succeeded(key, nowEpochH, expiresAtEpochH)
      await store.noteCall({ sourceId: source.id, kind, atEpochH: nowEpochH, issuedAtEpochH })
      return { found }
    } catch (failure) {
      if (!(failure instanceof SourceFailure)) throw failure
      times.failed(key, nowEpochH, failure)
      await store.noteCall({ sourceId: source.id, kind, atEpochH: nowEpochH, failure: keptFault(failure) })
      log(failure.message, { event: 'source-failed', level: 'warn', source: source.id, asked: kind })
      return { failure }
    }
  }
}
