import { describe, expect, it } from 'vitest'
import type { SourceState } from '#app/source-states.ts'
import { readCommand } from '#edges/cli/arguments.ts'
import { printSources } from '#edges/cli/sources.ts'

const HOUR = Temporal.Instant.from('2026-10-01T12:00Z').epochMilliseconds / 3_600_000
const well: SourceState = {
  sourceId: 'a',
  name: 'Service A',
  kind: 'forecast',
  state: 'well',
  ageH: 1.25,
  lastAskedEpochH: HOUR,
  lastGoodEpochH: HOUR,
  lastFailure: 'Service A: answered 503',
  lastFailureEpochH: HOUR - 5,
  calls: 120,
  failedShare: 0.025,
}
const never: SourceState = {
  ...well,
  name: 'Service B',
  state: 'never-asked',
  ageH: Number.NaN,
  lastAskedEpochH: Number.NaN,
  lastGoodEpochH: Number.NaN,
  lastFailure: undefined,
  lastFailureEpochH: Number.NaN,
  calls: 0,
  failedShare: Number.NaN,
}

describe('npm run sources', () => {
  it('shows state, age, share of failed calls and the last failure, by the clock of the farm', () => {
    const text = printSources([well, never], 'America/Chicago', false)
    expect(text).toMatch(/Service A\s+forecast\s+well\s+1\.3 h\s+2026-10-01 07:00\s+2026-10-01 07:00\s+120\s+3 %/)
    expect(text).toMatch(/Service B\s+forecast\s+never asked\s+-\s+never\s+never\s+0\s+-/)
    expect(text).toContain('Service A, 2026-10-01 02:00: Service A: answered 503')
  })

  it('is JSON when asked, with null for what is not known', () => {
    const { format, sources } = JSON.parse(printSources([never], 'America/Chicago', true))
    expect(format).toBe('threshday-sources/1')
    expect(sources[0]).toMatchObject({ name: 'Service B', ageH: null, lastFailure: null, calls: 0 })
  })

  it('says plainly what no source of the farm gives', () => {
    const text = printSources([well], 'America/Chicago', false, ['history', 'warnings'])
    expect(text).toContain(
      'Not at hand:\nNo source of the past. A new farm starts with the week that stations remember',
    )
    expect(text).toContain('`global-history` in the farm file needs neither key nor consent')
    expect(text).toContain('No official warnings are read.')
    expect(printSources([well], 'America/Chicago', false)).not.toContain('Not at hand')
    expect(JSON.parse(printSources([well], 'America/Chicago', true, ['history'])).lacks).toEqual(['history'])
  })

  it('says so where nobody is asked', () => {
    expect(printSources([], 'America/Chicago', false)).toMatch(/recorded weather only/)
  })

  it('is read from the command line', () => {
    expect(readCommand(['sources', '--ask'])).toEqual({ name: 'sources', farm: undefined, ask: true, json: false })
    expect(readCommand(['sources', '--nonsense'])).toMatchObject({ name: 'help' })
  })
})
