import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type FarmFault, FarmFileError } from '#edges/config/faults.ts'
import { loadFarm, parseFarm } from '#edges/config/load.ts'
import { BASE, lineOf, spoiled } from './base-farm.ts'
import { FAULT_CASES } from './fault-cases.ts'

function faultsOf(text: string): readonly FarmFault[] {
  try {
    parseFarm(text, 'farm.yaml')
  } catch (error) {
    if (error instanceof FarmFileError) return error.faults
    throw error
  }
  return []
}

describe('a fault of the farm file', () => {
  it('is not found in the base', () => {
    expect(faultsOf(BASE)).toEqual([])
  })

  it('is tried in more than forty ways', () => {
    expect(FAULT_CASES.length).toBeGreaterThan(40)
  })

  it.each(FAULT_CASES)('$path: $piece -> $by', ({ piece, by, lineWith, path, value, problem, cure }) => {
    const text = spoiled(piece, by)
    const faults = faultsOf(text)
    expect(faults.length, `one slip, one fault: ${JSON.stringify(faults, null, 1)}`).toBe(1)
    const fault = faults[0]!
    expect(fault).toMatchObject({ file: 'farm.yaml', line: lineOf(text, lineWith), path })
    if (value.endsWith('…')) expect(fault.value.startsWith(value.slice(0, -1))).toBe(true)
    else expect(fault.value).toBe(value)
    expect(fault.problem).toContain(problem)
    expect(fault.cure).toContain(cure)
  })

  it('points at the column, too', () => {
    const text = spoiled('crop: soybean\n', 'crop: soya\n')
    const [fault] = faultsOf(text)
    expect(text.split('\n')[fault!.line - 1]!.slice(fault!.column - 1)).toBe('soya')
  })
})

describe('all faults', () => {
  it('are listed at once, in the order of the file, in one message', () => {
    const text = BASE.replace('time_zone: America/Chicago', 'time_zone: Prairie')
      .replace('planted: 2010-04-20', 'planted: April')
      .replace('buyer: River House', 'buyer: Nobody')
      .replace('width: 35', 'width: 350')
      .replace('use: global', 'use: globe')
    const faults = faultsOf(text)
    expect(faults.map(({ path }) => path)).toEqual([
      'time_zone',
      'fields[Alpha].buyer',
      'fields[Beta].planted',
      'outfits[Outfit].combines[Red].heads[#1].width',
      'weather[#2].use',
    ])
    const message = new FarmFileError(faults).message
    expect(message).toMatch(/^5 faults in the farm file:\nfarm\.yaml:4:12 {2}time_zone: Prairie is not a time zone\. /)
    for (const fault of faults) expect(message).toContain(`farm.yaml:${fault.line}:${fault.column}`)
  })

  it('come with those of the YAML itself where the rest can still be read', () => {
    const text = BASE.replace('units: us\n', 'units: us\nunits: us\n').replace('width: 35', 'width: 350')
    expect(faultsOf(text).map(({ problem }) => problem)).toEqual(['stands twice in the same place', 'is above 80'])
  })
})

