import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  massAfterDrying,
  massAtMoisture,
  overDryLoss,
  pencilShrink,
  waterShrink,
  waterShrinkPerPoint,
} from '#core/science/money/shrink.ts'
import {
  CORN_1000_LB,
  CORN_WATER_SHRINK,
  POUNDS_MISPRINTED,
  POUNDS_PER_STANDARD_BUSHEL,
  SHRINK_PER_POINT,
  SOYBEAN_OVER_DRY,
  SOYBEAN_OVER_DRY_DOLLARS,
  SOYBEAN_OVER_DRY_INCONSISTENT,
} from '#tests/truth/losses.ts'

const anyMoisture = fc.double({ min: 0, max: 60, noNaN: true })

describe('water shrink', () => {
  it.each(SHRINK_PER_POINT)('is $percent % a point down to $toWb %', ({ toWb, percent }) => {
    expect(waterShrinkPerPoint(toWb)).toBeCloseTo(percent, 3)
  })

  it.each(POUNDS_PER_STANDARD_BUSHEL)('$crop: $printed lb at $moistureWb % make a bushel', (row) => {
    expect(massAtMoisture(row.lb, row.standardWb, row.moistureWb)).toBeCloseTo(row.printed, 2)
  })

  it.each(POUNDS_MISPRINTED)('$crop at $moistureWb %: $printed is misprinted, $exact is right', (row) => {
    const exact = massAtMoisture(row.lb, row.standardWb, row.moistureWb)
    expect(exact).toBeCloseTo(row.exact, 2)
    expect(Math.abs(exact - row.printed)).toBeGreaterThan(0.01)
  })

  it('takes 11.24 % from corn between 25 and 15.5 %', () => {
    const { fromWb, toWb, percent } = CORN_WATER_SHRINK
    expect(100 * waterShrink(fromWb, toWb)).toBeCloseTo(percent, 2)
  })

  it('with handling leaves 876.7 of 1,000 lb corn', () => {
    const { fromWb, toWb, percent, withHandlingLb, handlingPercent } = CORN_1000_LB
    expect(100 * waterShrink(fromWb, toWb)).toBeCloseTo(percent, 2)
    // The source rounds its shrink to 12.33 % first; the exact figure is 876.66.
    expect(massAfterDrying(1000, fromWb, toWb, handlingPercent)).toBeCloseTo(withHandlingLb, 1)
  })

  it('goes there and back, and keeps the dry matter', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), anyMoisture, anyMoisture, (mass, from, to) => {
        const there = massAtMoisture(mass, from, to)
        expect(massAtMoisture(there, to, from)).toBeCloseTo(mass, 6)
        expect(there * (1 - to / 100)).toBeCloseTo(mass * (1 - from / 100), 6)
      }),
    )
  })

  it('is more from wetter grain and never a gain by drying', () => {
    fc.assert(
      fc.property(anyMoisture, fc.double({ min: 0.01, max: 30, noNaN: true }), (to, points) => {
        expect(waterShrink(to + points, to)).toBeGreaterThan(0)
        expect(waterShrink(to + points + 1, to)).toBeGreaterThan(waterShrink(to + points, to))
        expect(waterShrink(to + points, to)).toBeCloseTo((points * waterShrinkPerPoint(to)) / 100, 9)
      }),
    )
  })
})

describe('pencil shrink', () => {
  it('is linear above standard and nil below', () => {
    // 1.4 % a point, five points: 7 % (Michigan State extension).
    expect(pencilShrink(18, 13, 1.4)).toBeCloseTo(0.07, 12)
    expect(pencilShrink(10, 13, 1.4)).toBe(0)
  })

  it('at 1.2-1.5 % a point takes more than the water, whatever the moisture', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 15.6, max: 35, noNaN: true }),
        fc.double({ min: 1.2, max: 1.5, noNaN: true }),
        (wb, rate) => {
          expect(pencilShrink(wb, 15.5, rate)).toBeGreaterThan(waterShrink(wb, 15.5))
        },
      ),
    )
  })

  it('never takes more than the load', () => {
    expect(pencilShrink(99, 13, 9)).toBe(1)
  })
})

describe('weight given away by cutting too dry', () => {
  it.each(SOYBEAN_OVER_DRY)('soybeans at $moistureWb %: $percent %', ({ moistureWb, percent, within }) => {
    expect(Math.abs(100 * overDryLoss(moistureWb, 13) - percent)).toBeLessThanOrEqual(within)
  })

  it.each(SOYBEAN_OVER_DRY_DOLLARS)('$source: $buPerAcre bu at $moistureWb % cost $dollars', (row) => {
    const dollars = row.buPerAcre * overDryLoss(row.moistureWb, 13) * row.perBu
    expect(Math.abs(dollars - row.dollars)).toBeLessThanOrEqual(row.within)
  })

  it('one printed figure contradicts its own percentage', () => {
    const { buPerAcre, moistureWb, printedBu, exactBu } = SOYBEAN_OVER_DRY_INCONSISTENT
    const lost = buPerAcre * overDryLoss(moistureWb, 13)
    expect(lost).toBeCloseTo(exactBu, 9)
    expect(Math.abs(lost - printedBu)).toBeGreaterThan(0.05)
  })

  it('grows as grain dries and is nil at standard and above', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 13, noNaN: true }), (wb) => {
        expect(overDryLoss(wb * 0.9, 13)).toBeGreaterThanOrEqual(overDryLoss(wb, 13))
        expect(overDryLoss(13 + wb, 13)).toBe(0)
      }),
    )
  })
})

describe('unknown moisture', () => {
  it('stays unknown', () => {
    for (const wb of [Number.NaN, -0.1, 100]) {
      expect(massAtMoisture(1, wb, 13)).toBeNaN()
      expect(massAtMoisture(1, 13, wb)).toBeNaN()
      expect(waterShrink(wb, 13)).toBeNaN()
      expect(waterShrinkPerPoint(wb)).toBeNaN()
      expect(massAfterDrying(1, wb, 13, 0.5)).toBeNaN()
      expect(pencilShrink(wb, 13, 1.4)).toBeNaN()
      expect(overDryLoss(wb, 13)).toBeNaN()
    }
    expect(massAtMoisture(Number.NaN, 20, 13)).toBeNaN()
    expect(massAfterDrying(1, 20, 13, Number.NaN)).toBeNaN()
    expect(massAfterDrying(1, 20, 13, 101)).toBeNaN()
    expect(pencilShrink(20, 13, -1)).toBeNaN()
  })
})
