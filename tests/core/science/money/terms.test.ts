import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BuyerTerms } from '#core/operation/farm.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { type PaymentTerms, payment, tableDeduction } from '#core/science/money/terms.ts'
import { kgPerBushel } from '#core/units/convert.ts'
import { CORN_SOLD_WET, ELEVATOR_SCHEDULE, SOYBEAN_SOLD_WET } from '#tests/truth/losses.ts'

const SOYBEAN_T = kgPerBushel(CROP_TRADE.soybean.lbPerBu) / 1000
const CORN_T = kgPerBushel(CROP_TRADE.corn.lbPerBu) / 1000

const soybeanTerms: PaymentTerms = {
  pricePerT: SOYBEAN_SOLD_WET.perBu / SOYBEAN_T,
  standardMoistureWb: 13,
  shrinkPerPoint: SOYBEAN_SOLD_WET.shrinkPerPoint,
  dockPerPoint: 0,
  dryingPerTPoint: SOYBEAN_SOLD_WET.dryingPerBuPoint / SOYBEAN_T,
}
const cornTerms: PaymentTerms = {
  pricePerT: CORN_SOLD_WET.perBu / CORN_T,
  standardMoistureWb: CORN_SOLD_WET.standardWb,
  shrinkPerPoint: 0,
  dockPerPoint: CORN_SOLD_WET.dockPerPoint,
  dryingPerTPoint: 0,
}
const elevatorTerms: PaymentTerms = {
  pricePerT: 180,
  standardMoistureWb: ELEVATOR_SCHEDULE.standardWb,
  shrinkPerPoint: ELEVATOR_SCHEDULE.shrinkPerPoint,
  dockPerPoint: 0,
  dryingPerTPoint: 0,
  dryingTable: ELEVATOR_SCHEDULE.drying.map((tier) => ({
    ...tier,
    base: tier.base / CORN_T,
    add: tier.add / CORN_T,
  })),
}

const anyTerms = fc.record({
  pricePerT: fc.double({ min: 0, max: 1000, noNaN: true }),
  standardMoistureWb: fc.double({ min: 5, max: 18, noNaN: true }),
  shrinkPerPoint: fc.double({ min: 0, max: 2, noNaN: true }),
  dockPerPoint: fc.double({ min: 0, max: 3, noNaN: true }),
  dryingPerTPoint: fc.double({ min: 0, max: 5, noNaN: true }),
})
const anyMoisture = fc.double({ min: 0, max: 40, noNaN: true })
const anyMass = fc.double({ min: 0, max: 1000, noNaN: true })

describe('a load by linear terms', () => {
  it.each(SOYBEAN_SOLD_WET.rows)('soybeans at $moistureWb % bring $netPerAcre an acre (Michigan State)', (row) => {
    const paid = payment({ terms: soybeanTerms, moistureWb: row.moistureWb, wetMassT: row.wetBu * SOYBEAN_T })
    expect(paid.paidT / SOYBEAN_T).toBeCloseTo(row.paidBu, 1)
    expect(Math.abs(paid.net - row.netPerAcre)).toBeLessThan(SOYBEAN_SOLD_WET.within)
  })

  it('corn at 20.5 % brings 3,110 by dock and costs 264 to dry (Iowa State A2-32)', () => {
    const load = { moistureWb: CORN_SOLD_WET.moistureWb, wetMassT: CORN_SOLD_WET.wetBu * CORN_T }
    const docked = payment({ terms: cornTerms, ...load })
    expect(Math.abs(docked.net - CORN_SOLD_WET.dockedDollars)).toBeLessThan(CORN_SOLD_WET.dockedWithin)
    expect(docked.dock).toBeCloseTo(385, 9) // 11 % of 3,500

    const drying = { ...cornTerms, dockPerPoint: 0, dryingPerTPoint: CORN_SOLD_WET.dryingPerBuPoint / CORN_T }
    expect(payment({ terms: drying, ...load }).drying).toBeCloseTo(CORN_SOLD_WET.dryingDollars, 9)
  })

  it('takes the terms of a farm file as they are', () => {
    const ofFarm: BuyerTerms = { crop: 'soybean', ...soybeanTerms, refuseAboveWb: 18 }
    expect(payment({ terms: ofFarm, moistureWb: 13, wetMassT: 10 }).net).toBeCloseTo(10 * soybeanTerms.pricePerT, 9)
  })

  it('adds up', () => {
    fc.assert(
      fc.property(anyTerms, anyMoisture, anyMass, (terms, moistureWb, wetMassT) => {
        const { paidT, grossPerT, dock, drying, net } = payment({ terms, moistureWb, wetMassT })
        expect(net).toBeCloseTo(grossPerT * wetMassT - dock - drying, 6)
        expect(paidT).toBeLessThanOrEqual(wetMassT)
        expect(paidT).toBeGreaterThanOrEqual(0)
        expect(dock).toBeGreaterThanOrEqual(0)
        expect(drying).toBeGreaterThanOrEqual(0)
        expect(net).toBeLessThanOrEqual(wetMassT * terms.pricePerT + 1e-9)
      }),
    )
  })

  it('pays by the tonne: twice the load, twice the money', () => {
    fc.assert(
      fc.property(anyTerms, anyMoisture, anyMass, (terms, moistureWb, wetMassT) => {
        const one = payment({ terms, moistureWb, wetMassT })
        const two = payment({ terms, moistureWb, wetMassT: 2 * wetMassT })
        expect(two.net).toBeCloseTo(2 * one.net, 6)
        expect(two.grossPerT).toBe(one.grossPerT)
      }),
    )
  })

  it('never pays more for a wetter load of the same weight, nor more for a drier one below standard', () => {
    fc.assert(
      fc.property(anyTerms, anyMoisture, fc.double({ min: 0, max: 10, noNaN: true }), (terms, wb, more) => {
        const at = (moistureWb: number) => payment({ terms, moistureWb, wetMassT: 10 })
        expect(at(wb + more).paidT).toBeLessThanOrEqual(at(wb).paidT)
        expect(at(wb + more).drying).toBeGreaterThanOrEqual(at(wb).drying)
        const dry = Math.min(wb, terms.standardMoistureWb)
        expect(at(dry).net).toBeCloseTo(10 * terms.pricePerT, 6)
      }),
    )
  })

  it('refuses what is too wet, and only that', () => {
    const terms = { ...soybeanTerms, refuseAboveWb: 18 }
    expect(payment({ terms, moistureWb: 18, wetMassT: 10 }).refused).toBe(false)
    const refused = payment({ terms, moistureWb: 18.1, wetMassT: 10 })
    expect(refused).toEqual({ refused: true, paidT: 0, grossPerT: 0, dock: 0, drying: 0, net: 0 })
  })

  it('is unknown where an input is unknown or out of range', () => {
    for (const moistureWb of [Number.NaN, -1, 100]) {
      const { paidT, grossPerT, net } = payment({
        terms: { ...soybeanTerms, refuseAboveWb: 18 },
        moistureWb,
        wetMassT: 1,
      })
      expect([paidT, grossPerT, net]).toEqual([Number.NaN, Number.NaN, Number.NaN])
    }
    expect(payment({ terms: soybeanTerms, moistureWb: 13, wetMassT: Number.NaN }).net).toBeNaN()
    expect(payment({ terms: soybeanTerms, moistureWb: 13, wetMassT: -1 }).net).toBeNaN()
  })
})

