import { describe, expect, it } from 'vitest'
import { banAt, fireOutlook, fireThrough } from '#core/outlook/day-fire.ts'
import { FIRE_LEVELS } from '#core/science/fire/care.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { testFarm } from '#tests/support/fields.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const CHICAGO = 'America/Chicago'
const START = epochHoursOf(Temporal.Instant.from('2010-09-30T05:00Z'))
const RULES = testFarm().fireRules
const DRY = { airTempC: 33, relHumidity: 0.12, windMs: 14, gustMs: 22 }

/** Dry and stormy from 12 to 16 in so many of ten members. */
const someDry = (dry: number) =>
  plainWeather({
    startEpochH: START,
    hours: 24,
    members: 10,
    set: Object.fromEntries(
      Object.entries(DRY).map(([variable, value]) => [
        variable,
        (m: number, h: number) =>
          m < dry && h >= 12 && h < 16 ? value : { airTempC: 20, relHumidity: 0.5, windMs: 4, gustMs: 6 }[variable]!,
      ]),
    ),
  })

const levels = (outlook: { level: Uint8Array }) => [...outlook.level].map((code) => FIRE_LEVELS[code])
const outlook = (dry: number, rules = RULES, official?: Uint8Array) =>
  fireOutlook(someDry(dry), rules, CHICAGO, false, official)

describe('the level of an hour', () => {
  it('is called when a third of the members reach it', () => {
    expect(levels(outlook(3))[13]).toBe('ordinary')
    expect(levels(outlook(4))[13]).toBe('stop')
    expect(levels(outlook(10))[11]).toBe('ordinary')
  })

  it('stops every course where it is called, so that nothing is planned into hours that the farm is told to leave', () => {
    const { stop, level } = outlook(4)
    expect(FIRE_LEVELS[level[13]!]).toBe('stop')
    for (let m = 0; m < 10; m++) expect(stop[m * 24 + 13]).toBe(1)
    expect(stop[9 * 24 + 11]).toBe(0)
  })

  it('stops each course that says so by itself', () => {
    const { stop } = outlook(3)
    expect([stop[0 * 24 + 13], stop[2 * 24 + 13], stop[3 * 24 + 13], stop[13 - 2]]).toEqual([1, 1, 0, 0])
  })

  it('is stop under a ban, all of its days by the farm calendar, whatever the weather', () => {
    const ban = { from: Temporal.PlainDate.from('2010-09-30'), to: Temporal.PlainDate.from('2010-09-30'), text: 'Ban' }
    const banned = fireOutlook(
      plainWeather({ startEpochH: START - 2, hours: 30 }),
      { ...RULES, bans: [ban] },
      CHICAGO,
      false,
    )
    expect(levels(banned)[1]).toBe('ordinary')
    expect(
      levels(banned)
        .slice(2, 26)
        .every((level) => level === 'stop'),
    ).toBe(true)
    expect(levels(banned)[26]).toBe('ordinary')
    expect(banAt({ ...RULES, bans: [ban] }, Temporal.PlainDate.from('2010-10-01'))).toBeUndefined()
  })

  it('is raised by an official notice', () => {
    const notice = new Uint8Array(24)
    notice[5] = 2
    expect(levels(outlook(0, RULES, notice))[5]).toBe('stop')
  })

  it('is not known where the weather is not', () => {
    const nothing = plainWeather({
      startEpochH: START,
      hours: 24,
      set: { airTempC: Number.NaN, relHumidity: Number.NaN, windMs: Number.NaN, gustMs: Number.NaN },
    })
    expect(levels(fireOutlook(nothing, RULES, CHICAGO, false))[12]).toBe('unknown')
  })
})

describe('a span of hours', () => {
  it('tells the worst level and when it holds', () => {
    const weather = someDry(10)
    const day = fireThrough(weather, outlook(10), START + 8, START + 20)
    expect([day.level, day.fromEpochH - START, day.untilEpochH - START]).toEqual(['stop', 12, 16])
    expect(day.relHumidity).toBeCloseTo(0.12, 6)
    expect(day.gustMs).toBeCloseTo(22, 5)
  })

  it('passes over hours that are not known instead of making the figures unknown', () => {
    const weather = plainWeather({
      startEpochH: START,
      hours: 24,
      set: { ...DRY, relHumidity: (_, h) => (h === 10 ? Number.NaN : 0.3) },
    })
    const day = fireThrough(weather, fireOutlook(weather, RULES, CHICAGO, false), START, START + 24)
    expect(day.relHumidity).toBeCloseTo(0.3, 6)
    expect(day.grassIndex).toBeGreaterThan(0)
  })

  it('without gusts in the source has no gust, and is still told', () => {
    const weather = plainWeather({ startEpochH: START, hours: 24, set: { gustMs: Number.NaN } })
    const day = fireThrough(weather, fireOutlook(weather, RULES, CHICAGO, false), START, START + 24)
    expect(day.gustMs).toBeNaN()
    expect(day.level).not.toBe('unknown')
  })

  it('without any hour in it is not known, and makes no number up', () => {
    const weather = someDry(0)
    const day = fireThrough(weather, outlook(0), START + 30, START + 40)
    expect(day).toEqual({
      level: 'unknown',
      fromEpochH: Number.NaN,
      untilEpochH: Number.NaN,
      relHumidity: Number.NaN,
      gustMs: Number.NaN,
      grassIndex: Number.NaN,
    })
  })
})
