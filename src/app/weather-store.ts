/** What must survive a restart so that weather seen live is never fetched twice and the last good weather is at hand. */
import type { SourceSkill } from '#core/science/blend/skill.ts'
import type { SaidChances } from '#core/science/spread/chances.ts'
import type { Place, Weather } from '#core/units/weather.ts'
import type { Warning } from './ports.ts'

/** One forecast as a source gave it. */
export interface KeptRun {
  readonly sourceId: string
  readonly fetchedAtEpochH: number
  /** Asking again before this is pointless; NaN = the source did not say. */
  readonly expiresAtEpochH: number
  readonly weather: Weather
  readonly chances: SaidChances
}

/** `station`: measured. `analysis`: a forecast's own hours, kept as they passed. */
export type SeenLayer = 'station' | 'analysis'

export interface KeptSkill {
  readonly skill: SourceSkill
  /** Hours before this have been compared. */
  readonly learntUntilEpochH: number
}

/** A calendar year in UTC of the past of a cell, as one source gave it. It is kept for good. */
export interface KeptYear extends SettledYear {
  /** The whole year, unknown where the source had nothing. */
  readonly weather: Weather
}

export interface SettledYear {
  readonly sourceId: string
  readonly year: number
  /** Hours before this were asked for and are not asked for again. */
  readonly settledUntilEpochH: number
}

/** What a source of official warnings had for a cell when it was last read. */
export interface KeptWarnings {
  readonly sourceId: string
  readonly readAtEpochH: number
  readonly warnings: readonly Warning[]
}

export type CallKind = 'forecast' | 'observations' | 'warnings' | 'history'

/** One question to a source and how it went. */
export interface SourceCall {
  readonly sourceId: string
  readonly kind: CallKind
  readonly atEpochH: number
  /** Why it failed, as `keptFault` writes it; absent when it did not. */
  readonly failure?: string
  /** When what it gave was issued. */
  readonly issuedAtEpochH?: number
}

export interface SourceTally {
  readonly sourceId: string
  readonly kind: CallKind
  readonly calls: number
  readonly failed: number
  readonly lastAskedEpochH: number
  /** NaN = never within the span. */
  readonly lastGoodEpochH: number
  readonly lastIssuedEpochH: number
  readonly lastFailure: string | undefined
  readonly lastFailureEpochH: number
}

/** Everything older is dropped. */
export interface Retention {
  readonly runsBeforeEpochH: number
  readonly seenBeforeEpochH: number
  readonly callsBeforeEpochH: number
}

export interface WeatherStore {
  /** Keeps a run; one of the same cell, source and time of fetching takes its place. */
  keepRun(cell: string, run: KeptRun): Promise<void>
  /** The newest run of each source. */
  newestRuns(cell: string): Promise<readonly KeptRun[]>
  /** Runs of a source fetched since, oldest first. */
  runsSince(cell: string, sourceId: string, fetchedSinceEpochH: number): Promise<readonly KeptRun[]>
  /** Keeps known hours of one member; hours not known leave what is kept. */
  keepSeen(cell: string, layer: SeenLayer, seen: Weather): Promise<void>
  /** The kept hours of a span, unknown where nothing is kept; undefined where nothing at all is. */
  seen(cell: string, layer: SeenLayer, place: Place, fromEpochH: number, toEpochH: number): Promise<Weather | undefined>
  keepSkill(cell: string, sourceId: string, kept: KeptSkill): Promise<void>
  skills(cell: string): Promise<ReadonlyMap<string, KeptSkill>>
  /** Keeps a year; one of the same cell, source and year takes its place. */
  keepYear(cell: string, kept: KeptYear): Promise<void>
  /** Kept years from one to another, both in it, oldest first. */
  years(cell: string, place: Place, fromYear: number, toYear: number): Promise<readonly KeptYear[]>
  /** Which years of a cell are kept, without their weather. */
  settledYears(cell: string): Promise<readonly SettledYear[]>
  /** Keeps what was read; what the same source said of the cell before is gone. */
  keepWarnings(cell: string, kept: KeptWarnings): Promise<void>
  keptWarnings(cell: string): Promise<readonly KeptWarnings[]>
  dropWarnings(readBeforeEpochH: number): Promise<void>
  noteCall(call: SourceCall): Promise<void>
  tallies(sinceEpochH: number): Promise<readonly SourceTally[]>
  drop(retention: Retention): Promise<void>
  close(): Promise<void>
}