describe('a load by a printed table', () => {
  it.each(ELEVATOR_SCHEDULE.rows)('at $moistureWb %: $shrink of weight, $drying a bushel', (row) => {
    expect(tableDeduction(ELEVATOR_SCHEDULE.drying, row.moistureWb)).toBeCloseTo(row.drying, 9)
    const paid = payment({ terms: elevatorTerms, moistureWb: row.moistureWb, wetMassT: 100 })
    expect(1 - paid.paidT / 100).toBeCloseTo(row.shrink, 9)
    expect(paid.drying).toBeCloseTo((100 / CORN_T) * row.drying, 6)
  })

  it('finds the right half point at every tenth of the scale', () => {
    for (let tenths = 151; tenths <= 300; tenths++) {
      // The printed schedule in whole tenths, so that no fraction can be lost.
      const cents = tenths < 176 ? 6 + Math.floor((tenths - 151) / 5) : 12 + 2 * Math.floor((tenths - 176) / 5)
      expect(tableDeduction(ELEVATOR_SCHEDULE.drying, tenths / 10)).toBeCloseTo(cents / 100, 9)
    }
  })

  it('loses no step to the last bit of a reading', () => {
    // 15.2 - 15.1 is 0.0999... in binary; the printed step is a tenth.
    expect(tableDeduction([{ fromWb: 15.1, base: 0, every: 0.1, add: 1 }], 15.2)).toBe(1)
  })

  it('takes the place of the linear rate for weight and price as well', () => {
    const flat = [{ fromWb: 14, base: 5, every: 1, add: 1 }]
    const terms = { ...cornTerms, dockPerPoint: 99, shrinkTable: flat, dockTable: flat }
    // At 16.5 %: 5 + 2 whole points = 7 % of weight, then 7 % of price, by hand: 0.93 x 0.93.
    expect(payment({ terms, moistureWb: 16.5, wetMassT: 1 }).net).toBeCloseTo(0.93 * 0.93 * cornTerms.pricePerT, 9)
    expect(payment({ terms, moistureWb: 13.9, wetMassT: 1 }).net).toBeCloseTo(cornTerms.pricePerT, 9)
  })

  it('never charges less for wetter grain', () => {
    fc.assert(
      fc.property(anyMoisture, fc.double({ min: 0, max: 5, noNaN: true }), (wb, more) => {
        const cents = tableDeduction(ELEVATOR_SCHEDULE.drying, wb)
        expect(tableDeduction(ELEVATOR_SCHEDULE.drying, wb + more)).toBeGreaterThanOrEqual(cents)
        expect(cents).toBeGreaterThanOrEqual(0)
      }),
    )
  })

  it('charges nothing below its first step and does not guess', () => {
    expect(tableDeduction(ELEVATOR_SCHEDULE.drying, 15.0)).toBe(0)
    expect(tableDeduction(ELEVATOR_SCHEDULE.drying, Number.NaN)).toBeNaN()
    expect(tableDeduction([], 20)).toBe(0)
  })
})
