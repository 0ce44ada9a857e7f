import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DEFAULT_FIRE_THRESHOLDS,
  FIRE_LEVELS,
  FIRE_REASON_CODES,
  type FireHour,
  type FireLevel,
  fireCare,
  fireLimits,
  LEVEL_CARE,
  LEVEL_ORDINARY,
  LEVEL_STOP,
  LEVEL_UNKNOWN,
  REASON,
  TIGHTENED_SHARE,
} from '#core/science/fire/care.ts'
import { grassIndexMark4 } from '#core/science/fire/grass.ts'
import { MS_PER_KMH, MS_PER_MPH } from '#core/units/convert.ts'
import { STOP_CELL } from '#tests/truth/grass-fire.ts'

const MILD: FireHour = { airTempC: 20, relHumidity: 0.45, windMs: 2, gustMs: 4 }
const codes = (hour: FireHour) => fireCare(hour).reasons.map((reason) => reason.code)
const level = (hour: FireHour): FireLevel => fireCare(hour).level
/** How bad a known level is. */
const rank = (name: FireLevel): number => ['ordinary', 'care', 'stop'].indexOf(name)

const value = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const hourArb = fc.record({
  airTempC: value(-50, 55),
  relHumidity: value(0, 1),
  windMs: value(0, 40),
  gustMs: fc.oneof(fc.constant(Number.NaN), value(0, 60)),
  strawDry: fc.boolean(),
  droughtIndexMm: fc.oneof(fc.constant(Number.NaN), value(0, 203.2)),
})

describe('level', () => {
  it('is ordinary on a mild day, with no reason', () => {
    expect(fireCare(MILD)).toEqual({ level: 'ordinary', reasons: [] })
  })

  it('stops from the wind that the grain harvest code prints', () => {
    // South Australian Country Fire Service: 35 deg C, 10 % column, 26 km/h.
    const at = (kmh: number): FireHour => ({
      airTempC: STOP_CELL.airTempC,
      relHumidity: STOP_CELL.columnHumidity / 100,
      windMs: kmh * MS_PER_KMH,
      gustMs: Number.NaN,
    })
    expect(level(at(STOP_CELL.windKmh))).toBe('stop')
    expect(level(at(STOP_CELL.windKmh - 1))).toBe('care')
  })

  it('takes care from a gust of 25 mph, a wind of 20 mph, and at 20 % humidity', () => {
    // US National Weather Service offices of Nebraska and Kansas 2018; Iowa State University Extension 2021.
    expect(codes({ ...MILD, gustMs: 25.01 * MS_PER_MPH })).toEqual(['gust'])
    expect(codes({ ...MILD, gustMs: 24.99 * MS_PER_MPH })).toEqual([])
    expect(codes({ ...MILD, windMs: 20.01 * MS_PER_MPH })).toContain('wind')
    expect(codes({ ...MILD, relHumidity: 0.2 })).toEqual(['dry-air'])
    expect(codes({ ...MILD, relHumidity: 0.21 })).toEqual([])
  })

  it('takes a figure as met though stored with 32 bits', () => {
    const { careGustMs, careWindMs, careRelHumidity } = DEFAULT_FIRE_THRESHOLDS
    expect(codes({ ...MILD, gustMs: Math.fround(careGustMs) })).toEqual(['gust'])
    expect(codes({ ...MILD, windMs: Math.fround(careWindMs) })).toContain('wind')
    expect(codes({ ...MILD, relHumidity: Math.fround(careRelHumidity) })).toEqual(['dry-air'])
  })

  it('counts wind for nothing in damp air', () => {
    expect(level({ airTempC: 10, relHumidity: 0.9, windMs: 12, gustMs: 18 })).toBe('ordinary')
  })

  it('gives the values and figures behind its reasons', () => {
    const hour = { airTempC: 35, relHumidity: 0.18, windMs: 6, gustMs: 12 }
    expect(fireCare(hour).reasons).toEqual([
      { code: 'gust', gustMs: 12, limitMs: DEFAULT_FIRE_THRESHOLDS.careGustMs },
      { code: 'dry-air', relHumidity: 0.18, limit: 0.2 },
      { code: 'grass-care', grassIndex: grassIndexMark4(35, 0.18, 6), limit: 20 },
    ])
  })

  it('tightens wind, gust and care index in dry straw or drought, not the stop', () => {
    const hour = { ...MILD, gustMs: 22 * MS_PER_MPH }
    expect(codes(hour)).toEqual([])
    const straw = fireCare({ ...hour, strawDry: true })
    expect(straw.level).toBe('care')
    expect(straw.reasons[0]).toEqual({
      code: 'gust',
      gustMs: hour.gustMs,
      limitMs: TIGHTENED_SHARE * DEFAULT_FIRE_THRESHOLDS.careGustMs,
    })
    expect(codes({ ...hour, droughtIndexMm: 160 })).toEqual(['gust', 'drought'])
    expect(codes({ ...hour, droughtIndexMm: 140 })).toEqual([])
    // Index 30: above the tightened care figure, below the stop.
    const warm = { airTempC: 35, relHumidity: 0.3, windMs: 7.5, gustMs: Number.NaN }
    expect(grassIndexMark4(35, 0.3, 7.5)).toBeLessThan(35)
    expect(level({ ...warm, strawDry: true })).toBe('care')
  })

  it('does not take care for dry straw alone, but names it', () => {
    expect(fireCare({ ...MILD, strawDry: true })).toEqual({ level: 'ordinary', reasons: [{ code: 'dry-straw' }] })
  })
})