describe('text that is no farm file', () => {
  it.each([
    ['', 1, 'is empty', 'config/farm.example.yaml'],
    ['# only a remark\n', 1, 'is empty', 'config/farm.example.yaml'],
    ['farm: A\n\tunits: us\n', 2, 'is indented with a tab', 'spaces'],
    ['farm: A\nunits: "us\n', 3, 'is not closed', 'quote'],
    ['farm: A\nhome: { lat: 1, lon: 2\nunits: us\n', 3, '', ''],
    ['farm: A\n---\nfarm: B\n', 2, 'begins a second document', '---'],
    ['farm: *other\n', 1, 'points to nothing named before', 'quotes'],
    ['farm: !!js/function x\n', 1, 'tag that means nothing', '!'],
    ['just a sentence', 1, 'is not a group of keys', 'farm, units'],
    ['- a\n- b\n', 1, 'is not a group of keys', 'farm, units'],
    ['? [a, b]\n: c\n', 1, 'is a key that is not text', 'known keys'],
    ['[]', 1, 'is not a group of keys', 'farm, units'],
    ['42', 1, 'is not a group of keys', 'farm, units'],
  ])('%j is told so', (text, line, problem, cure) => {
    const [fault] = faultsOf(text)
    expect(fault).toMatchObject({ file: 'farm.yaml', line })
    expect(fault!.problem).toContain(problem)
    expect(fault!.cure).toContain(cure)
  })

  it.each([
    ['brackets', '['.repeat(200_000)],
    ['closed brackets', `a: ${'['.repeat(50_000)}${']'.repeat(50_000)}`],
    ['dashes', `${'- '.repeat(20_000)}x`],
  ])('a tower of %s ends in one fault, not in a crash', (_, text) => {
    expect(faultsOf(text)).toMatchObject([{ problem: 'is nested too deeply' }])
  })

  it('an alias bomb is refused before it swells', () => {
    const level = (name: string, of: string) => `${name}: &${name} [${Array(9).fill(`*${of}`).join(', ')}]`
    const bomb = ['a: &a [x, x, x]', level('b', 'a'), level('c', 'b'), level('d', 'c'), level('e', 'd')].join('\n')
    expect(faultsOf(bomb)).toMatchObject([{ problem: expect.stringContaining('repeats itself too often') }])
  })

  it('a file beyond the limit is refused unread', () => {
    expect(faultsOf('#'.repeat(16_000_001))).toMatchObject([{ problem: 'is too large' }])
  })

  it('a few aliases are welcome, and faults inside them are placed', () => {
    const text = BASE.replace(
      'soil: { texture: loam, drainage: tiled }',
      'soil: &soil { texture: loam, drainage: tiled }',
    )
    const shared = text.replace('soil: { texture: silt, drainage: well }', 'soil: *soil')
    expect(parseFarm(shared, 'farm.yaml').farm.fields[1]!.soil).toEqual({ texture: 'loam', drainage: 'tiled' })
    const faults = faultsOf(shared.replace('texture: loam', 'texture: gumbo'))
    expect(faults.map(({ path, line }) => [path, line])).toEqual([
      ['fields[Alpha].soil.texture', lineOf(shared, '&soil')],
      ['fields[Beta].soil.texture', lineOf(shared, '&soil')],
    ])
  })

  it('never ends in anything but faults, whatever a hand does to the file', () => {
    const lines = BASE.split('\n')
    const slip = fc.record({
      line: fc.nat(lines.length - 1),
      by: fc.oneof(
        fc.string({ maxLength: 30 }),
        fc.constantFrom('', '- ', '  :', '? x', '&a', '*a', '{', ']', '__proto__: 1', 'constructor: 2', '<<: {a: 1}'),
      ),
      keepIndent: fc.boolean(),
    })
    fc.assert(
      fc.property(fc.array(slip, { minLength: 1, maxLength: 4 }), (slips) => {
        const spoiledLines = [...lines]
        for (const { line, by, keepIndent } of slips)
          spoiledLines[line] = (keepIndent ? /^ */.exec(lines[line]!)![0] : '') + by
        for (const fault of faultsOf(spoiledLines.join('\n'))) {
          expect(fault.line).toBeGreaterThanOrEqual(1)
          expect(fault.line).toBeLessThanOrEqual(lines.length)
          expect(fault.column).toBeGreaterThanOrEqual(1)
          expect(fault.problem).not.toBe('')
          expect(fault.cure).not.toBe('')
        }
      }),
      { numRuns: 300 },
    )
  })
})

describe('a warning', () => {
  it.each([
    ['high: 13.5', 'high: 19', 'fields[Alpha].band.high', 'wetter than the 18 %'],
    ['role: owner', 'role: planner', 'people', 'no one with the role owner'],
    ['email: ann@example.org, ', '', 'people', 'no one with an email'],
    ['rows: 10', 'after_wheat: true', 'fields[Alpha].planted', 'early for a crop after wheat'],
  ])('leaves the file usable: %j -> %j', (piece, by, path, problem) => {
    const { warnings } = parseFarm(spoiled(piece, by), 'farm.yaml')
    expect(warnings).toMatchObject([{ path, problem: expect.stringContaining(problem) }])
  })

  it('tells of a combine that will stand idle in a crop', () => {
    const idle = `      - { name: Old, tank: 200, unload: 2, heads: [{ crops: [corn], width: 15, speed: 4, efficiency: 0.7 }] }\n`
    const { warnings } = parseFarm(spoiled('    carts:\n', `${idle}    carts:\n`), 'farm.yaml')
    expect(warnings).toMatchObject([
      { path: 'outfits[Outfit].combines[Old].heads', problem: 'has no head for soybean' },
    ])
  })
})

describe('a file on disk', () => {
  it('is read, and one that is missing or not text is a fault', async () => {
    const directory = await mkdtemp(join(tmpdir(), 'farm-file-'))
    try {
      const good = join(directory, 'good.yaml')
      await writeFile(good, BASE)
      expect((await loadFarm(good)).farm.name).toBe('Test Farm')
      await expect(loadFarm(join(directory, 'none.yaml'))).rejects.toMatchObject({
        faults: [{ problem: 'cannot be opened (ENOENT)' }],
      })
      const latin = join(directory, 'latin.yaml')
      await writeFile(latin, Buffer.from([0x66, 0x3a, 0x20, 0xe9, 0x0a]))
      await expect(loadFarm(latin)).rejects.toMatchObject({ faults: [{ problem: 'is not UTF-8 text' }] })
      const marked = join(directory, 'marked.yaml')
      await writeFile(marked, `\uFEFF${BASE}`)
      expect((await loadFarm(marked)).farm.name).toBe('Test Farm')
    } finally {
      await rm(directory, { recursive: true })
    }
  })
})
