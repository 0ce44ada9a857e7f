/** When to ask a source again: not before it has news, later after each failure, and not all at the same minute. */
import { SourceRefused } from './failures.ts'

export interface Pace {
  /** Sooner than this nothing is asked twice [h]. */
  readonly soonestH: number
  /** Without a word from the source [h]. */
  readonly usualH: number
  /** Longest wait that a source's own expiry is given [h]. */
  readonly longestExpiryH: number
  /** First wait after a failure, doubled each time up to the longest [h]. */
  readonly firstRetryH: number
  readonly longestRetryH: number
  /** Asking is spread over this, so that many cells do not ask at once [h]. */
  readonly jitterH: number
}

/** Of forecasts and station reports. */
const USUAL_PACE: Pace = {
  soonestH: 0.5,
  usualH: 1,
  longestExpiryH: 6,
  firstRetryH: 0.1,
  longestRetryH: 1,
  jitterH: 1 / 6,
}
/** A refusal that names its time is kept to, up to this [h]. */
const LONGEST_SILENCE_H = 6

export interface AskTimes {
  isDue(key: string, nowEpochH: number): boolean
  succeeded(key: string, nowEpochH: number, expiresAtEpochH: number | undefined): void
  failed(key: string, nowEpochH: number, failure: unknown): void
}

/** @param random 0-1. */
export function askTimes(random: () => number, pace: Pace = USUAL_PACE): AskTimes {
  const { soonestH, usualH, longestExpiryH, firstRetryH, longestRetryH, jitterH } = pace
  const longestWaitH = Math.max(longestExpiryH, longestRetryH * 1.25, LONGEST_SILENCE_H) + jitterH
  const next = new Map<string, { readonly atEpochH: number; readonly failures: number }>()
  return {
    // A clock set back would otherwise keep a source shut until the old time comes round again.
    isDue: (key, nowEpochH) => {
      const at = next.get(key)?.atEpochH ?? Number.NEGATIVE_INFINITY
      return nowEpochH >= at || at > nowEpochH + longestWaitH
    },
    succeeded(key, nowEpochH, expiresAtEpochH) {
      const said = expiresAtEpochH === undefined || Number.isNaN(expiresAtEpochH) ? nowEpochH + usualH : expiresAtEpochH
      const atEpochH = Math.min(nowEpochH + longestExpiryH, Math.max(nowEpochH + soonestH, said)) + jitterH * random()
      next.set(key, { atEpochH, failures: 0 })
    },
    failed(key, nowEpochH, failure) {
      const failures = (next.get(key)?.failures ?? 0) + 1
      const own = Math.min(longestRetryH, firstRetryH * 2 ** (failures - 1)) * (0.75 + 0.5 * random())
      const told = failure instanceof SourceRefused ? (failure.retryAfterS ?? 0) / 3600 : 0
      next.set(key, { atEpochH: nowEpochH + Math.max(own, Math.min(told, LONGEST_SILENCE_H)), failures })
    },
  }
}
