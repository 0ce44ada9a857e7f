/** The week as the program prints it. */
import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import { weekSchema } from '#tests/support/week-schema.ts'

const ROOT = join(import.meta.dirname, '../../..')
const NOW = '2010-09-30T05:30-05:00'
const WITHOUT_WEATHER = '2010-07-01T05:59Z'
const DAY = { weekday: 'short', month: 'short', day: 'numeric' } as const
const folders: string[] = []
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true })
})

function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'threshday-week-'))
  folders.push(folder)
  return folder
}

function run(words: readonly string[], folder: string, env: Record<string, string> = {}) {
  const { stdout, stderr, status } = spawnSync(process.execPath, ['src/main.ts', ...words], {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, THRESHDAY_DATA: folder, THRESHDAY_FARM: '', ...env },
  })
  return { stdout, stderr, status }
}

type Week = z.infer<typeof weekSchema>
const weekIn = (stdout: string): Week => weekSchema.parse(JSON.parse(stdout))

describe('the week of the demo farm', () => {
  let text: ReturnType<typeof run>
  let json: ReturnType<typeof run>
  let week: Week
  beforeAll(() => {
    const folder = newFolder()
    text = run(['week', '--now', NOW], folder)
    json = run(['week', '--json', '--now', NOW], folder, { TZ: 'Asia/Tokyo', LC_ALL: 'de_DE.UTF-8' })
    week = weekIn(json.stdout)
  }, 60_000)

  it('is printed without a fault', () => {
    expect([text.status, text.stderr, json.status, json.stderr]).toEqual([0, '', 0, ''])
    expect(json.stdout.trimEnd()).not.toContain('\n')
  })

  it('is the same to the byte on machines of another zone and language', () => {
    expect(run(['week', '--json', '--now', NOW], newFolder()).stdout).toBe(json.stdout)
  })

  it('starts on the day asked for, by the clock of the farm, and has a row of days for each part', () => {
    expect(week).toMatchObject({ now: NOW, from: '2010-09-30', reason: null })
    for (const { days } of week.parts) {
      expect(days[0]!.date).toBe(week.from)
      expect(days.at(-1)!.date).toBe(week.to)
      const next = days.slice(1).map(({ date }) => Temporal.PlainDate.from(date).subtract({ days: 1 }).toString())
      expect(days.slice(0, -1).map(({ date }) => date)).toEqual(next)
    }
  })

  it('loses no hectare: what is cut on the days and what is left make what stands', () => {
    for (const { areaHa, days, leftHa } of week.parts) {
      expect(days.reduce((sum, { meanHa }) => sum + meanHa, leftHa)).toBeCloseTo(areaHa, 4)
    }
  })

  it('bounds the loss from below, and proves the plan to the gap it tells', () => {
    expect(week.status).toBe('proven')
    expect(week.leastLoss!).toBeLessThanOrEqual(week.loss!)
    expect(week.gap!).toBeCloseTo((week.loss! - week.leastLoss!) / week.loss!, 5)
  })

  it('tells the same in words: a line for each part with its acres and its likeliest days', () => {
    expect(text.stdout).toMatch(/^Larkspur Farm: the days from Thu, Sep 30 to /)
    const lines = text.stdout.split('\n').filter((line) => / \(\d+ acres\): /.test(line))
    expect(lines).toHaveLength(week.parts.length)
    week.parts.forEach(({ areaHa, days }, k) => {
      expect(lines[k]).toContain(`(${Math.round(areaHa / HA_PER_ACRE)} acres): `)
      for (const { date, cutChance } of days.filter((day) => day.cutChance >= 0.1)) {
        const { day } = Temporal.PlainDate.from(date)
        expect(lines[k]).toContain(` ${day} ${Math.round(cutChance * 100)} %`)
      }
    })
  })

  it('has a tail for the late corn: real dates behind the last day, from the years before, the same in words', () => {
    expect(week.season).toEqual({ years: 14, few: false, from: '2010-10-11', to: '2010-11-24' })
    const corn = week.parts.find(({ partKey }) => partKey === 'lone-oak')!
    expect(corn.leftChance).toBeGreaterThan(0.5)
    const { from, middle, to, chance, ripe } = corn.tail!
    expect(chance).toBeGreaterThan(0.8)
    const dates = [week.season!.from, from!, middle!, to!, week.season!.to]
    expect(dates.toSorted()).toEqual(dates)
    expect(from! < to!).toBe(true)
    expect(ripe.from! < ripe.to!).toBe(true)
    const line = text.stdout.split('\n').find((one) => one.startsWith('Lone Oak'))!
    expect(line).toContain(`then likely fit about ${Temporal.PlainDate.from(middle!).toLocaleString('en-US', DAY)}`)
    expect(line).toContain(`nine in ten by ${Temporal.PlainDate.from(to!).toLocaleString('en-US', DAY)}`)
    expect(text.stdout).toContain('by the weather of 14 past years at the place; no forecast reaches there.')
    // What is surely cut has none.
    for (const { leftChance, tail } of week.parts) expect(tail === null).toBe(leftChance === 0)
  })

  it('says so where no past year is known', () => {
    const folder = newFolder()
    const farm = readFileSync(join(ROOT, 'config/demo/farm.yaml'), 'utf8').replace(/^ {4}years: .*\n/m, '')
    const file = join(folder, 'farm.yaml')
    writeFileSync(file, farm)
    copyFileSync(join(ROOT, 'config/demo/weather-2010.csv'), join(folder, 'weather-2010.csv'))
    const alone = run(['week', '--farm', file, '--now', NOW], folder)
    expect(alone.stdout).toContain(
      'Nothing is said of the days after Sun, Oct 10: no past year of the place is known yet.',
    )
    expect(alone.stdout).not.toContain('then likely')
  })

  it('leaves out a field that was told done before', () => {
    const folder = newFolder()
    const at = '2010-09-29T16:00-05:00'
    expect(week.parts.map(({ partKey }) => partKey)).toContain('twin-elms')
    expect(run(['cut', '--field', 'Twin Elms', '--done', '--at', at], folder)).toMatchObject({ status: 0, stderr: '' })
    const after = weekIn(run(['week', '--json', '--now', NOW], folder).stdout)
    expect(after.parts.map(({ partKey }) => partKey)).not.toContain('twin-elms')
    expect(after.parts).toHaveLength(week.parts.length - 1)
    const earlier = weekIn(run(['week', '--json', '--now', '2010-09-29T05:30-05:00'], folder).stdout)
    expect(earlier.parts.map(({ partKey }) => partKey)).toContain('twin-elms')
  })
})

