import { describe, expect, test } from 'vitest'
import { partsOf } from '#core/field/parts.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import { daysToRipe, moistureAfter, worthAfter } from '#core/planning/optimiser/tail.ts'
import { planInput, smallFarm, smallField, smallOutfit, smallOutlook } from '#tests/support/small-outlook.ts'

const field = smallField('a')
const farm = smallFarm([field], [smallOutfit('outfit')])
const [part] = partsOf(field)
const terms = farm.buyers[0]!.terms[0]!
/** Dries by a point a day to 18 % on the last of five days. */
const drying = smallOutlook(part!, 5, 3, (hour, day) => ({
  fit: false,
  moistureWb: 22 - day + Math.abs(hour - 15) * 0.1,
}))
const dry = smallOutlook(part!, 5, 3, (hour) => ({ fit: hour >= 10 && hour < 18, moistureWb: 11 }))

describe('the weeks beyond the outlook', () => {
  test('18 % falling a point a day is ripe (13 %) in five days', () => {
    expect(daysToRipe(drying)).toBeCloseTo(5, 6)
    expect(daysToRipe(dry)).toBe(0)
  })

  test('grain dries on, but not below where it settles; what is dry stays as it is', () => {
    expect(moistureAfter(drying, 13, 3)).toBeCloseTo(13, 6)
    expect(moistureAfter(drying, 13, 6.5)).toBeCloseTo(11.5, 6)
    expect(moistureAfter(dry, 11, 3)).toBe(11)
  })

  test('beans settle at the mean of 112 truckloads in Nebraska (Pryor, Jasa & Zoubek 2016, UNL CropWatch)', () => {
    const loads = [5, 14, 28, 27, 29, 9]
    const mean = loads.reduce((sum, count, k) => sum + count * (8.5 + k), 0) / 112
    expect(mean).toBeCloseTo(11.29, 2)
    expect(Math.abs(moistureAfter(drying, 13, 60) - mean)).toBeLessThan(0.1)
  })

  test('each week of standing ripe costs money', () => {
    const each = [3, 10, 17, 24].map((days) => worthAfter(dry, terms, [0, 1, 2], 11, days))
    for (let k = 1; k < each.length; k++) expect(each[k]!).toBeLessThan(each[k - 1]!)
  })

  test('the problem has the outlook’s days and then weeks of seven days, with hours only where a part is ripe', () => {
    const { problem } = buildProblem(planInput(farm, [drying], { tailWeeks: 3 }))
    expect(problem.dayLength).toEqual([1, 1, 1, 1, 1, 7, 7, 7])
    const perBlock = Array.from({ length: problem.blocks.length }, (_, b) => problem.fitH[b * problem.members]!)
    expect(perBlock.slice(0, -3).every((hours) => hours === 0)).toBe(true)
    expect(perBlock.at(-3)).toBeCloseTo(2 * 4, 4)
    expect(perBlock.at(-1)).toBeCloseTo(7 * 4, 4)
  })
})
