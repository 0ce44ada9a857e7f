import { describe, expect, it } from 'vitest'
import type { OutfitRate } from '#core/planning/capacity/outfit.ts'
import { buyerShutsAt, haulEnd, leftOnWheelsL } from '#core/planning/haul-end.ts'
import type { Run } from '#core/planning/plan.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { testBuyer, testFarm, testOutfit, testPart } from '#tests/support/fields.ts'

const hours = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const date = (text: string) => Temporal.PlainDate.from(text)

/** Three trucks of 33,000 L, a cart of 35,000 L, two tanks of 11,000 L: 156,000 L in all. */
const HOLDS_L = 3 * 33_000 + 35_000 + 2 * 11_000
/** Two loads of the mean truck an hour. */
const RATE = { loadsPerHour: 2 } as OutfitRate
const L_PER_H = 2 * 33_000

describe('when the buyer shuts', () => {
  it.each([
    ['2010-11-06', '2010-11-06T19:00-05:00', 'America/Chicago'],
    ['2010-11-07', '2010-11-07T19:00-06:00', 'America/Chicago'],
    ['2010-11-07', '2010-11-07T19:00+05:30', 'Asia/Kolkata'],
  ])('on %s it is at %s: seven in the evening on the clock in %s', (day, instant, timeZone) => {
    expect(buyerShutsAt(testPart(), testFarm({ timeZone }), date(day))).toBe(hours(instant))
  })

  it('is never where nobody is named', () => {
    expect(buyerShutsAt(testPart({ buyerId: 'nobody' }), testFarm(), date('2010-11-06'))).toBe(Number.POSITIVE_INFINITY)
  })
})

describe('the end of hauling', () => {
  it('comes when all wheels are full after the buyer shut', () => {
    expect(haulEnd(testOutfit(), RATE, 100, 90, 0)).toBeCloseTo(100 + HOLDS_L / L_PER_H, 9)
    expect(haulEnd(testOutfit(), RATE, 100, 105, 0)).toBeCloseTo(105 + HOLDS_L / L_PER_H, 9)
  })

  it('comes sooner by what stands on the wheels already, and at once when they are full', () => {
    expect(haulEnd(testOutfit(), RATE, 100, 90, HOLDS_L - L_PER_H)).toBeCloseTo(101, 9)
    expect(haulEnd(testOutfit(), RATE, 100, 90, HOLDS_L)).toBe(90)
  })

  it('never comes when the loads are not known', () => {
    expect(haulEnd(testOutfit(), { loadsPerHour: Number.NaN } as OutfitRate, 100, 90, 0)).toBe(Number.POSITIVE_INFINITY)
  })
})

describe('what stays on the wheels', () => {
  const run = (startEpochH: number, endEpochH: number) => ({ startEpochH, endEpochH, volumeL: 80_000 }) as Run
  it('is what is cut after the buyer shut', () => {
    expect(leftOnWheelsL(run(90, 98), 100)).toBe(0)
    expect(leftOnWheelsL(run(96, 104), 100)).toBe(40_000)
    expect(leftOnWheelsL(run(101, 104), 100)).toBe(80_000)
  })
})

it('a farm that has no such buyer hauls without end', () => {
  const farm = testFarm({ buyers: [testBuyer({ id: 'other' })] })
  expect(haulEnd(testOutfit(), RATE, buyerShutsAt(testPart(), farm, date('2010-11-06')), 90, 0)).toBe(
    Number.POSITIVE_INFINITY,
  )
})
