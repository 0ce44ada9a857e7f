/** A watch over sources of warnings, kept in memory. */
import { asker } from '#app/ask-source.ts'
import { gate } from '#app/gate.ts'
import { keepWarnings } from '#app/keep-warnings.ts'
import type { Warning, WarningSource } from '#app/ports.ts'
import type { WarningWatch } from '#app/warnings.ts'
import type { KeptWarnings, SourceCall } from '#app/weather-store.ts'

export interface WatchStore {
  readonly calls: SourceCall[]
  readonly noteCall: (call: SourceCall) => Promise<void>
  readonly keepWarnings: (cell: string, kept: KeptWarnings) => Promise<void>
  readonly keptWarnings: (cell: string) => Promise<readonly KeptWarnings[]>
}

export function watchStore(): WatchStore {
  const kept = new Map<string, Map<string, KeptWarnings>>()
  const calls: SourceCall[] = []
  return {
    calls,
    noteCall: async (call) => void calls.push(call),
    keepWarnings: async (cell, one) => {
      const own = kept.get(cell) ?? new Map<string, KeptWarnings>()
      kept.set(cell, own.set(one.sourceId, one))
    },
    keptWarnings: async (cell) => [...(kept.get(cell)?.values() ?? [])],
  }
}

export function watchOver(sources: readonly WarningSource[], store: WatchStore = watchStore()): WarningWatch {
  const ask = asker({ store, connections: gate(4), log: () => undefined })
  return keepWarnings({ sources, store, ask, random: () => 0.5 })
}

export const warningSource = (fetch: () => Promise<readonly Warning[]>, id = 's'): WarningSource => ({
  id,
  name: id.toUpperCase(),
  attribution: '',
  licence: '',
  fetch,
})

type Times = Pick<Warning, 'sentAtEpochH' | 'effectiveAtEpochH' | 'expiresAtEpochH'>

/** A warning of fire weather as the US National Weather Service gives them. */
export const testWarning = (more: Partial<Warning> & Times): Warning => ({
  id: 'one',
  sender: '',
  senderName: 'NWS Omaha/Valley NE',
  status: 'Actual',
  messageType: 'Alert',
  replaces: [],
  event: 'Red Flag Warning',
  category: 'Met',
  severity: 'Severe',
  certainty: 'Likely',
  urgency: 'Expected',
  areaDesc: 'Saunders',
  ...more,
})
