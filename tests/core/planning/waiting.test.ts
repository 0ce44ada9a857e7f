import { describe, expect, it } from 'vitest'
import type { FieldPart } from '#core/field/parts.ts'
import type { Field } from '#core/operation/farm.ts'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import type { Run } from '#core/planning/plan.ts'
import { waitingParts } from '#core/planning/waiting.ts'
import { testFarm, testPart } from '#tests/support/fields.ts'
import { type HandMade, handOutlook } from '#tests/support/outlooks.ts'

const START = 357_000
const DAY_END = START + 24
const RATE = { haPerH: 5 } as OutfitRate

const outlook = (id: string, more: Partial<HandMade> = {}) =>
  handOutlook({ part: testPart({ id, name: id }), startEpochH: START, hours: 72, fitShare: () => 0, ...more })

function waiting(
  outlooks: readonly ReturnType<typeof outlook>[],
  { runs = [], left = new Map<string, number>(), headed = true, nowEpochH = START } = {},
) {
  const all = new Map([...outlooks.map(({ part }) => [part.key, part.areaHa] as const), ...left])
  return waitingParts(
    outlooks.map((each) => ({ outlook: each })),
    runs,
    all,
    { farm: testFarm(), nowEpochH, dayEnd: DAY_END, shortestH: 0.75, rateOf: () => (headed ? RATE : undefined) },
  )
}
const reasonOf = (more: Partial<HandMade>, options: Parameters<typeof waiting>[1] = {}) =>
  waiting([outlook('a', more)], options)[0]!.reason

const patched = (kind: 'green' | 'wet-hole'): FieldPart => ({
  ...testPart(),
  key: 'alder/p',
  patch: { id: 'p', name: 'P', share: 0.1, kind, laterDays: 5, handling: 'leave' },
})

describe('why a part waits', () => {
  it('is its commonest holdback at its best hour', () => {
    expect(reasonOf({ heldBackBy: 'soft-ground' })).toBe('soft-ground')
    expect(reasonOf({ fitShare: (h) => (h === 14 ? 0.4 : 0), heldBackBy: 'wet-plants' })).toBe('wet-plants')
  })

  it('is that others come first when it is fit', () => {
    expect(reasonOf({ fitShare: (h) => (h >= 12 && h < 16 ? 1 : 0) })).toBe('later-turn')
  })

  it('is that nobody can cut it when no outfit has the head', () => {
    expect(reasonOf({ fitShare: () => 1 }, { headed: false })).toBe('no-outfit')
  })

  it('is that nobody buys it when there is a head for the crop and no price', () => {
    const reason = (more: Partial<Field>) => reasonOf({ part: testPart(more), fitShare: () => 1 }, { headed: false })
    expect(reason({ buyerId: 'gone' })).toBe('no-buyer')
    expect(reason({ crop: 'oats' })).toBe('no-outfit')
  })

  it('is a short window where it is fit for less than a run: too short itself, or nearly over', () => {
    expect(reasonOf({ fitShare: (h) => (h === 12 ? 0.6 : 0) })).toBe('short-window')
    expect(reasonOf({ fitShare: (h) => (h >= 12 && h < 16 ? 1 : 0) }, { nowEpochH: START + 15.5 })).toBe('short-window')
  })

  it('is its greenness for a green patch, not for a wet hole or another reason', () => {
    expect(reasonOf({ part: patched('green'), heldBackBy: 'wet-grain' })).toBe('patch-green')
    expect(reasonOf({ part: patched('green'), heldBackBy: 'unripe' })).toBe('patch-green')
    expect(reasonOf({ part: patched('green'), heldBackBy: 'rain' })).toBe('rain')
    expect(reasonOf({ part: patched('wet-hole'), heldBackBy: 'wet-grain' })).toBe('wet-grain')
  })
})

describe('what is told of it', () => {
  it('moisture is that of the best hour: the fittest, the driest of equals', () => {
    const moistureWb = (h: number) => 20 - h / 4
    expect(waiting([outlook('a', { moistureWb })])[0]!.moistureWb).toBeCloseTo(20 - 23 / 4, 4)
    const fittest = waiting([outlook('a', { moistureWb, fitShare: (h) => (h === 8 ? 0.3 : 0) })])
    expect(fittest[0]!.moistureWb).toBeCloseTo(18, 4)
  })

  it('next is the first window after today, none where none is in sight', () => {
    const [later] = waiting([outlook('a', { fitShare: (h) => (h >= 34 && h < 40 ? 0.8 : 0) })])
    expect(later!.next!.startEpochH).toBeCloseTo(START + 34.2, 4)
    expect(waiting([outlook('a')])[0]!.next).toBeUndefined()
  })
})

describe('who waits', () => {
  it('is who was not run and still stands, in the order in which they are likely to be', () => {
    const soon = outlook('soon', { fitShare: (h) => (h >= 30 && h < 40 ? 1 : 0) })
    const late = outlook('late', { fitShare: (h) => (h >= 60 && h < 70 ? 1 : 0) })
    const run = { part: testPart({ id: 'run' }) } as Run
    const found = waiting([outlook('never'), late, soon, outlook('run'), outlook('done')], {
      runs: [run] as never[],
      left: new Map([['done', 0.1]]),
    })
    expect(found.map(({ part }) => part.key)).toEqual(['soon', 'late', 'never'])
  })

  it('never sorts two that have no window by chance', () => {
    expect(waiting([outlook('b'), outlook('a'), outlook('c')]).map(({ part }) => part.key)).toEqual(['b', 'a', 'c'])
  })
})
