/**
 * One circuit per channel: after some failures of the whole channel nothing is tried for a while, then one parcel
 * tries the way; if it gets through, all follow. Pure: a state goes in, a state comes out.
 */
export interface Circuit {
  /** Failures of the whole channel, one after another. */
  readonly failures: number
  /** Nothing but urgent parcels before this, hours since the epoch; -Infinity = closed, all may pass. */
  readonly openUntilEpochH: number
}

export const CLOSED: Circuit = { failures: 0, openUntilEpochH: Number.NEGATIVE_INFINITY }

const OPENS_AFTER = 3
/** First pause, doubled with each further failure up to the longest [h]. */
const FIRST_PAUSE_H = 1 / 60
const LONGEST_PAUSE_H = 0.25

export type Passage = 'all' | 'one' | 'urgent'

/** What may pass now: everything, one parcel to try the way, or urgent ones only. */
export function passage(circuit: Circuit, nowEpochH: number): Passage {
  if (circuit.failures < OPENS_AFTER) return 'all'
  return isOpen(circuit, nowEpochH) ? 'urgent' : 'one'
}

/** Whether nothing but urgent parcels is tried. */
export function isOpen({ openUntilEpochH }: Circuit, nowEpochH: number): boolean {
  // A clock set back must not keep a circuit open for longer than its longest pause.
  const waits = openUntilEpochH - nowEpochH
  return waits > 0 && waits <= LONGEST_PAUSE_H
}

export const afterSuccess = (): Circuit => CLOSED

export function afterFailure(circuit: Circuit, nowEpochH: number): Circuit {
  const failures = circuit.failures + 1
  if (failures < OPENS_AFTER) return { failures, openUntilEpochH: circuit.openUntilEpochH }
  const pause = Math.min(LONGEST_PAUSE_H, FIRST_PAUSE_H * 2 ** (failures - OPENS_AFTER))
  return { failures, openUntilEpochH: nowEpochH + pause }
}
