import { describe, expect, it } from 'vitest'
import { atRiskPerHaDay, trackValue } from '#core/planning/value-track.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { testBuyer, testPart } from '#tests/support/fields.ts'
import { type HandMade, handOutlook } from '#tests/support/outlooks.ts'

const CHICAGO = 'America/Chicago'
const MIDNIGHT = epochHoursOf(Temporal.Instant.from('2010-09-30T05:00Z'))
const TERMS = testBuyer().terms[0]!
const daytime = (h: number) => (h % 24 >= 10 && h % 24 < 18 ? 1 : 0)

const track = (more: Partial<HandMade> = {}, days = 8) =>
  trackValue(
    handOutlook({ part: testPart(), startEpochH: MIDNIGHT, hours: 240, fitShare: daytime, ...more }),
    TERMS,
    CHICAGO,
    days,
  )

describe('value by day', () => {
  it('falls with what falls to the ground, by about its share of the crop', () => {
    const { fromDay } = track({ moistureWb: () => 12, lossPerDay: 0.02 })
    // 3.5 t/ha at 380 a tonne: 2 % a day are 26.6, a little less for dry weight and header.
    expect(fromDay[0]! - fromDay[1]!).toBeGreaterThan(20)
    expect(fromDay[0]! - fromDay[1]!).toBeLessThan(27)
    for (let d = 1; d < 8; d++) expect(fromDay[d]!).toBeLessThan(fromDay[d - 1]!)
  })

  it('of a day that is never fit is that of the next one that is', () => {
    const { fromDay, fitDayChance } = track({ fitShare: (h) => (h >= 48 ? daytime(h) : 0) })
    expect(fromDay[0]).toBeCloseTo(fromDay[2]!, 9)
    expect(fitDayChance.slice(0, 3)).toEqual([0, 0, expect.closeTo(1, 9)])
  })

  it('without any fit hour is that of cutting wet at the end, and it is known', () => {
    const { fromDay, fitDayChance } = track({ fitShare: () => 0, moistureWb: () => 24 })
    expect(fromDay[0]!).toBeGreaterThan(0)
    expect(fitDayChance.every((chance) => chance === 0)).toBe(true)
  })

  it('is known although the last days of the weather are not', () => {
    const { fromDay } = track({
      fitShare: (h) => (h < 24 ? daytime(h) : 0),
      moistureWb: (h) => (h < 130 ? 12 : Number.NaN),
    })
    expect(fromDay.every(Number.isFinite)).toBe(true)
  })

  it('is not known when no moisture is', () => {
    expect(track({ fitShare: () => 0, moistureWb: () => Number.NaN }).fromDay[0]).toBeNaN()
  })

  it('has a day for each local day in sight: less on the way out of the record', () => {
    expect(track({ hours: 30 }).fromDay.length).toBe(2)
    expect(track({ hours: 0 }).fromDay.length).toBe(0)
  })
})

describe('the price of waiting', () => {
  it('is the loss by day', () => {
    const risk = atRiskPerHaDay(track({ lossPerDay: 0.02 }))
    expect(risk).toBeGreaterThan(20)
    expect(risk).toBeLessThan(27)
  })

  it('rises with the loss', () => {
    const risks = [0, 0.01, 0.03].map((lossPerDay) => atRiskPerHaDay(track({ lossPerDay })))
    expect(risks[0]!).toBeLessThan(risks[1]!)
    expect(risks[1]!).toBeLessThan(risks[2]!)
  })

  it('is below nothing for grain that still dries into what is paid in full', () => {
    expect(atRiskPerHaDay(track({ lossPerDay: 0, moistureWb: (h) => Math.max(13, 19 - h / 20) }))).toBeLessThan(0)
  })

  it('does not pay dry grain for rain that may wet it again: what falls counts', () => {
    const wetted = track({ lossPerDay: 0.01, moistureWb: (h) => (h < 24 ? 9 : 12.9) })
    expect(wetted.dryEnough).toBe(true)
    expect(atRiskPerHaDay(wetted)).toBeGreaterThan(0)
  })

  it('is averaged over the days in sight where fewer than a round are left', () => {
    const long = atRiskPerHaDay(track({ lossPerDay: 0.02 }))
    const short = atRiskPerHaDay(track({ lossPerDay: 0.02, hours: 72 }))
    expect(short / long).toBeCloseTo(1, 1)
    expect(atRiskPerHaDay(track({ lossPerDay: 0.02, hours: 20 }))).toBe(0)
    const damp = { lossPerDay: 0.02, moistureWb: () => 14 }
    expect(atRiskPerHaDay(track({ ...damp, hours: 72 })) / atRiskPerHaDay(track(damp))).toBeCloseTo(1, 1)
  })
})
