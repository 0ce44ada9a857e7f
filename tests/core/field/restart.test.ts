import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { restartMoistureWb } from '#core/field/restart.ts'
import { CROPS } from '#core/science/crop.ts'
import { CORN_FIRST_20_DAYS, SOYBEAN_58_TO_12 } from '#tests/truth/dry-down.ts'

/** Rest of grain with the air of a fine autumn [% wet basis]. Choice: the published figures do not tell their air. */
const REST_WB = { soybean: 11, corn: 14 } as const

describe('usual dry-down', () => {
  it('of soybean ends at 12 % about 15 days after 58 %, as published', () => {
    const { fromWb, toWb, days } = SOYBEAN_58_TO_12
    expect(Math.abs(restartMoistureWb('soybean', days, fromWb, REST_WB.soybean) - toWb)).toBeLessThan(0.5)
  })

  it('of corn is about 0.69 points a day over the first 20 days from 35 %, as published', () => {
    const lost = (35 - restartMoistureWb('corn', 20, 35, REST_WB.corn)) / 20
    expect(Math.abs(lost - CORN_FIRST_20_DAYS)).toBeLessThan(0.05)
  })

  it('starts at maturity, never rises, never passes the moisture of rest', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CROPS),
        fc.double({ min: -30, max: 120, noNaN: true }),
        fc.double({ min: 0, max: 30, noNaN: true }),
        fc.double({ min: 25, max: 60, noNaN: true }),
        fc.double({ min: 5, max: 20, noNaN: true }),
        (crop, days, more, at, rest) => {
          const now = restartMoistureWb(crop, days, at, rest)
          expect(now).toBeLessThanOrEqual(at + 1e-9)
          expect(now).toBeGreaterThanOrEqual(rest - 1e-9)
          expect(restartMoistureWb(crop, days + more, at, rest)).toBeLessThanOrEqual(now + 1e-9)
          if (days <= 0) expect(now).toBe(at)
        },
      ),
    )
  })

  it('is not known where rest or days are not', () => {
    expect(restartMoistureWb('soybean', 5, 57, Number.NaN)).toBeNaN()
    expect(restartMoistureWb('soybean', Number.NaN, 57, 11)).toBeNaN()
  })
})