describe('a moment without weather', () => {
  it('tells why there is no plan, in words and as JSON, and is no failure', () => {
    const folder = newFolder()
    const text = run(['week', '--now', WITHOUT_WEATHER], folder)
    expect(text.stdout).toMatch(/^No field named today: /)
    expect(text.status).toBe(0)
    const json = run(['week', '--json', '--now', WITHOUT_WEATHER], folder)
    expect(json.status).toBe(0)
    const { reason, status, parts, choices } = weekIn(json.stdout)
    expect(reason).toBeTruthy()
    expect([status, parts, choices]).toEqual([null, [], []])
  })
})

describe('what is typed wrong', () => {
  it.each([
    [['week', '--now', 'noon'], 'not a time with its offset'],
    [['week', '--jsno'], '--jsno'],
    [['week', 'farm.yaml'], 'farm.yaml'],
  ])('%j: the fault first, then how it is used, and exit code 2', (words, fault) => {
    const { stdout, stderr, status } = run(words, newFolder())
    expect(stderr).toContain(fault)
    expect(stderr).not.toContain('    at ')
    expect(stdout).toContain('npm run week')
    expect(status).toBe(2)
  })

  it('a farm file that is not there: told, and exit code 2', () => {
    const { stdout, stderr, status } = run(['week', '--farm', 'nowhere.yaml'], newFolder())
    expect(stderr).toContain('nowhere.yaml')
    expect(stderr).not.toContain('    at ')
    expect([stdout, status]).toEqual(['', 2])
  })
})
