import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Cart, Combine, Truck } from '#core/operation/farm.ts'
import { bulkDensityKgM3 } from '#core/planning/capacity/cutting.ts'
import { CART_TRAVEL_MIN, type OutfitRateInput, outfitRate, POSITION_MIN } from '#core/planning/capacity/outfit.ts'
import { CROP_TRADE } from '#core/science/crop.ts'
import { HA_PER_ACRE, L_PER_BUSHEL, M_PER_FT, MS_PER_MPH, tPerHaFromBuPerAcre } from '#core/units/convert.ts'
import { ACRES_PER_H_DIVISOR, WORKED_OUTFIT as W } from '#tests/truth/capacity.ts'

const SPEED_MPH = 4
const combine: Combine = {
  name: 'Big one',
  tankL: W.tankBu * L_PER_BUSHEL,
  unloadLPerS: W.augerBuPerS * L_PER_BUSHEL,
  heads: [
    {
      crops: ['corn'],
      // The width that makes 12 acres/h at 4 mph with nothing lost.
      widthM: ((W.acresPerH * ACRES_PER_H_DIVISOR) / SPEED_MPH) * M_PER_FT,
      speedMs: SPEED_MPH * MS_PER_MPH,
      efficiency: 1,
    },
  ],
}
const cart: Cart = {
  name: 'Cart',
  capacityL: W.cartBu * L_PER_BUSHEL,
  unloadLPerS: (W.cartBuPerMin / 60) * L_PER_BUSHEL,
}
const truck: Truck = { name: 'Truck', capacityL: W.truckBu * L_PER_BUSHEL, roadSpeedMs: 1000 / 60 }
const some = <T>(n: number, one: T): readonly T[] => Array.from({ length: n }, () => one)

const input = (combines: number, carts: number, trucks: number): OutfitRateInput => ({
  outfit: { combines: some(combines, combine), carts: some(carts, cart), trucks: some(trucks, truck) },
  crop: 'corn',
  yieldTHa: tPerHaFromBuPerAcre(W.buPerAcre, CROP_TRADE.corn.lbPerBu),
  grainKgM3: bulkDensityKgM3('corn'),
  haulKm: 25,
  turnaroundMin: W.turnaroundMin,
})
const acres = (haPerH: number): number => haPerH / HA_PER_ACRE

describe('the outfit worked by hand', () => {
  it('assumes the same drive and line-up', () => {
    expect([CART_TRAVEL_MIN, POSITION_MIN]).toEqual([W.travelMin, W.positionMin])
  })

  it('cuts 36 acres/h with two carts and nine trucks, held by its combines', () => {
    const rate = outfitRate(input(W.combines, W.carts, W.trucks))
    expect(acres(rate.cutHaPerH)).toBeCloseTo(36, 6)
    expect(rate.haPerH).toBe(rate.cutHaPerH)
    expect(rate.limitedBy).toBe('combines')
    expect(rate.tankFillMin).toBeCloseTo(W.fillMin, 6)
    expect(rate.cartUse).toBeCloseTo(W.cartUse, 2)
    expect(rate.cartsNeeded).toBe(W.carts)
    expect(rate.trucksNeeded).toBe(W.trucks)
    expect(rate.loadsPerHour).toBeCloseTo((36 * W.buPerAcre) / W.truckBu, 6)
  })

  it('is held to two thirds by six trucks', () => {
    const rate = outfitRate(input(W.combines, W.carts, 6))
    expect(rate.limitedBy).toBe('trucks')
    expect(rate.haPerH / rate.cutHaPerH).toBeCloseTo(W.sixTrucksShare, 2)
    // By hand the load was rounded to 2 min, it is 1.9: a tenth of 71 min.
    expect(Math.abs((acres(rate.haPerH) * W.buPerAcre) / W.sixTrucksBuPerH - 1)).toBeLessThan(
      0.1 / W.truckCycleMin + 1e-4,
    )
  })

  it('is held by one cart to its 60 x 1,000 / 13.6 bu/h', () => {
    const rate = outfitRate(input(W.combines, 1, 20))
    expect(rate.limitedBy).toBe('carts')
    expect(rate.cartUse).toBe(1)
    expect(acres(rate.haPerH) * W.buPerAcre).toBeCloseTo((60 * W.cartBu) / 13.619, -1)
  })

  it('is held by a buyer who takes less than all that', () => {
    const rate = outfitRate({ ...input(W.combines, W.carts, W.trucks), buyerTPerH: 100 })
    expect(rate.limitedBy).toBe('buyer')
    expect(rate.haPerH * tPerHaFromBuPerAcre(W.buPerAcre, CROP_TRADE.corn.lbPerBu)).toBeCloseTo(100, 9)
  })

  it('stops to unload without a cart: 8.75 of 15.4 min cutting', () => {
    // Fill 8.75, unload 1.67, line up 1, drive 2 x 2, by hand.
    const rate = outfitRate(input(1, 0, 20))
    expect(rate.haPerH / outfitRate(input(1, 3, 20)).cutHaPerH).toBeCloseTo(8.75 / (8.75 + 1.6667 + 1 + 4), 4)
    expect(rate.cartUse).toBe(0)
    expect(rate.combineUse).toBe(1)
    expect(rate.cartsNeeded).toBeNaN()
  })

  it('two combines on one cart cut 84 % of the time, by the queue worked by hand', () => {
    // A tank takes 13.62 min x 350 / 1,000 = 4.767 min of a cart, fill 8.75, r = 0.5448. Weights 1, 2 r, 2 r^2 = 1, 1.0895,
    // 0.5935; L = 0.8485, L_q = 0.2212; (2 - L) / (2 - L + L_q) = 0.839.
    expect(outfitRate(input(2, 1, 20)).combineUse).toBeCloseTo(0.839, 3)
  })

  it('leaves the haul to someone else without trucks', () => {
    const rate = outfitRate(input(W.combines, W.carts, 0))
    expect(rate.limitedBy).toBe('combines')
    expect(rate.trucksNeeded).toBeNaN()
    expect(rate.loadsPerHour).toBeNaN()
  })

  it('cuts nothing without a head for the crop', () => {
    const rate = outfitRate({ ...input(W.combines, W.carts, W.trucks), crop: 'canola' })
    expect([rate.cutHaPerH, rate.haPerH, rate.limitedBy]).toEqual([0, 0, 'combines'])
  })
})

