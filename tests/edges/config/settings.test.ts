import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Farm } from '#core/operation/farm.ts'
import { describeFarm } from '#edges/config/describe.ts'
import type { FarmFileError } from '#edges/config/faults.ts'
import { loadFarm, parseFarm } from '#edges/config/load.ts'
import { settingsOf } from '#edges/config/settings.ts'
import { BASE } from './base-farm.ts'

describe('the settings as understood', () => {
  it('name the line of the file on which each thing stands', async () => {
    const text = BASE.split('\n')
    const { lines } = settingsOf(parseFarm(BASE, 'farm.yaml'), 'farm.yaml')
    const stands = (begins: string, with_: string) => {
      const found = lines.find((line) => line.text.startsWith(begins))!
      expect(text[found.line! - 1], begins).toContain(with_)
    }
    stands('Test Farm', 'farm: Test Farm')
    stands('Home 40.0000 N', 'home: {')
    stands('Alpha', 'name: Alpha')
    stands('Drawn at', 'boundary:')
    stands('Patch Hole', 'name: Hole')
    stands('Beta', 'name: Beta')
    stands('By its middle', 'centre:')
    stands('Combine Red 2', 'combines:')
    stands('Truck Semi', 'trucks:')
    stands('Hill House', 'name: Hill House')
    stands('corn: 4.50', 'crop: corn')
    stands('Bo (id bo)', 'name: Bo')
    stands('Morning message', 'morning:')
    stands('Weather from', 'weather:')
    expect(lines.map(({ text: said, depth }) => `${'  '.repeat(depth)}${said}`).join('\n')).toBe(
      describeFarm(parseFarm(BASE, 'farm.yaml').farm),
    )
  })

  it('leave out nothing of the farm that the program goes by', async () => {
    const { farm } = await fullFarm()
    const before = describeFarm(farm)
    const unsaid = leavesOf(farm).filter(({ changed }) => describeFarm(changed) === before)
    expect(unsaid.map(({ path }) => path)).toEqual([])
    expect(leavesOf(farm).length).toBeGreaterThan(120)
  })
})

describe('the farm file by now', () => {
  const folder = mkdtempSync(join(tmpdir(), 'threshday-settings-'))
  const path = join(folder, 'farm.yaml')
  afterAll(() => rmSync(folder, { recursive: true }))
  beforeAll(() => writeFileSync(path, BASE))

  it('is the same, changed, or faulty as the loader says', async () => {
    const { fileNow } = settingsOf(await loadFarm(path), path)
    expect(await fileNow()).toEqual({ kind: 'same' })
    writeFileSync(path, `# A remark changes nothing.\n${BASE}`)
    expect(await fileNow()).toEqual({ kind: 'same' })
    writeFileSync(path, BASE.replace('area: 120', 'area: 121'))
    expect(await fileNow()).toMatchObject({ kind: 'changed' })
    writeFileSync(path, BASE.replace('width: 35', 'width: 350'))
    const now = await fileNow()
    expect(now.kind).toBe('faulty')
    const said = await loadFarm(path).catch((failure: unknown) => (failure as FarmFileError).message)
    for (const fault of now.kind === 'faulty' ? now.faults : []) expect(said).toContain(fault)
    rmSync(path)
    expect(await fileNow()).toMatchObject({ kind: 'faulty', faults: [expect.stringContaining('cannot be opened')] })
    writeFileSync(path, BASE)
    expect(await fileNow()).toEqual({ kind: 'same' })
  })
})

/** A farm in which nothing that may be left out is left out. */
async function fullFarm() {
  const map = 'map: { tiles: "https://t.example.org/{z}/{x}/{y}.png", credit: Example Survey, deepest: 16 }'
  const planning = 'planning: { outfits_per_field: 3, fields_per_day: 5, caution: { weight: 0.4 } }'
  const recorded =
    '  - { use: recorded, file: w.csv, years: y.csv, day: 2010-09-30, time: "05:30", credit: Example, licence: MIT }'
  const text = BASE.replace(
    'soil: { texture: loam, drainage: tiled }',
    'soil: { texture: loam, drainage: tiled, carries: 0.05 }',
  )
    .replace(
      'daily_limit: 40000',
      'daily_limit: 40000\n    hourly_limit: 4000\n    dryer: { takes: 800, points: 5, wet_bin: 3000 }',
    )
    .replace('at: "05:15"', 'at: "08:15", before_window: 90, earliest: "05:00", evening: "19:30"')
    .replace('planted: 2010-05-02', 'planted: 2010-05-02\n    mature_seen: 2010-09-12\n    cut: 2010-09-25')
    .replace('\nfire:', `\n${map}\n${planning}\nfire:`)
  const read = parseFarm(text, 'farm.yaml')
  const weather = [
    ...read.farm.weather,
    ...parseFarm(BASE.replace(/\nweather:[\s\S]*$/, `\nweather:\n${recorded}\n`), 'farm.yaml').farm.weather,
  ]
  return { farm: { ...read.farm, weather } as Farm }
}

/** Where the outline lies is seen on the map; what is said of it is its middle and the area. */
const DRAWN = /^fields\.\d+\.(boundary|patches\.\d+\.outline)/

interface Leaf {
  readonly path: string
  readonly changed: Farm
}

/** Every value of the farm, each with a farm in which it alone is another. */
function leavesOf(farm: Farm): Leaf[] {
  const found: Leaf[] = []
  const walk = (value: unknown, path: readonly (string | number)[]) => {
    const name = path.join('.')
    if (DRAWN.test(name)) return
    if (value instanceof Temporal.PlainDate)
      return void found.push({ path: name, changed: put(farm, path, value.add({ days: 1 })) })
    if (value instanceof Temporal.PlainDateTime) {
      return void found.push({ path: name, changed: put(farm, path, value.add({ hours: 1 })) })
    }
    if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, Array.isArray(value) ? Number(key) : key])
      return
    }
    found.push({ path: name, changed: put(farm, path, another(value, name)) })
  }
  walk(farm, [])
  return found
}

function another(value: unknown, name: string): unknown {
  if (typeof value === 'boolean') return !value
  if (/daysOff|closedOn/.test(name)) return (Number(value) % 7) + 1
  if (typeof value === 'number') return value === 0 ? 1 : value > 1 ? value * 1.25 : value * 0.5
  if (name === 'language' || name.endsWith('.language')) return value === 'en' ? 'es' : 'en'
  if (name === 'units') return value === 'us' ? 'metric' : 'us'
  if (name.endsWith('handling')) return value === 'leave' ? 'blend' : 'leave'
  if (name.endsWith('buyerId')) return 'another-buyer'
  if (name.endsWith('.crop') || /crops\.\d+$/.test(name)) return value === 'corn' ? 'sorghum' : 'corn'
  return `${String(value)}x`
}

function put(whole: unknown, [step, ...rest]: readonly (string | number)[], value: unknown): Farm {
  if (step === undefined) return value as Farm
  const copy = Array.isArray(whole) ? [...whole] : { ...(whole as object) }
  const holder = copy as Record<string | number, unknown>
  holder[step] = put(holder[step], rest, value)
  return copy as unknown as Farm
}
