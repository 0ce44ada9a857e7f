/** What went wrong with a source, apart from the words for it: so that it can be said in any language, long after. */
import type { SourceFailure } from './failures.ts'

/** Why there was no answer. */
export type Silence =
  /** So long was waited in vain [s]. */
  | { readonly why: 'slow' | 'no-connection' | 'no-start' | 'stopped'; readonly afterS: number }
  | { readonly why: 'no-name' | 'left' }

export type FaultFacts =
  | { readonly kind: 'unreachable'; readonly silence?: Silence | undefined }
  | { readonly kind: 'refused'; readonly status: number; readonly said: string }
  | { readonly kind: 'unreadable'; readonly why?: 'no-station' | 'sent-on' | 'issued-when' | undefined }
  | { readonly kind: 'unit-unknown'; readonly variable: string; readonly unit: string }
  | { readonly kind: 'too-old'; readonly ageH: number; readonly limitH: number }
  /** @see SourceTooThin */
  | { readonly kind: 'too-thin'; readonly variable: string; readonly knownShare: number }

export interface SourceFault {
  /** Name of the supplier as shown to people. */
  readonly source: string
  readonly where: string
  readonly facts: FaultFacts
}

/** A failure as it is kept with the call that met it. */
export interface KeptFault {
  /** The whole sentence, in English. */
  readonly text: string
  /** Absent for one that an older version kept. */
  readonly fault?: SourceFault
}

export function keptFault({ message, source, where, facts }: SourceFailure): string {
  const kept: KeptFault = { text: message, fault: { source, where, facts } }
  return JSON.stringify(kept)
}

export function readFault(kept: string): KeptFault {
  // Older versions kept the sentence alone.
  return kept.startsWith('{') ? (JSON.parse(kept) as KeptFault) : { text: kept }
}
