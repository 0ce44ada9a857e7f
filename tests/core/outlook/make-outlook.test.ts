import { describe, expect, it } from 'vitest'
import { Cell } from '#core/field/cell.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { UNRIPE } from '#core/field/standing.ts'
import type { PartState } from '#core/field/state.ts'
import { HOLDBACK_BIT, type Holdback, holdbacksIn } from '#core/outlook/holdback.ts'
import { buyerShutHours, makeOutlook, type SharedHoldbacks } from '#core/outlook/make-outlook.ts'
import { emptySeries } from '#core/science/engine/courses.ts'
import type { Weather } from '#core/units/weather.ts'
import { testField, testPart } from '#tests/support/fields.ts'
import { type Plan, plainWeather } from '#tests/support/plain-weather.ts'

const START = 357_000
const HOURS = 48
const COURSES = 6

const weatherWith = (set: Plan['set'] = {}, members = 2) =>
  plainWeather({ startEpochH: START, hours: HOURS, members, set })

function stateOf(part: FieldPart, startWb: number, matureEpochH = START - 24 * 30): PartState {
  return {
    part,
    particles: Array.from({ length: COURSES }, () => ({
      matureEpochH,
      moistureAtMaturityWb: 57,
      dryingFactor: 1,
      exchangeHours: 13,
      equilibriumOffsetWb: 0,
    })),
    moistureWb: new Float32Array(COURSES).fill(startWb),
    depletionMm: new Float32Array(COURSES).fill(30),
    standing: Array.from({ length: COURSES }, () => UNRIPE),
    past: emptySeries(COURSES, 0),
  }
}

const nothing = (weather: Weather): SharedHoldbacks => ({
  always: new Uint16Array(weather.hours),
  fireStop: new Uint8Array(weather.members * weather.hours),
})

interface Case {
  readonly set?: Plan['set']
  readonly startWb?: number
  readonly matureEpochH?: number
  readonly part?: FieldPart
  readonly shared?: Partial<SharedHoldbacks>
  readonly buyerShut?: Uint8Array
  readonly depletionMm?: number
}

function outlook({
  set,
  startWb = 11,
  matureEpochH,
  part = testPart(),
  shared = {},
  buyerShut,
  depletionMm,
}: Case = {}) {
  const weather = weatherWith(set)
  const state = stateOf(part, startWb, matureEpochH)
  if (depletionMm !== undefined) state.depletionMm.fill(depletionMm)
  return makeOutlook(state, new Cell(weather), { ...nothing(weather), ...shared }, buyerShut ?? new Uint8Array(HOURS))
}

const heldBy = (o: ReturnType<typeof outlook>, course: number, hour: number): Holdback[] =>
  holdbacksIn(o.holdbackBits[course * HOURS + hour]!)

describe('a fine day for dry grain', () => {
  it('holds nothing back, and is one window from end to end', () => {
    const o = outlook()
    expect(o.holdbackBits.every((bits) => bits === 0)).toBe(true)
    expect(o.fitChance.every((chance) => chance === 1)).toBe(true)
    expect(o.windows.map((w) => [w.startEpochH - START, w.endEpochH - START, w.chance])).toEqual([[0, HOURS, 1]])
  })
})

describe('each holdback', () => {
  const at = (hour: number, value: number, otherwise: number) => (_: number, h: number) =>
    h === hour ? value : otherwise

  it.each<[Holdback, Case]>([
    ['unknown', { set: { airTempC: at(5, Number.NaN, 20) } }],
    ['unknown', { set: { windMs: at(5, Number.NaN, 4) } }],
    ['unripe', { matureEpochH: START + 6 }],
    ['wet-grain', { startWb: 22 }],
    ['rain', { set: { rainMm: at(5, 0.3, 0) } }],
    ['wet-plants', { set: { rainMm: at(5, 4, 0) } }],
    ['soft-ground', { depletionMm: 0, set: { rainMm: at(5, 4, 0) } }],
    ['fire-stop', { shared: { fireStop: new Uint8Array(2 * HOURS).fill(1) } }],
    ['wind', { set: { windMs: at(5, 15.5, 4) } }],
    ['buyer-shut', { buyerShut: new Uint8Array(HOURS).fill(1) }],
    ['crew-off', { shared: { always: new Uint16Array(HOURS).fill(HOLDBACK_BIT['crew-off']) } }],
    ['dark', { shared: { always: new Uint16Array(HOURS).fill(HOLDBACK_BIT.dark) } }],
  ])('%s is told in its hour', (name, given) => {
    expect(heldBy(outlook(given), 0, 5)).toContain(name)
  })

  it('is lifted again: the hour before a gust and the hour after it are free', () => {
    const o = outlook({ set: { windMs: at(5, 15.5, 4) } })
    expect([heldBy(o, 0, 4), heldBy(o, 0, 5), heldBy(o, 0, 6)]).toEqual([[], ['wind'], []])
  })

  it('drizzle below what a gauge reads, and a breeze at the limit, do not stop a combine', () => {
    expect(heldBy(outlook({ set: { windMs: 15 } }), 0, 5)).toEqual([])
    expect(heldBy(outlook({ set: { rainMm: at(5, 0.2, 0) } }), 0, 5)).not.toContain('rain')
  })

  it('tough stems follow water on the plants: damp nights toughen, they are never told in dry weather', () => {
    const damp = outlook({ set: { relHumidity: 0.97, airTempC: 12, solarWm2: 0, windMs: 1 } })
    const told = Array.from({ length: HOURS }, (_, h) => heldBy(damp, 0, h)).flat()
    expect(told.some((name) => name === 'tough-stems' || name === 'wet-plants')).toBe(true)
  })
})

