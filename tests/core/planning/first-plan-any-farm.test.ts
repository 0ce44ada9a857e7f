import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { buyerShutsAt } from '#core/planning/haul-end.ts'
import { moveHours } from '#core/planning/moving.ts'
import { DATE, EPSILON, HOURS, midnight, plan, rateIn, told } from '#tests/core/planning/support/first-plan-day.ts'
import { testBuyer, testFarm, testField, testOutfit } from '#tests/support/fields.ts'
import { handOutlook } from '#tests/support/outlooks.ts'

/** Random farms: one to three outfits, up to six fields with broken windows, buyers with hours and limits. */
const crew = fc.record({
  combines: fc.integer({ min: 1, max: 4 }),
  carts: fc.integer({ min: 0, max: 2 }),
  trucks: fc.integer({ min: 1, max: 5 }),
  start: fc.integer({ min: 5, max: 12 }),
  length: fc.integer({ min: 1, max: 11 }),
  daysOff: fc.subarray([4, 5]),
})
const stand = fc.record({
  areaHa: fc.double({ min: 0.1, max: 150, noNaN: true }),
  lossPerDay: fc.double({ min: 0, max: 0.05, noNaN: true }),
  lat: fc.double({ min: 39.9, max: 40.2, noNaN: true }),
  buyer: fc.integer({ min: 0, max: 1 }),
  shares: fc.array(fc.integer({ min: 0, max: 10 }), { minLength: 24, maxLength: 24 }),
})
const dock = fc.record({
  open: fc.integer({ min: 4, max: 9 }),
  close: fc.integer({ min: 10, max: 23 }),
  dailyT: fc.option(fc.double({ min: 5, max: 900, noNaN: true })),
})
const anyDay = fc.record({
  crews: fc.array(crew, { minLength: 1, maxLength: 3 }),
  stands: fc.array(stand, { minLength: 1, maxLength: 6 }),
  docks: fc.tuple(dock, dock),
  nowH: fc.double({ min: 0, max: 23.9, noNaN: true }),
})

type AnyDay = typeof anyDay extends fc.Arbitrary<infer T> ? T : never

function farmOf({ crews, docks }: AnyDay): Farm {
  const [combine] = testOutfit().combines
  const [cart] = testOutfit().carts
  const [truck] = testOutfit().trucks
  return testFarm({
    outfits: crews.map((c, n) =>
      testOutfit({
        id: `crew-${n}`,
        combines: Array.from({ length: c.combines }, () => combine!),
        carts: Array.from({ length: c.carts }, () => cart!),
        trucks: Array.from({ length: c.trucks }, () => truck!),
        crewHours: { startMinute: c.start * 60, endMinute: (c.start + c.length) * 60 },
        daysOff: c.daysOff,
      }),
    ),
    buyers: docks.map((d, n) =>
      testBuyer({
        id: `dock-${n}`,
        hours: { openMinute: d.open * 60, closeMinute: d.close * 60 },
        ...(d.dailyT === null ? {} : { dailyT: d.dailyT }),
      }),
    ),
  })
}

const outlooksOf = ({ stands, nowH }: AnyDay): Outlook[] =>
  stands.map(({ areaHa, lossPerDay, lat, buyer, shares }, n) => {
    const field = testField({
      id: `field-${n}`,
      name: `field-${n}`,
      areaHa,
      buyerId: `dock-${buyer}`,
      centre: { latDeg: lat, lonDeg: -88 },
    })
    const from = Math.floor(nowH)
    return handOutlook({
      part: { key: field.id, field, areaHa },
      startEpochH: midnight() + from,
      hours: HOURS - from,
      lossPerDay,
      fitShare: (h) => shares[(h + from) % 24]! / 10,
      moistureWb: (h, c) => 12.5 - Math.sin(((h + from) / 24) * 2 * Math.PI) + c / 20,
    })
  })

describe('any farm, any chances, any hour', () => {
  it('never promises more than fields, crews, machines and buyers hold', () => {
    fc.assert(
      fc.property(anyDay, (given) => {
        const farm = farmOf(given)
        const outlooks = outlooksOf(given)
        const now = midnight() + given.nowH
        const { runs, waiting } = plan(farm, outlooks, now)
        for (const run of runs) {
          const outfit = farm.outfits.find(({ id }) => id === run.outfitId)!
          const outlook = outlooks.find(({ part }) => part.key === run.part.key)!
          expect(outfit.daysOff).not.toContain(DATE.dayOfWeek)
          expect(run.startEpochH).toBeGreaterThanOrEqual(
            Math.max(now, midnight() + outfit.crewHours.startMinute / 60) - EPSILON,
          )
          expect(run.endEpochH).toBeLessThanOrEqual(midnight() + outfit.crewHours.endMinute / 60 + EPSILON)
          const window = outlook.windows.find(
            (w) => run.startEpochH >= w.startEpochH - EPSILON && run.endEpochH <= w.endEpochH + EPSILON,
          )
          expect(window).toBeDefined()
          const { haPerH } = rateIn(outfit, run.part, window!.startMoistureWb)!
          expect(run.areaHa).toBeLessThanOrEqual(haPerH * (run.endEpochH - run.startEpochH) + EPSILON)
          for (const value of [run.massT, run.volumeL, run.truckLoads, run.startMoistureWb, run.chance])
            expect(Number.isFinite(value)).toBe(true)
        }
        for (const { part } of outlooks) {
          const cut = runs.filter((run) => run.part.key === part.key).reduce((sum, run) => sum + run.areaHa, 0)
          expect(cut).toBeLessThanOrEqual(part.areaHa + EPSILON)
          const waits = waiting.filter((w) => w.part.key === part.key).length
          expect(waits).toBe(cut === 0 && part.areaHa > 0.2 ? 1 : 0)
        }
        for (const buyer of farm.buyers) {
          const sold = runs
            .filter((run) => run.part.field.buyerId === buyer.id)
            .reduce((sum, run) => sum + run.massT, 0)
          expect(sold).toBeLessThanOrEqual((buyer.dailyT ?? Number.POSITIVE_INFINITY) + EPSILON)
        }
        for (const outfit of farm.outfits) {
          const own = runs.filter((run) => run.outfitId === outfit.id)
          for (const [n, run] of own.entries()) {
            const before = own[n - 1]
            if (before)
              expect(run.startEpochH).toBeGreaterThanOrEqual(
                before.endEpochH + moveHours(before.part, run.part) - EPSILON,
              )
          }
          const late = own.map((run) => {
            const shuts = buyerShutsAt(run.part, farm, DATE)
            const after = Math.max(0, run.endEpochH - Math.max(run.startEpochH, shuts))
            return (run.volumeL * after) / (run.endEpochH - run.startEpochH)
          })
          const wheelsL = [...outfit.trucks, ...outfit.carts].reduce((sum, w) => sum + w.capacityL, 0)
          const tanksL = outfit.combines.reduce((sum, combine) => sum + combine.tankL, 0)
          // The rate is reckoned at the moisture of the start of the window, the volume at that of the run.
          expect(late.reduce((sum, litres) => sum + litres, 0)).toBeLessThanOrEqual((wheelsL + tanksL) * 1.03)
        }
      }),
      { numRuns: 150 },
    )
  })

  it('the same inputs give the same plan', () => {
    fc.assert(
      fc.property(anyDay, (given) => {
        const once = plan(farmOf(given), outlooksOf(given), midnight() + given.nowH)
        const again = plan(farmOf(given), outlooksOf(given), midnight() + given.nowH)
        expect(told(again)).toEqual(told(once))
      }),
      { numRuns: 20 },
    )
  })
})