describe('any outfit', () => {
  const count = fc.integer({ min: 1, max: 12 })
  const haul = fc.double({ min: 0, max: 150, noNaN: true })

  it('never gets more done than it can cut, and names the stage that holds it', () => {
    fc.assert(
      fc.property(count, count, count, haul, (combines, carts, trucks, haulKm) => {
        const rate = outfitRate({ ...input(combines, carts, trucks), haulKm })
        expect(rate.haPerH).toBeGreaterThan(0)
        expect(rate.haPerH).toBeLessThanOrEqual(rate.cutHaPerH * (1 + 1e-12))
        expect(rate.limitedBy === 'combines').toBe(rate.haPerH > rate.cutHaPerH * (1 - 1e-12))
        expect(rate.cartUse).toBeLessThanOrEqual(1 + 1e-12)
        expect(rate.combineUse).toBeGreaterThan(0)
        expect(rate.combineUse).toBeLessThanOrEqual(1)
      }),
    )
  })

  it('never slows by one cart or truck more, nor speeds up by a longer road', () => {
    fc.assert(
      fc.property(count, count, count, haul, (combines, carts, trucks, haulKm) => {
        const rate = outfitRate({ ...input(combines, carts, trucks), haulKm }).haPerH
        const slack = rate * 1e-12
        expect(outfitRate({ ...input(combines, carts + 1, trucks), haulKm }).haPerH).toBeGreaterThanOrEqual(
          rate - slack,
        )
        expect(outfitRate({ ...input(combines, carts, trucks + 1), haulKm }).haPerH).toBeGreaterThanOrEqual(
          rate - slack,
        )
        expect(outfitRate({ ...input(combines, carts, trucks), haulKm: haulKm + 5 }).haPerH).toBeLessThanOrEqual(
          rate + slack,
        )
      }),
    )
  })

  it('has enough of what it says it needs', () => {
    fc.assert(
      fc.property(count, haul, (combines, haulKm) => {
        const { cartsNeeded } = outfitRate({ ...input(combines, 1, 1), haulKm })
        const { trucksNeeded } = outfitRate({ ...input(combines, cartsNeeded, 1), haulKm })
        expect(outfitRate({ ...input(combines, cartsNeeded, trucksNeeded), haulKm }).limitedBy).toBe('combines')
      }),
    )
  })

  it('is unknown where an input is unknown or out of range', () => {
    const sound = input(W.combines, W.carts, W.trucks)
    for (const bad of [
      { yieldTHa: Number.NaN },
      { yieldTHa: 0 },
      { grainKgM3: Number.NaN },
      { haulKm: -1 },
      { turnaroundMin: Number.NaN },
      { buyerTPerH: Number.NaN },
      { cartTravelMin: Number.NaN },
    ]) {
      const rate = outfitRate({ ...sound, ...bad })
      expect([rate.cutHaPerH, rate.haPerH, rate.trucksNeeded]).toEqual([Number.NaN, Number.NaN, Number.NaN])
    }
  })
})
