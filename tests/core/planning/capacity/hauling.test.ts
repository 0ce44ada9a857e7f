import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { unloadMin } from '#core/planning/capacity/cutting.ts'
import {
  type CartTrip,
  carrierRatePerH,
  carriersNeeded,
  cartCycleMin,
  truckCycleMin,
} from '#core/planning/capacity/hauling.ts'
import { WORKED_OUTFIT as W } from '#tests/truth/capacity.ts'

/** Volumes in bushels: the formulas are the same in any unit of volume. */
const trip: CartTrip = {
  cartL: W.cartBu,
  tankL: W.tankBu,
  tankUnloadMin: unloadMin(W.tankBu, W.augerBuPerS),
  positionMin: W.positionMin,
  travelMin: W.travelMin,
  cartUnloadMin: W.cartBu / W.cartBuPerMin,
}
const fleetBuPerH = W.combines * W.acresPerH * W.buPerAcre
const minutes = fc.double({ min: 0, max: 120, noNaN: true })

describe('carts', () => {
  it('take 13.6 min a round, so two keep up, worked by hand', () => {
    expect(trip.tankUnloadMin).toBeCloseTo(W.tankUnloadMin, 2)
    expect(cartCycleMin(trip)).toBeCloseTo(W.cartCycleMin, 1)
    const cartBuPerH = carrierRatePerH(W.cartBu, cartCycleMin(trip))
    expect(fleetBuPerH / cartBuPerH).toBeCloseTo(W.cartsExact, 2)
    expect(carriersNeeded(fleetBuPerH, cartBuPerH)).toBe(W.carts)
  })

  it('take longer with anything longer', () => {
    fc.assert(
      fc.property(minutes, minutes, (travelMin, more) => {
        const cycle = cartCycleMin({ ...trip, travelMin })
        expect(cartCycleMin({ ...trip, travelMin: travelMin + more })).toBeCloseTo(cycle + 2 * more, 9)
        expect(cartCycleMin({ ...trip, travelMin, cartUnloadMin: trip.cartUnloadMin + more })).toBeCloseTo(
          cycle + more,
          9,
        )
      }),
    )
  })
})

describe('trucks', () => {
  it('take 71 min a round, so nine keep up and six do not, worked by hand', () => {
    const cycle = truckCycleMin(W.loadMin, 25, 1000 / 60, W.turnaroundMin)
    expect(cycle).toBeCloseTo(W.truckCycleMin, 9)
    const truckBuPerH = carrierRatePerH(W.truckBu, cycle)
    expect(carriersNeeded(fleetBuPerH, truckBuPerH)).toBe(W.trucks)
    expect(6 * truckBuPerH).toBeCloseTo(W.sixTrucksBuPerH, 0)
    expect((6 * truckBuPerH) / fleetBuPerH).toBeCloseTo(W.sixTrucksShare, 2)
  })

  it('go at any distance, and slower for a longer road', () => {
    fc.assert(
      fc.property(minutes, fc.double({ min: 0, max: 300, noNaN: true }), minutes, (load, km, buyer) => {
        const cycle = truckCycleMin(load, km, 20, buyer)
        expect(cycle).toBeGreaterThanOrEqual(load + buyer)
        expect(truckCycleMin(load, km + 1, 20, buyer)).toBeGreaterThan(cycle)
      }),
    )
  })
})

describe('carriers needed', () => {
  it('are the fewest that carry it all', () => {
    const rate = fc.double({ min: 1, max: 1e4, noNaN: true })
    fc.assert(
      fc.property(rate, rate, (needed, each) => {
        const n = carriersNeeded(needed, each)
        expect(n * each).toBeGreaterThanOrEqual(needed * (1 - 1e-6))
        expect((n - 1) * each).toBeLessThan(needed)
      }),
    )
  })

  it('are not rounded up by the last bit, and none for nothing', () => {
    expect(carriersNeeded(0.3, 0.1)).toBe(3)
    expect(carriersNeeded(0, 5)).toBe(0)
  })
})

describe('unknown input', () => {
  it('stays unknown', () => {
    for (const bad of [Number.NaN, -1]) {
      expect(cartCycleMin({ ...trip, cartL: bad })).toBeNaN()
      expect(cartCycleMin({ ...trip, travelMin: bad })).toBeNaN()
      expect(truckCycleMin(bad, 25, 20, 19)).toBeNaN()
      expect(truckCycleMin(2, bad, 20, 19)).toBeNaN()
      expect(truckCycleMin(2, 25, bad, 19)).toBeNaN()
      expect(truckCycleMin(2, 25, 20, bad)).toBeNaN()
      expect(carrierRatePerH(bad, 10)).toBeNaN()
      expect(carrierRatePerH(10, bad)).toBeNaN()
      expect(carriersNeeded(bad, 10)).toBeNaN()
      expect(carriersNeeded(10, bad)).toBeNaN()
    }
    expect(carrierRatePerH(10, 0)).toBeNaN()
  })
})
