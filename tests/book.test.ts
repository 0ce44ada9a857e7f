/** The farm's book through the program as it is started: what is told changes the day, and nonsense changes nothing. */
import { spawnSync } from 'node:child_process'
import { copyFileSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, it } from 'vitest'
import { openRecordStore } from '#edges/storage/records.ts'
import { testDatabases } from '#tests/support/databases.ts'

const ROOT = join(import.meta.dirname, '..')
const folder = mkdtempSync(join(tmpdir(), 'threshday-book-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function run(...words: string[]) {
  const { stdout, stderr, status } = spawnSync(process.execPath, ['src/main.ts', ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_FARM: '' },
  })
  return { stdout, stderr, status }
}

const runs = (stdout: string) => (JSON.parse(stdout) as { runs: { part: string }[] }).runs.map(({ part }) => part)

it('a cut takes its field out of the day, a reading changes it, nonsense has exit code 2 and no effect', () => {
  const before = runs(run('today', '--json').stdout)
  const first = before[0]!
  const cut = ['cut', '--field', first, '--done', '--at', '2010-09-29 18:00', '--by', 'crew', '--key', 'c1']
  expect(run(...cut)).toMatchObject({
    status: 0,
    stderr: '',
    stdout: expect.stringMatching(/^Kept: .* done, .*, by crew\n$/),
  })
  expect(run(...cut)).toMatchObject({ status: 0, stdout: expect.stringMatching(/^Known already: /) })
  expect(run('reading', '--field', first, '--moisture', '12')).toMatchObject({
    status: 2,
    stdout: expect.stringMatching(/^Not taken. .* was finished at 2010-09-29 18:00/),
  })
  const afterCut = run('today', '--json')
  const after = runs(afterCut.stdout)
  expect(after.length).toBeGreaterThan(0)
  expect(after).not.toContain(first)

  const reading = ['reading', '--field', after[0]!, '--moisture', '11.6', '--at', '2010-09-29 16:00']
  expect(run(...reading)).toMatchObject({ status: 0, stderr: '' })
  const day = run('today', '--json')
  expect(day.stdout).not.toBe(afterCut.stdout)
  expect(run('reading', '--field', after[0]!, '--moisture', '130')).toMatchObject({ status: 2, stderr: '' })
  expect(run('today', '--json').stdout).toBe(day.stdout)
}, 300_000)

it('a farm file read again says what it changed, once', () => {
  const file = join(folder, 'farm.yaml')
  const text = readFileSync(join(ROOT, 'config/demo/farm.yaml'), 'utf8').replace(
    'farm: Larkspur Farm',
    'farm: Copied Farm',
  )
  copyFileSync(join(ROOT, 'config/demo/weather-2010.csv'), join(folder, 'weather-2010.csv'))
  writeFileSync(file, text)
  const list = () => run('reading', '--list', '--farm', file)
  expect(list()).toEqual({ status: 0, stderr: '', stdout: 'Nothing yet.\n' })
  writeFileSync(file, text.replace('planted: 2010-05-02', 'planted: 2010-05-04'))
  expect(list()).toMatchObject({ status: 0, stderr: 'Mill Forty: plantedOn changed as in the farm file\n' })
  expect(list()).toMatchObject({ status: 0, stderr: '' })
}, 300_000)

const servers = testDatabases().filter(({ name }) => name === 'PostgreSQL')

it.each(servers)(
  'is kept on $name where its address is set, and nowhere else',
  async ({ fresh }) => {
    const data = mkdtempSync(join(folder, 'server-'))
    const address = await fresh()
    const told = (...words: string[]) =>
      spawnSync(process.execPath, ['src/main.ts', 'reading', ...words], {
        cwd: ROOT,
        encoding: 'utf8',
        env: { ...process.env, THRESHDAY_DATA: data, THRESHDAY_DATABASE: address, THRESHDAY_FARM: '' },
      })
    expect(told('--field', 'Mill Forty', '--moisture', '12.2', '--by', 'bo')).toMatchObject({ status: 0, stderr: '' })
    expect(told('--list').stdout).toMatch(/Mill Forty, .*: 12\.2 % by hand, by bo/)
    expect(existsSync(join(data, 'threshday.sqlite'))).toBe(false)
    const store = await openRecordStore(address)
    expect(await store.current('larkspur-farm', 'reading')).toHaveLength(1)
    await store.close()
  },
  300_000,
)
