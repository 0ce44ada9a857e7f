import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  CORN_WORST,
  cornStandingFraction,
  cornStandingPerDay,
  KG_M3_PER_LB_BU,
  wheatTestWeightKgM3,
} from '#core/science/loss/lodging.ts'
import { CORN_MICHIGAN, CORN_OHIO, D497_TIMELINESS, WHEAT_TEST_WEIGHT } from '#tests/truth/losses.ts'

/** Black layer in mid-September, harvests about the tenth of the month: common practice, no source. */
const OCTOBER = 25
const NOVEMBER = 55
const DECEMBER = 85

describe('corn left standing', () => {
  it('loses what Thomison, Geyer & Minyo found month by month', () => {
    expect(cornStandingFraction(NOVEMBER) - cornStandingFraction(OCTOBER)).toBeCloseTo(CORN_OHIO.octoberToNovember, 9)
    expect(cornStandingFraction(DECEMBER) - cornStandingFraction(NOVEMBER)).toBeCloseTo(CORN_OHIO.novemberToDecember, 9)
    expect(cornStandingFraction(DECEMBER) - cornStandingFraction(OCTOBER)).toBeCloseTo(CORN_OHIO.total, 9)
  })

  it('loses most of it after mid-November, as they say', () => {
    // They print "nearly 90 %", their means give 85 %.
    const share = CORN_OHIO.novemberToDecember / cornStandingFraction(DECEMBER)
    expect(Math.abs(share - CORN_OHIO.shareAfterMidNovember)).toBeLessThan(0.1)
  })

  it('agrees with Thelen from October to December within a point', () => {
    const michigan = CORN_MICHIGAN.december.total - CORN_MICHIGAN.october.total
    expect(cornStandingFraction(DECEMBER) - cornStandingFraction(OCTOBER)).toBeCloseTo(michigan, 2)
  })

  it('lies at an October harvest on the ground as Thelen counted', () => {
    const onGround = CORN_MICHIGAN.october.total - CORN_MICHIGAN.october.machine
    expect(cornStandingFraction(OCTOBER)).toBeCloseTo(onGround, 9)
  })

  it('loses over the three months about the D497 timeliness a day', () => {
    // 0.3 % a day is a mean of long delays; ours is 0.22 % from October to December and 0.37 % in the last month.
    expect(cornStandingPerDay(40)).toBeLessThan(D497_TIMELINESS.corn)
    expect(cornStandingPerDay(70)).toBeGreaterThan(D497_TIMELINESS.corn)
  })

  it('goes on after December at the last published rate', () => {
    const perDay = CORN_OHIO.novemberToDecember / 30
    expect(cornStandingPerDay(DECEMBER + 15)).toBeCloseTo(perDay, 9)
    expect(cornStandingFraction(DECEMBER + 10) - cornStandingFraction(DECEMBER)).toBeCloseTo(10 * perDay, 9)
  })

  it('adds up its own daily rates', () => {
    let lost = 0
    for (let day = 0; day < 120; day++) lost += cornStandingPerDay(day + 0.5)
    expect(lost).toBeCloseTo(cornStandingFraction(120), 9)
  })

  it('never falls, never passes its worst, and is nothing before maturity', () => {
    const anyDay = fc.double({ min: -100, max: 400, noNaN: true })
    fc.assert(
      fc.property(anyDay, fc.double({ min: 0, max: 50, noNaN: true }), (day, more) => {
        const lost = cornStandingFraction(day)
        expect(lost).toBeGreaterThanOrEqual(0)
        expect(cornStandingFraction(day + more)).toBeGreaterThanOrEqual(lost)
        expect(lost).toBeLessThanOrEqual(CORN_WORST)
        if (day < 0) expect(lost + cornStandingPerDay(day)).toBe(0)
      }),
    )
  })

  it('is unknown where the day is', () => {
    expect(cornStandingFraction(Number.NaN)).toBeNaN()
    expect(cornStandingPerDay(Number.NaN)).toBeNaN()
  })
})

describe('test weight of wheat', () => {
  it('falls a pound a wetting', () => {
    const sound = 60 * KG_M3_PER_LB_BU
    expect((sound - wheatTestWeightKgM3(sound, 3)) / KG_M3_PER_LB_BU).toBeCloseTo(3 * WHEAT_TEST_WEIGHT.lbPerWetting, 9)
  })

  it('falls in four wettings as in twelve days of Virginia', () => {
    // The number of wettings is not printed; a rain every three days is common practice, no source.
    const { before, after, fall } = WHEAT_TEST_WEIGHT.virginia
    const sound = before * KG_M3_PER_LB_BU
    const left = wheatTestWeightKgM3(sound, 4)
    expect(left / KG_M3_PER_LB_BU).toBeCloseTo(after, 0)
    expect(1 - left / sound).toBeCloseTo(fall, 2)
    // It prints 6.4 %; its means, each rounded to 0.1 lb, give 6.46 %.
    expect(Math.abs(1 - after / before - fall)).toBeLessThan(0.001)
  })

  it('falls in Ontario by a wetting every four to six days', () => {
    for (const { before, after, days } of WHEAT_TEST_WEIGHT.ontario) {
      const wettings = ((before - after) * 10) / KG_M3_PER_LB_BU
      expect(days / wettings).toBeGreaterThan(4)
      expect(days / wettings).toBeLessThan(6)
    }
  })

  it('falls no further than Farrer et al. saw', () => {
    expect(800 - wheatTestWeightKgM3(800, 50)).toBe(WHEAT_TEST_WEIGHT.worstKgM3)
  })

  it('never rises with rain', () => {
    fc.assert(
      fc.property(fc.double({ min: 300, max: 900, noNaN: true }), fc.integer({ min: 0, max: 30 }), (sound, rains) => {
        expect(wheatTestWeightKgM3(sound, rains + 1)).toBeLessThanOrEqual(wheatTestWeightKgM3(sound, rains))
        expect(wheatTestWeightKgM3(sound, rains)).toBeGreaterThan(0)
      }),
    )
  })

  it('is unknown where an input is unknown or out of range', () => {
    expect(wheatTestWeightKgM3(Number.NaN, 1)).toBeNaN()
    expect(wheatTestWeightKgM3(780, Number.NaN)).toBeNaN()
    expect(wheatTestWeightKgM3(0, 1)).toBeNaN()
    expect(wheatTestWeightKgM3(780, -1)).toBeNaN()
  })
})
