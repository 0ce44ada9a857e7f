import { describe, expect, test } from 'vitest'
import { planWeek } from '#app/plan-week.ts'
import { partsOf } from '#core/field/parts.ts'
import type { Buyer } from '#core/operation/farm.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import { brokenDayRules } from '#core/planning/optimiser/check-day.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { Run } from '#core/planning/plan.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'
import { planInput, smallFarm, smallField, smallOutfit, smallOutlook } from '#tests/support/small-outlook.ts'

const WET_WB = 22
const POINTS = WET_WB - 15

/** Two outfits, two fields of corn at 22 %, one elevator with or without a dryer. */
function cornFarm(dryer: Buyer['dryer']) {
  const corn = { crop: 'corn', usualYieldTHa: 12, areaHa: 80, band: { lowWb: 14, highWb: 24 } } as const
  const fields = [smallField('near', corn), smallField('far', corn)]
  const outlooks = fields
    .flatMap(partsOf)
    .map((part) => smallOutlook(part, 4, 4, (hour) => ({ fit: hour >= 9 && hour < 20, moistureWb: WET_WB }), 0.03))
  const farm = smallFarm(fields, [smallOutfit('one'), smallOutfit('two')])
  const buyers = farm.buyers.map((buyer) => (dryer ? { ...buyer, dryer } : buyer))
  return planInput({ ...farm, buyers }, outlooks)
}
const wetT = (runs: readonly Run[]) =>
  runs.reduce((sum, { massT, startMoistureWb }) => sum + massAtMoisture(massT, 15, startMoistureWb), 0)

describe('a dryer in the way of wet corn', () => {
  const dryer = { tPointsPerH: 100, wetBinT: 40 }
  // By hand: 100 / 7 = 14.3 t an hour day and night, so 343 wet tonnes a day; by the hour of twelve, 14.3 + 40 / 12 = 17.6 t.
  const perHourT = 100 / POINTS + 40 / 12
  const perDayT = perHourT * 12

  test('both outfits together bring no more in a day than it dries, though each alone could', async () => {
    const free = await planWeek(cornFarm(undefined), undefined)
    expect(wetT(free.day.runs)).toBeGreaterThan(1.2 * perDayT)
    const bound = await planWeek(cornFarm(dryer), undefined)
    expect(wetT(bound.day.runs)).toBeLessThanOrEqual(perDayT * 1.001)
    expect(wetT(bound.day.runs)).toBeGreaterThan(0.7 * perDayT)
  })

  test('the simple plan keeps to it as well', () => {
    const input = cornFarm(dryer)
    const { runs } = firstPlan({ ...input, rateOf: rateIn(input.farm) })
    expect(wetT(runs)).toBeLessThanOrEqual(perDayT * 1.001)
    expect(runs.every(({ limitedBy }) => limitedBy === 'buyer')).toBe(true)
  })

  test('the check apart from the plan finds a day that brings more than it dries', async () => {
    const { day } = await planWeek(cornFarm(undefined), undefined)
    const input = cornFarm(dryer)
    const rules = brokenDayRules(day, input).map(({ rule }) => rule)
    expect(rules).toContain('buyer-full')
    const { day: sound } = await planWeek(input, undefined)
    expect(brokenDayRules(sound, input)).toEqual([])
  })
})
