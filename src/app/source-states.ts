/** How each source is doing, from the calls of the last week. */
import { HOURS_PER_DAY } from '#core/units/time.ts'
import type { Suppliers } from './find-weather.ts'
import { readFault, type SourceFault } from './source-fault.ts'
import type { CallKind, SourceTally, WeatherStore } from './weather-store.ts'

export interface SourceState {
  readonly sourceId: string
  readonly name: string
  readonly kind: CallKind
  /** `failing`: the last call failed; `down`: none has succeeded for six hours. */
  readonly state: 'well' | 'failing' | 'down' | 'never-asked'
  /** Age of the newest weather it gave, by its time of issue [h]; NaN = none. */
  readonly ageH: number
  readonly lastAskedEpochH: number
  readonly lastGoodEpochH: number
  /** In English. */
  readonly lastFailure: string | undefined
  /** The same without words; absent where an older version kept it. */
  readonly lastFault?: SourceFault | undefined
  readonly lastFailureEpochH: number
  readonly calls: number
  /** Share of the calls that failed, 0-1; NaN = none was made. */
  readonly failedShare: number
}

/** Span of the calls that count [d]. */
export const COUNTED_DAYS = 7
const DOWN_AFTER_H = 6

export async function statesOf(
  { forecasts, observations, history = [], warningSources = [] }: Suppliers,
  store: Pick<WeatherStore, 'tallies'>,
  nowEpochH: number,
): Promise<readonly SourceState[]> {
  const tallies = await store.tallies(nowEpochH - COUNTED_DAYS * HOURS_PER_DAY)
  const known = [
    ...forecasts.map(({ id, name }) => ({ id, name, kind: 'forecast' as const })),
    ...observations.map(({ id, name }) => ({ id, name, kind: 'observations' as const })),
    ...history.map(({ id, name }) => ({ id, name, kind: 'history' as const })),
    ...warningSources.map(({ id, name }) => ({ id, name, kind: 'warnings' as const })),
  ]
  return known.map(({ id, name, kind }) => {
    const tally = tallies.find((each) => each.sourceId === id && each.kind === kind)
    return { sourceId: id, name, kind, ...(tally ? told(tally, nowEpochH) : NEVER_ASKED) }
  })
}

const NEVER_ASKED = {
  state: 'never-asked',
  ageH: Number.NaN,
  lastAskedEpochH: Number.NaN,
  lastGoodEpochH: Number.NaN,
  lastFailure: undefined,
  lastFailureEpochH: Number.NaN,
  calls: 0,
  failedShare: Number.NaN,
} as const

function told(tally: SourceTally, nowEpochH: number): Omit<SourceState, 'sourceId' | 'name' | 'kind'> {
  const { lastAskedEpochH, lastGoodEpochH, lastIssuedEpochH, lastFailure, lastFailureEpochH, calls, failed } = tally
  const kept = lastFailure === undefined ? undefined : readFault(lastFailure)
  const isWell = lastGoodEpochH === lastAskedEpochH
  const isDown = !isWell && !(nowEpochH - lastGoodEpochH < DOWN_AFTER_H)
  return {
    state: isWell ? 'well' : isDown ? 'down' : 'failing',
    ageH: nowEpochH - lastIssuedEpochH,
    lastAskedEpochH,
    lastGoodEpochH,
    lastFailure: kept?.text,
    lastFault: kept?.fault,
    lastFailureEpochH,
    calls,
    failedShare: failed / calls,
  }
}

/** A kind of weather that no source of the farm gives. */
export type Lack = Exclude<CallKind, 'forecast'>

/** What the farm must do without, the weightiest first. */
export function lacksOf({ observations, history = [], warningSources = [] }: Suppliers): readonly Lack[] {
  return [
    ...(history.length === 0 ? ['history' as const] : []),
    ...(observations.length === 0 ? ['observations' as const] : []),
    ...(warningSources.length === 0 ? ['warnings' as const] : []),
  ]
}
