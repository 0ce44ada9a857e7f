import { describe, expect, test } from 'vitest'
import { partsOf } from '#core/field/parts.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import type { PlanProblem } from '#core/planning/optimiser/problem.ts'
import { daysToRipe, lossAfter, moistureAfter, worthAfter } from '#core/planning/optimiser/tail.ts'
import { standingLossFraction } from '#core/science/loss/standing.ts'
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

  test('the longer it stands the faster it loses, corn most when it lodges', () => {
    // Philbrook & Oplinger 1989: 6.1 % at the first harvest, 13.9 % 42 days later: what weather adds to the rate comes on top.
    expect(lossAfter('soybean', 0.061, 11.3, 42)).toBeGreaterThan(0.139)
    const beans = [0, 10, 20, 30].map((days) => lossAfter('soybean', 0.02, 11.3, days))
    expect(beans[3]! - beans[2]!).toBeGreaterThan(beans[1]! - beans[0]!)
    const corn = [0, 20, 40, 60].map((days) => lossAfter('corn', 0, 15, days))
    expect(corn[1]! - corn[0]!).toBeLessThan(0.005)
    expect(corn[3]! - corn[2]!).toBeGreaterThan(4 * (corn[1]! - corn[0]!))
    expect(lossAfter('corn', 0, 15, 40)).toBeCloseTo(standingLossFraction('corn', 15, 40, 0), 3)
  })

  test('the problem has the outlook’s days and then weeks of seven days, with hours only where a part is ripe', () => {
    const { problem } = buildProblem(planInput(farm, [drying], { tailWeeks: 3 }))
    expect(problem.dayLength).toEqual([1, 1, 1, 1, 1, 7, 7, 7])
    const perBlock = Array.from({ length: problem.blocks.length }, (_, b) => meanFitH(problem, 0, b))
    expect(perBlock.slice(0, -3).every((hours) => hours === 0)).toBe(true)
    // FAO-56 table 2.6, 40 deg N, from memory: 30.0 MJ/m2 in the middle of September, 22.5 in that of October.
    expect(perBlock.at(-2)! / 7 / (0.34 * 0.55)).toBeGreaterThan(22.5)
    expect(perBlock.at(-2)! / 7 / (0.34 * 0.55)).toBeLessThan(30)
    expect(perBlock.at(-3)! / perBlock.at(-2)!).toBeCloseTo(2 / 7, 1)
    expect(perBlock.at(-1)!).toBeLessThan(perBlock.at(-2)!)
  })

  test('a crew has the share of the hours beyond that it has in the outlook; its members’ autumns differ, their mean is the usual', () => {
    const hoursOf = (startMinute: number) => {
      const crew = smallOutfit('outfit', { crewHours: { startMinute, endMinute: 1260 } })
      return buildProblem(planInput(smallFarm([field], [crew]), [dry], { tailWeeks: 2 })).problem
    }
    const [whole, half] = [hoursOf(480), hoursOf(14 * 60)]
    const last = whole.blocks.length - 1
    expect(meanFitH(half, 0, last) / meanFitH(whole, 0, last)).toBeCloseTo(0.5, 1)
    const each = Array.from({ length: whole.members }, (_, m) => whole.fitH[last * whole.members + m]!)
    expect(Math.max(...each)).toBeGreaterThan(1.5 * Math.min(...each))
    const next = Array.from({ length: whole.members }, (_, m) => whole.fitH[(last - 1) * whole.members + m]!)
    for (const [m, hours] of each.entries()) expect(hours / next[m]!).toBeCloseTo(each[0]! / next[0]!, 5)
  })
})

const meanFitH = ({ fitH, members }: PlanProblem, job: number, block: number): number =>
  fitH.subarray((job + block) * members, (job + block + 1) * members).reduce((sum, hours) => sum + hours, 0) / members
