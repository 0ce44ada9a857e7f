import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Buyer } from '#core/operation/farm.ts'
import { buyerTPerH, dayRoomT, openHours, roomPerT } from '#core/planning/capacity/buyer.ts'
import { kgPerBushel } from '#core/units/convert.ts'

const T_PER_BU = kgPerBushel(56) / 1000

const buyer = (more: Partial<Buyer> = {}): Buyer => ({
  id: 'bin',
  name: 'Home bin',
  hours: { openMinute: 7 * 60, closeMinute: 19 * 60 },
  closedOn: [],
  turnaroundMin: 10,
  terms: [
    { crop: 'corn', pricePerT: 170, standardMoistureWb: 15, shrinkPerPoint: 1.4, dockPerPoint: 0, dryingPerTPoint: 1 },
  ],
  ...more,
})
/** Rated as dryers are: 1,000 bu/h from 20 to 15 %. */
const dryer = (wetBinBu: number) => ({ tPointsPerH: 1000 * T_PER_BU * 5, wetBinT: wetBinBu * T_PER_BU })

describe('what a buyer takes', () => {
  it('is anything where he names no limit', () => {
    expect(buyerTPerH(buyer(), 'corn', 25)).toBe(Number.POSITIVE_INFINITY)
    expect(dayRoomT(buyer())).toBe(Number.POSITIVE_INFINITY)
    expect(roomPerT(buyer(), 'corn', 25)).toBe(0)
  })

  it('is what his pit takes, and over his hours what his day takes', () => {
    const pit = buyer({ pitTPerH: 40 })
    expect(buyerTPerH(pit, 'corn', 25)).toBe(40)
    expect(dayRoomT(pit)).toBe(40 * 12)
    expect(dayRoomT(buyer({ pitTPerH: 40, dailyT: 300 }))).toBe(300)
    expect(roomPerT(pit, 'corn', 25)).toBe(1)
  })

  // Common practice, no source: ten points take twice the time of five; 24 h of drying are spread over the hours of cutting.
  it('is what the dryer and its wet bin take, half as much at twice the points', () => {
    const large = buyer({ dryer: dryer(100_000) })
    expect(buyerTPerH(large, 'corn', 20) / T_PER_BU).toBeCloseTo(2000, 6)
    expect(buyerTPerH(large, 'corn', 25) / T_PER_BU).toBeCloseTo(1000, 6)
    const small = buyer({ dryer: dryer(3000) })
    expect(buyerTPerH(small, 'corn', 20) / T_PER_BU).toBeCloseTo(1000 + 3000 / 12, 6)
    expect(buyerTPerH(small, 'corn', 14)).toBe(Number.POSITIVE_INFINITY)
  })

  it('a wet tonne takes as much more of the day as the dryer is slower than the pit', () => {
    const both = buyer({ pitTPerH: 100, dryer: dryer(100_000) })
    // 2,000 wet bushels an hour, less the water: 80 of 100 parts are dry at 20 %, 85 at 15 %.
    const dries = (2000 * T_PER_BU * 80) / 85
    expect(roomPerT(both, 'corn', 20)).toBeCloseTo(100 / dries, 9)
    expect(roomPerT(both, 'corn', 14)).toBe(1)
    // A dryer alone: dry grain passes it by.
    const alone = buyer({ dryer: dryer(100_000) })
    expect(roomPerT(alone, 'corn', 14)).toBe(0)
    expect(dayRoomT(alone) / roomPerT(alone, 'corn', 20) / T_PER_BU).toBeCloseTo((24_000 * 80) / 85, 6)
  })

  it('never more by the hour than by the day, and never more the wetter', () => {
    const some = fc.double({ min: 0.1, max: 1000, noNaN: true })
    const wb = fc.double({ min: 5, max: 40, noNaN: true })
    const limits = fc.record({ pit: fc.option(some), day: fc.option(some), points: fc.option(some), bin: some })
    fc.assert(
      fc.property(limits, wb, wb, ({ pit, day, points, bin }, a, b) => {
        const one = buyer({
          ...(pit !== null && { pitTPerH: pit }),
          ...(day !== null && { dailyT: day }),
          ...(points !== null && { dryer: { tPointsPerH: points, wetBinT: bin } }),
        })
        const [dry, wet] = [Math.min(a, b), Math.max(a, b)]
        expect(buyerTPerH(one, 'corn', wet)).toBeLessThanOrEqual(buyerTPerH(one, 'corn', dry))
        expect(roomPerT(one, 'corn', wet)).toBeGreaterThanOrEqual(roomPerT(one, 'corn', dry))
        const perT = roomPerT(one, 'corn', wet)
        if (perT === 0) return
        const most = dayRoomT(one) / perT
        expect(most).toBeLessThanOrEqual(buyerTPerH(one, 'corn', wet) * openHours(one) * (1 + 1e-9))
        expect(most).toBeLessThanOrEqual((day ?? Number.POSITIVE_INFINITY) * (1 + 1e-9))
      }),
    )
  })
})
