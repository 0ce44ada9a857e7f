import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Cut } from '#core/field/cut.ts'
import { partsOf } from '#core/field/parts.ts'
import { finishedAt, standingHa, uncutHa } from '#core/field/standing-area.ts'
import type { Farm, Field, Patch } from '#core/operation/farm.ts'

const patch = (id: string, share: number, handling: Patch['handling']): Patch => ({
  id,
  name: id,
  share,
  kind: 'green',
  laterDays: 7,
  handling,
})
const fieldWith = (areaHa: number, ...patches: Patch[]) => ({ id: 'f', name: 'F', areaHa, patches }) as unknown as Field
const farmOf = (...fields: Field[]) => ({ fields }) as unknown as Farm
let count = 0
const cut = (partKey: string, areaHa: number, atEpochH = 10, more: Partial<Cut> = {}): Cut => ({
  id: `c${count++}`,
  partKey,
  areaHa,
  atEpochH,
  outfitId: 'o',
  who: 'ann',
  ...more,
})

const standing = (field: Field, ...cuts: Cut[]) => Object.fromEntries(standingHa(farmOf(field), cuts))

describe('standing area', () => {
  it('is all of every part before the first cut', () => {
    expect(standing(fieldWith(40, patch('hole', 0.1, 'leave')))).toEqual({ f: 36, 'f/hole': 4 })
  })

  it('goes down by what was cut, shift by shift, and never below none', () => {
    const field = fieldWith(40)
    expect(standing(field, cut('f', 12.5))).toEqual({ f: 27.5 })
    expect(standing(field, cut('f', 12.5), cut('f', 20))).toEqual({ f: 7.5 })
    expect(standing(field, cut('f', 12.5), cut('f', 20), cut('f', 9))).toEqual({ f: 0 })
  })

  it('of a patch that is left standing is untouched by cuts round it, and waits with its own area', () => {
    const field = fieldWith(40, patch('hole', 0.1, 'leave'))
    expect(standing(field, cut('f', 36))).toEqual({ f: 0, 'f/hole': 4 })
    expect(standing(field, cut('f', 38))).toEqual({ f: 0, 'f/hole': 4 })
    expect(standing(field, cut('f/hole', 1))).toEqual({ f: 36, 'f/hole': 3 })
  })

  it('of a patch the crew cuts through goes down with the rest, in proportion', () => {
    const field = fieldWith(40, patch('swale', 0.25, 'blend'), patch('hole', 0.25, 'leave'))
    expect(standing(field, cut('f', 15))).toEqual({ f: 10, 'f/swale': 5, 'f/hole': 10 })
    const both = standing(field, cut('f', 15), cut('f/swale', 4))
    expect(both.f).toBeCloseTo(20 - (15 * 20) / 26, 9)
    expect(both['f/swale']).toBeCloseTo(6 - (15 * 6) / 26, 9)
    expect(both['f/hole']).toBe(10)
  })

  it('is none where the crew said so, whatever the areas add up to', () => {
    const field = fieldWith(40, patch('swale', 0.25, 'blend'), patch('hole', 0.25, 'leave'))
    expect(standing(field, cut('f', 3, 10, { done: true }))).toEqual({ f: 0, 'f/swale': 0, 'f/hole': 10 })
    expect(standing(field, cut('f/hole', 3, 10, { done: true }))['f/hole']).toBe(0)
  })

  it('counts a last sliver as none, but not a small patch that nobody touched', () => {
    const field = fieldWith(40, patch('tiny', 0.002, 'leave'))
    expect(standing(field, cut('f', 39.8))).toEqual({ f: 0, 'f/tiny': 0.08 })
  })

  it('comes back when an area is taken back', () => {
    expect(standing(fieldWith(40), cut('f', 30), cut('f', -10))).toEqual({ f: 20 })
    expect(standing(fieldWith(40), cut('f', 30), cut('f', -35))).toEqual({ f: 40 })
  })

  it('leaves fields alone that a cut does not name', () => {
    const other = { ...fieldWith(10), id: 'g' }
    expect(Object.fromEntries(standingHa(farmOf(fieldWith(40), other), [cut('g', 4), cut('nowhere', 9)]))).toEqual({
      f: 40,
      g: 6,
    })
  })
})