describe('official notice', () => {
  it('raises: a ban to stop, a warning by one', () => {
    expect(level({ ...MILD, official: 'ban' })).toBe('stop')
    expect(level({ ...MILD, official: 'warning' })).toBe('care')
    expect(level({ ...MILD, relHumidity: 0.15, official: 'warning' })).toBe('stop')
    expect(codes({ ...MILD, official: 'ban' })).toEqual(['ban'])
  })

  it('holds though the weather is unknown', () => {
    const unknown = { ...MILD, relHumidity: Number.NaN }
    expect(level({ ...unknown, official: 'ban' })).toBe('stop')
    expect(fireCare({ ...unknown, official: 'warning' })).toEqual({
      level: 'care',
      reasons: [{ code: 'warning' }, { code: 'weather-unknown' }],
    })
  })

  it('never lowers', () => {
    fc.assert(
      fc.property(hourArb, (hour) => {
        const none = rank(level(hour))
        expect(rank(level({ ...hour, official: 'warning' }))).toBe(Math.min(2, none + 1))
        expect(level({ ...hour, official: 'ban' })).toBe('stop')
      }),
    )
  })
})

describe('unknown input', () => {
  it.each(['airTempC', 'relHumidity', 'windMs'] as const)('%s makes the level unknown', (name) => {
    expect(fireCare({ ...MILD, gustMs: 30, [name]: Number.NaN })).toEqual({
      level: 'unknown',
      reasons: [{ code: 'weather-unknown' }],
    })
    expect(level({ ...MILD, relHumidity: 45 })).toBe('unknown')
  })

  it('judges by the mean wind where there is no gust, and says so', () => {
    expect(fireCare({ ...MILD, gustMs: Number.NaN })).toEqual({
      level: 'ordinary',
      reasons: [{ code: 'gust-unknown' }],
    })
  })

  it('refuses thresholds with which nothing would ever be called out', () => {
    for (const name of Object.keys(DEFAULT_FIRE_THRESHOLDS)) {
      expect(() => fireLimits({ ...DEFAULT_FIRE_THRESHOLDS, [name]: Number.NaN })).toThrow(RangeError)
      expect(() => fireLimits({ ...DEFAULT_FIRE_THRESHOLDS, [name]: 0 })).toThrow(RangeError)
    }
  })
})

describe('any hour', () => {
  it('is known from known weather, and never milder when hotter, drier or windier', () => {
    fc.assert(
      fc.property(hourArb, (hour) => {
        const here = level(hour)
        expect(here).not.toBe('unknown')
        for (const worse of [
          { ...hour, airTempC: hour.airTempC + 5 },
          { ...hour, relHumidity: hour.relHumidity * 0.7 },
          { ...hour, windMs: hour.windMs + 3 },
          { ...hour, gustMs: hour.gustMs + 3 },
          { ...hour, strawDry: true },
          { ...hour, droughtIndexMm: 200 },
        ]) {
          expect(rank(level(worse))).toBeGreaterThanOrEqual(rank(here))
        }
      }),
    )
  })

  it('has a reason for every level above ordinary', () => {
    fc.assert(
      fc.property(hourArb, (hour) => {
        if (level(hour) !== 'ordinary') expect(codes(hour).filter((code) => code !== 'gust-unknown')).not.toEqual([])
      }),
    )
  })
})

describe('codes', () => {
  it('gives each reason a bit of its own, within 16', () => {
    const bits = FIRE_REASON_CODES.map((code) => REASON[code])
    expect(new Set(bits).size).toBe(bits.length)
    for (const bit of bits) expect(Math.log2(bit) % 1).toBe(0)
    expect(Math.max(...bits)).toBeLessThan(2 ** 16)
  })

  it('names the levels in the order of their numbers', () => {
    expect(FIRE_LEVELS[LEVEL_ORDINARY]).toBe('ordinary')
    expect(FIRE_LEVELS[LEVEL_CARE]).toBe('care')
    expect(FIRE_LEVELS[LEVEL_STOP]).toBe('stop')
    expect(FIRE_LEVELS[LEVEL_UNKNOWN]).toBe('unknown')
  })
})