describe('courses and members', () => {
  it('a course follows its own member: what stops one member stops its courses only', () => {
    const o = outlook({ set: { rainMm: (m, h) => (m === 1 && h === 5 ? 2 : 0) } })
    for (let c = 0; c < COURSES; c++) expect(heldBy(o, c, 5).includes('rain')).toBe(c % 2 === 1)
    expect(o.fitChance[5]).toBe(0.5)
  })

  it('the chance of an hour is the share of courses without a holdback, and quantiles are in order', () => {
    const o = outlook({ startWb: 13.4, set: { relHumidity: (m) => (m === 0 ? 0.4 : 0.7) } })
    for (let h = 0; h < HOURS; h++) {
      const fit = Array.from({ length: COURSES }, (_, c) => o.holdbackBits[c * HOURS + h]).filter((bits) => bits === 0)
      expect(o.fitChance[h]).toBeCloseTo(fit.length / COURSES, 6)
      expect(o.lowWb[h]!).toBeLessThanOrEqual(o.medianWb[h]!)
      expect(o.medianWb[h]!).toBeLessThanOrEqual(o.highWb[h]!)
    }
  })

  it('loss only grows, and only of ripe grain', () => {
    const ripe = outlook({ startWb: 9 })
    const green = outlook({ startWb: 40, matureEpochH: START + 24 * 20 })
    for (let h = 1; h < HOURS; h++) expect(ripe.standingLoss[h]!).toBeGreaterThanOrEqual(ripe.standingLoss[h - 1]!)
    expect(ripe.standingLoss[HOURS - 1]!).toBeGreaterThan(0)
    expect(green.standingLoss.every((loss) => loss === 0)).toBe(true)
  })
})

describe('weather that is not known', () => {
  it('makes no hour fit, no window and no moisture', () => {
    const o = outlook({ set: { airTempC: Number.NaN, relHumidity: Number.NaN } })
    expect(o.fitChance.every((chance) => chance === 0)).toBe(true)
    expect(o.windows).toEqual([])
    expect(o.medianWb.every(Number.isNaN)).toBe(true)
    expect(heldBy(o, 0, 5)[0]).toBe('unknown')
  })
})

describe('a wet hole', () => {
  it('softens sooner than the rest of its field', () => {
    const field = testField({ soil: { texture: 'silty-clay-loam', drainage: 'tiled' } })
    const patch = { id: 'h', name: 'Hole', share: 0.1, kind: 'wet-hole', laterDays: 0, handling: 'leave' } as const
    const soft = (part: FieldPart) => {
      const o = outlook({ part, depletionMm: 12, set: { rainMm: at6 } })
      return Array.from({ length: HOURS }, (_, h) => heldBy(o, 0, h).includes('soft-ground')).filter(Boolean).length
    }
    const at6 = (_: number, h: number) => (h === 6 ? 25 : 0)
    expect(soft({ key: 'a/h', field, patch, areaHa: 4 })).toBeGreaterThanOrEqual(soft({ key: 'a', field, areaHa: 36 }))
  })
})

describe('a buyer', () => {
  it('is shut on his days, for his fields', () => {
    const weekdays = Uint8Array.of(5, 6, 7, 1)
    const closed = (id: string) => (id === 'mill' ? [6, 7] : [])
    expect([...buyerShutHours(testField(), closed, weekdays)]).toEqual([0, 1, 1, 0])
    expect([...buyerShutHours(testField({ buyerId: 'dock' }), closed, weekdays)]).toEqual([0, 0, 0, 0])
  })
})