describe('finished', () => {
  it('is each part at its last cut, and not before', () => {
    const field = fieldWith(40, patch('hole', 0.1, 'leave'))
    const cuts = [cut('f', 16, 30), cut('f', 20, 20), cut('f/hole', 4, 90)]
    expect([...finishedAt(field, cuts)]).toEqual([
      ['f', 30],
      ['f/hole', 90],
    ])
    expect([...finishedAt(field, cuts.slice(0, 1))]).toEqual([])
  })

  it('is undone by taking back, and takes the later time when finished again', () => {
    const field = fieldWith(40)
    expect(finishedAt(field, [cut('f', 40, 10), cut('f', -8, 12)]).size).toBe(0)
    expect(finishedAt(field, [cut('f', 40, 10), cut('f', -8, 12), cut('f', 8, 14)]).get('f')).toBe(14)
  })
})

const anyField = fc
  .record({
    areaHa: fc.double({ min: 1, max: 200, noNaN: true }),
    shares: fc.array(fc.double({ min: 0.01, max: 0.2, noNaN: true }), { maxLength: 4 }),
    blend: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
  })
  .map(({ areaHa, shares, blend }) =>
    fieldWith(areaHa, ...shares.map((share, i) => patch(`p${i}`, share, blend[i] ? 'blend' : 'leave'))),
  )
const anyCuts = (field: Field) =>
  fc.array(
    fc
      .tuple(
        fc.constantFrom(...partsOf(field).map(({ key }) => key)),
        fc.double({ min: 0, max: field.areaHa / 3, noNaN: true }),
        fc.integer({ min: 0, max: 500 }),
      )
      .map(([key, ha, at]) => cut(key, ha, at)),
    { maxLength: 8 },
  )
const anyCase = anyField.chain((field) => fc.tuple(fc.constant(field), anyCuts(field)))

describe('whatever is cut', () => {
  it('no part stands on less than none or more than its area, and the order of cuts does not matter', () => {
    fc.assert(
      fc.property(anyCase, ([field, cuts]) => {
        const now = standingHa(farmOf(field), cuts)
        for (const { key, areaHa } of partsOf(field)) {
          expect(now.get(key)).toBeGreaterThanOrEqual(0)
          expect(now.get(key)).toBeLessThanOrEqual(areaHa)
        }
        const turned = standingHa(farmOf(field), cuts.toReversed())
        for (const [key, ha] of now) expect(turned.get(key)).toBeCloseTo(ha, 6)
      }),
    )
  })

  it('no area is made or lost: what stands and what was cut add up, but for slivers and what was cut too much', () => {
    fc.assert(
      fc.property(anyCase, ([field, cuts]) => {
        const now = standingHa(farmOf(field), cuts)
        const left = [...now.values()].reduce((sum, ha) => sum + ha, 0)
        const taken = cuts.reduce((sum, { areaHa }) => sum + areaHa, 0)
        const slivers = partsOf(field).length * 0.2
        expect(left).toBeGreaterThanOrEqual(field.areaHa - taken - slivers - 1e-9)
        const over = partsOf(field).reduce((sum, part) => sum + Math.max(0, -uncutHa(part, cuts)), 0)
        expect(left).toBeLessThanOrEqual(field.areaHa - taken + over + 1e-9)
      }),
    )
  })

  it('one more cut never makes more stand', () => {
    fc.assert(
      fc.property(anyCase, ([field, cuts]) => {
        const before = standingHa(farmOf(field), cuts.slice(0, -1))
        const after = standingHa(farmOf(field), cuts)
        for (const [key, ha] of after) expect(ha).toBeLessThanOrEqual(before.get(key)! + 1e-9)
      }),
    )
  })

  it('a part is finished exactly when nothing of it stands', () => {
    fc.assert(
      fc.property(anyCase, ([field, cuts]) => {
        const now = standingHa(farmOf(field), cuts)
        const finished = finishedAt(field, cuts)
        for (const [key, ha] of now) expect(finished.has(key)).toBe(ha === 0)
      }),
    )
  })
})
