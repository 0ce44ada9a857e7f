import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CROPS } from '#core/science/crop.ts'
import { CORN_WORST } from '#core/science/loss/lodging.ts'
import { addStandingLoss, standingLossFraction, standingLossPerDay } from '#core/science/loss/standing.ts'
import { CORN_OHIO, PHILBROOK } from '#tests/truth/losses.ts'

/** Adds up the loss hour by hour, as the outlook does. */
function hourByHour(crop: (typeof CROPS)[number], moistureWb: number, days: number, cycles: number): number {
  let lost = 0
  for (let hour = 0; hour < days * 24; hour++) {
    lost = addStandingLoss(crop, lost, standingLossPerDay(crop, moistureWb, (hour + 0.5) / 24, cycles), 1)
  }
  return lost
}

describe('standing loss', () => {
  it('of soybeans grows as Philbrook & Oplinger found, hour by hour', () => {
    const grown = hourByHour('soybean', 12, 47, 0) - hourByHour('soybean', 12, 5, 0)
    expect(grown).toBeCloseTo(PHILBROOK.lossAfter42Days - PHILBROOK.firstHarvestLoss, 4)
  })

  it('of corn grows as Thomison, Geyer & Minyo found, hour by hour, whatever its moisture', () => {
    const grown = hourByHour('corn', Number.NaN, 85, Number.NaN) - hourByHour('corn', 20, 25, 3)
    expect(grown).toBeCloseTo(CORN_OHIO.total, 4)
  })

  it('hour by hour comes to the closed form for every crop', () => {
    for (const crop of CROPS) {
      expect(hourByHour(crop, 9.3, 31, 4)).toBeCloseTo(standingLossFraction(crop, 9.3, 31, 4), 6)
    }
  })

  it('never falls and never passes the worst', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CROPS),
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        (crop, soFar, rate, hours) => {
          const lost = addStandingLoss(crop, soFar, rate, hours)
          expect(lost).toBeGreaterThanOrEqual(soFar)
          expect(lost).toBeLessThanOrEqual(CORN_WORST)
        },
      ),
    )
  })

  it('is unknown where an input that matters is', () => {
    expect(standingLossPerDay('wheat-hard', Number.NaN, 5, 0)).toBeNaN()
    expect(standingLossPerDay('corn', 20, Number.NaN, 0)).toBeNaN()
    expect(addStandingLoss('soybean', Number.NaN, 0.01, 1)).toBeNaN()
    expect(addStandingLoss('soybean', 0, Number.NaN, 1)).toBeNaN()
    expect(standingLossFraction('oats', 12, 5, Number.NaN)).toBeNaN()
  })
})
