/** The program as it is started: what it prints, where, and with which exit code. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { daySchema } from '#tests/support/day-schema.ts'

const ROOT = join(import.meta.dirname, '..')
const folder = mkdtempSync(join(tmpdir(), 'threshday-main-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function run(words: readonly string[], env: Record<string, string> = {}) {
  const { stdout, stderr, status } = spawnSync(process.execPath, ['src/main.ts', ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_FARM: '', ...env },
  })
  return { stdout, stderr, status }
}

describe('two runs with the same inputs', () => {
  let json: ReturnType<typeof run>[]
  beforeAll(() => {
    json = [
      run(['today', '--json']),
      run(['today', '--json'], { TZ: 'Asia/Tokyo', LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' }),
    ]
  }, 300_000)

  it('give the same bytes as JSON, on machines of another zone and language too', () => {
    expect(json.map(({ status, stderr }) => [status, stderr])).toEqual([
      [0, ''],
      [0, ''],
    ])
    expect(json[1]!.stdout).toBe(json[0]!.stdout)
  })

  it('give JSON of the documented shape', () => {
    expect(daySchema.safeParse(JSON.parse(json[0]!.stdout)).error?.issues).toBeUndefined()
  })

  it('give the same bytes as text, through npm as a person types it', () => {
    const { stdout, status } = spawnSync('npm', ['run', '-s', 'today'], {
      cwd: ROOT,
      encoding: 'utf8',
      env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_FARM: '' },
    })
    expect(status).toBe(0)
    const { lines } = JSON.parse(json[0]!.stdout) as { lines: { text: string }[] }
    expect(stdout).toBe(`${lines.map(({ text }) => text).join('\n')}\n`)
  })
})

it('a reader that has seen enough is no fault', () => {
  const { stdout, stderr } = spawnSync('sh', ['-c', `"${process.execPath}" src/main.ts today --json | head -c 20`], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_FARM: '' },
  })
  expect(stdout).toBe('{"format":"threshday')
  expect(stderr).toBe('')
})

describe('a moment without weather', () => {
  it.each(['2010-07-01T05:59Z', '2010-12-01T06:00Z'])('%s names no field, tells why, and is no failure', (now) => {
    const { stdout, stderr, status } = run(['today', '--now', now])
    expect(stdout).toMatch(/^No field named today: /)
    expect(stderr).toContain('Choose a moment inside the record')
    expect(status).toBe(0)
  })
})

describe('what is typed wrong', () => {
  it.each([
    [['tomorrow'], '"tomorrow" is not a command'],
    [['today', '--now', 'noon'], 'not a time with its offset'],
    [['check'], 'check takes one file'],
  ])('%j: the fault first, then how it is used, and exit code 2', (words, fault) => {
    const { stdout, stderr, status } = run(words)
    expect(stderr).toContain(fault)
    expect(stdout).toContain('npm run today')
    expect(status).toBe(2)
  })

  it('settings of the machine: all faults, and exit code 2', () => {
    const { stderr, status } = run(['today'], { THRESHDAY_PORT: 'http', THRESHDAY_SMTP: 'no' })
    expect(stderr).toContain('THRESHDAY_PORT')
    expect(stderr).toContain('THRESHDAY_SMTP')
    expect(stderr).not.toContain('    at ')
    expect(status).toBe(2)
  })
})

describe('farm files', () => {
  it('a sound one is told back, and exit code 0', () => {
    const { stdout, status } = run(['check', 'config/demo/farm.yaml'])
    expect(stdout).toContain('Larkspur Farm')
    expect(status).toBe(0)
  })

  it('a broken one is told by line, and exit code 2, by check and by today', () => {
    const broken = join(folder, 'broken.yaml')
    writeFileSync(
      broken,
      readFileSync(join(ROOT, 'config/demo/farm.yaml'), 'utf8').replace('crop: soybean', 'crop: soyabean'),
    )
    for (const words of [
      ['check', broken],
      ['today', '--farm', broken],
    ]) {
      const { stderr, stdout, status } = run(words)
      expect(stderr).toMatch(/broken\.yaml:\d+/)
      expect(stderr).toContain('soyabean')
      expect(stderr).not.toContain('    at ')
      expect(stdout).toBe('')
      expect(status).toBe(2)
    }
  })

  it.each([
    ['that is not there', 'nowhere.yaml'],
    ['that is a folder', '.'],
    ['without a name', ''],
  ])('one %s is told, and exit code 2', (_, file) => {
    const { stderr, status } = run(['check', file])
    expect(stderr.length).toBeGreaterThan(10)
    expect(stderr).not.toContain('    at ')
    expect(status).toBe(2)
  })
})

describe('the book', () => {
  it('is copied and put back by command, never over another unasked, and what is wrong is told with exit code 2', () => {
    const data = join(folder, 'kept')
    const env = { THRESHDAY_DATA: data }
    expect(run(['backup'], env)).toMatchObject({ status: 2, stderr: expect.stringContaining('nothing was ever kept') })
    expect(run(['reading', '--field', 'Mill Forty', '--moisture', '12.1', '--by', 'bo'], env).status).toBe(0)
    const copied = run(['backup'], env)
    expect(copied).toMatchObject({ status: 0, stderr: '', stdout: expect.stringContaining('1 reading') })
    const [copy] = copied.stdout.split(': ')
    expect(copy).toMatch(/backups.threshday-\d{8}T\d{6}Z\.sqlite$/)
    expect(run(['restore', copy!], env)).toMatchObject({ status: 2, stderr: expect.stringContaining('--replace') })
    expect(run(['restore', copy!, '--replace'], env)).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/1 reading.*\nWhat was there is now .*\.before-/),
    })
    expect(run(['reading', '--list'], env).stdout).toContain('12.1 % by hand')
    expect(run(['backup'], { ...env, THRESHDAY_DATABASE: 'postgres://farm:secret@db/farm' })).toMatchObject({
      status: 2,
      stderr: expect.stringContaining('pg_dump'),
    })
  })
})
