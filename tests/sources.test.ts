/** Which sources a farm file calls for, as the program itself tells: nobody is asked here. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, it } from 'vitest'

const ROOT = join(import.meta.dirname, '..')
const folder = mkdtempSync(join(tmpdir(), 'threshday-sources-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** The demo farm with live weather in place of the recorded. @param weather the section; none for the usual. */
function sourcesOf(weather: string, words: readonly string[] = ['--json']) {
  const farm = readFileSync(join(ROOT, 'config/demo/farm.yaml'), 'utf8').replace(/^weather:[\s\S]*/m, weather)
  const file = join(folder, 'farm.yaml')
  writeFileSync(file, farm)
  const { stdout, stderr } = spawnSync(process.execPath, ['src/main.ts', 'sources', '--farm', file, ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_CONTACT: 'operator@example.org' },
  })
  return { stdout, stderr }
}

interface Told {
  readonly sources: readonly { readonly sourceId: string; readonly kind: string; readonly state: string }[]
  readonly lacks: readonly string[]
}
function told(weather: string) {
  const { stdout, stderr } = sourcesOf(weather)
  expect(stderr).toBe('')
  const { sources, lacks } = JSON.parse(stdout) as Told
  expect(new Set(sources.map(({ state }) => state))).toEqual(new Set(['never-asked']))
  return { sources: sources.map(({ sourceId, kind }) => `${sourceId} ${kind}`), lacks }
}

it('a farm that says nothing of weather has a forecast from two services, stations, the past and warnings', () => {
  expect(told('')).toEqual({
    sources: ['nws forecast', 'metno forecast', 'nws observations', 'nasa-power history', 'nws warnings'],
    lacks: [],
  })
})

it('the aggregator gives the past too, but only with the consent of the farm', () => {
  const { sources, lacks } = told('weather:\n  - { use: open-aggregator, consent: true }\n')
  expect(sources).toEqual(['open-meteo forecast', 'open-meteo history'])
  expect(lacks).toEqual(['observations', 'warnings'])
  expect(sourcesOf('weather:\n  - { use: open-aggregator }\n').stderr).toContain('consent')
})

it('a farm with a forecast alone is told what it does without', () => {
  const weather = 'weather:\n  - use: global\n'
  expect(told(weather)).toEqual({ sources: ['metno forecast'], lacks: ['history', 'observations', 'warnings'] })
  expect(sourcesOf(weather, []).stdout).toContain('No source of the past.')
})
