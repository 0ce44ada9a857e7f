/** `sources`: how each weather source is doing. */
import { parseArgs } from 'node:util'
import { sayTime } from '#app/record-faults.ts'
import { COUNTED_DAYS, type Lack, type SourceState } from '#app/source-states.ts'
import { tableLines } from './table.ts'

export interface SourcesCommand {
  readonly name: 'sources'
  readonly farm: string | undefined
  readonly ask: boolean
  readonly json: boolean
}

export const SOURCES_USAGE = `  npm run sources -- [--farm FILE] [--ask] [--json]
                                                   state, age and failures of each weather source; --ask asks each now
`

/** @throws with what is wrong. */
export function readSources(args: readonly string[]): SourcesCommand {
  const { values } = parseArgs({
    args: [...args],
    options: {
      farm: { type: 'string' },
      ask: { type: 'boolean', default: false },
      json: { type: 'boolean', default: false },
    },
  })
  return { name: 'sources', farm: values.farm, ask: values.ask, json: values.json }
}

const HEAD = ['source', 'gives', 'state', 'weather age', 'last asked', 'last answer', 'calls', 'failed']

const LACKS: { readonly [L in Lack]: string } = {
  history:
    'No source of the past. A new farm starts with the week that stations remember: ripeness, drought index, soil and ' +
    'moisture of this season are less sure, and there are no likely dates beyond the forecast until years have been ' +
    'kept. `global-history` in the farm file needs neither key nor consent; `open-aggregator` has the past too.',
  observations: 'No weather stations. What was is taken from forecasts as they passed.',
  warnings: 'No official warnings are read. Watch your own service for them.',
}

/** @param lacks what no source of the farm gives. */
export function printSources(
  states: readonly SourceState[],
  timeZone: string,
  json: boolean,
  lacks: readonly Lack[] = [],
): string {
  if (json) return `${JSON.stringify({ format: 'threshday-sources/1', sources: states.map(jsonOf), lacks })}\n`
  if (states.length === 0) return 'No live weather source: the farm file names recorded weather only.\n'
  const lines = tableLines([HEAD, ...states.map((state) => cells(state, timeZone))], () => true)
  const failures = states
    .filter(({ lastFailure }) => lastFailure !== undefined)
    .map(
      ({ name, lastFailure, lastFailureEpochH }) => `${name}, ${timeOf(lastFailureEpochH, timeZone)}: ${lastFailure}`,
    )
  const last = failures.length > 0 ? ['', 'Last failures:', ...failures] : []
  const missing = lacks.length > 0 ? ['', 'Not at hand:', ...lacks.map((lack) => LACKS[lack])] : []
  return `${[...lines, '', `Calls and failures: the last ${COUNTED_DAYS} days.`, ...last, ...missing].join('\n')}\n`
}

const STATE_WORDS: { readonly [S in SourceState['state']]: string } = {
  well: 'well',
  failing: 'failing',
  down: 'DOWN',
  'never-asked': 'never asked',
}

function cells(state: SourceState, timeZone: string): string[] {
  return [
    state.name,
    state.kind,
    STATE_WORDS[state.state],
    Number.isNaN(state.ageH) ? '-' : `${state.ageH.toFixed(1)} h`,
    timeOf(state.lastAskedEpochH, timeZone),
    timeOf(state.lastGoodEpochH, timeZone),
    String(state.calls),
    Number.isNaN(state.failedShare) ? '-' : `${Math.round(100 * state.failedShare)} %`,
  ]
}

/** By the clock of the farm. */
const timeOf = (epochH: number, timeZone: string): string =>
  Number.isNaN(epochH) ? 'never' : sayTime(epochH, timeZone)

/** JSON has no NaN: what is not known is left out as null. */
const jsonOf = (state: SourceState) =>
  Object.fromEntries(Object.entries(state).map(([key, value]) => [key, Number.isNaN(value) ? null : (value ?? null)]))
