/** When to ask a source again: not before it has news, later after each failure, and not all at the same minute. */
import { SourceRefused } from './failures.ts'

/** Sooner than this nothing is asked twice [h]. */
const SOONEST_H = 0.5
/** Without a word from the source [h]. */
const USUAL_H = 1
/** Longest wait that a source's own expiry is given [h]. */
const LONGEST_EXPIRY_H = 6
/** First wait after a failure, doubled each time up to the longest [h]. */
const FIRST_RETRY_H = 0.1
const LONGEST_RETRY_H = 1
/** Asking is spread over this, so that many cells do not ask at once [h]. */
const JITTER_H = 1 / 6

export interface AskTimes {
  isDue(key: string, nowEpochH: number): boolean
  succeeded(key: string, nowEpochH: number, expiresAtEpochH: number | undefined): void
  failed(key: string, nowEpochH: number, failure: unknown): void
}

/** @param random 0-1. */
export function askTimes(random: () => number): AskTimes {
  const next = new Map<string, { readonly atEpochH: number; readonly failures: number }>()
  return {
    // A clock set back would otherwise keep a source shut until the old time comes round again.
    isDue: (key, nowEpochH) => {
      const at = next.get(key)?.atEpochH ?? Number.NEGATIVE_INFINITY
      return nowEpochH >= at || at > nowEpochH + LONGEST_EXPIRY_H + JITTER_H
    },
    succeeded(key, nowEpochH, expiresAtEpochH) {
      const said =
        expiresAtEpochH === undefined || Number.isNaN(expiresAtEpochH) ? nowEpochH + USUAL_H : expiresAtEpochH
      const atEpochH =
        Math.min(nowEpochH + LONGEST_EXPIRY_H, Math.max(nowEpochH + SOONEST_H, said)) + JITTER_H * random()
      next.set(key, { atEpochH, failures: 0 })
    },
    failed(key, nowEpochH, failure) {
      const failures = (next.get(key)?.failures ?? 0) + 1
      const own = Math.min(LONGEST_RETRY_H, FIRST_RETRY_H * 2 ** (failures - 1)) * (0.75 + 0.5 * random())
      const told = failure instanceof SourceRefused ? (failure.retryAfterS ?? 0) / 3600 : 0
      next.set(key, { atEpochH: nowEpochH + Math.max(own, Math.min(told, LONGEST_EXPIRY_H)), failures })
    },
  }
}
