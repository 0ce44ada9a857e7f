import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DEPARTURE_SD_WB,
  logFirstRead,
  logFirstReadAt,
  logReading,
  readingVariance,
  UNKNOWN_OFFSET_SD_WB,
  USUAL_SD_WB,
  wildChance,
} from '#core/field/filter/reading-error.ts'
import type { Reading } from '#core/field/reading.ts'
import { METER_BRAND_BIAS_WB, METER_VARIATION } from '#tests/truth/filter.ts'

const reading = (moistureWb: number): Reading => ({
  id: 'r',
  partKey: 'a',
  atEpochH: 0,
  moistureWb,
  instrument: { id: 'm', kind: 'hand', sdWb: 0.5 },
  who: 'crew',
})
const residuals = fc.double({ min: -60, max: 60, noNaN: true })
const variances = fc.double({ min: 0.05, max: 9, noNaN: true })

describe('the error of a reading', () => {
  it('is that of meters against the oven below 16 %, within a tenth of a point', () => {
    for (const { moistureWb, share } of METER_VARIATION.filter((row) => row.moistureWb < 16)) {
      expect(Math.abs(USUAL_SD_WB.hand - share * moistureWb)).toBeLessThan(0.12)
    }
    // At 38 % the published scatter is 1.7 points: meter and field spread together reach 1.25, a little too sure.
    const wet = METER_VARIATION.at(-1)!
    expect(Math.sqrt(readingVariance(reading(wet.moistureWb), 0, true)) / (wet.share * wet.moistureWb)).toBeGreaterThan(
      0.7,
    )
  })

  it('allows for the offsets of brands as published before they were set right, within four spreads', () => {
    expect(UNKNOWN_OFFSET_SD_WB.hand * 4).toBeGreaterThan(METER_BRAND_BIAS_WB[1])
  })

  it('grows with age, with moisture, and where no weather leads to it', () => {
    const at = (wb: number, days: number, led = true) => readingVariance(reading(wb), days, led)
    expect(at(14, 5)).toBeGreaterThan(at(14, 1))
    // Meter, sample and departure at least, as independent variances.
    expect(at(14, 0)).toBeCloseTo(0.5 ** 2 + (0.03 * 14) ** 2 + DEPARTURE_SD_WB ** 2, 12)
    expect(at(30, 1)).toBeGreaterThan(at(14, 1))
    expect(at(14, 1, false)).toBeGreaterThan(at(14, 1) + 3)
  })
})

describe('the time of a first reading', () => {
  it('is the less likely the longer the grain stood mature unmeasured: by e for each week', () => {
    expect(logFirstRead(1000, 1000 + 24 * 7) - logFirstRead(1000, 1000 + 24 * 14)).toBeCloseTo(1, 12)
    expect(logFirstRead(1000, 1000)).toBe(0)
  })

  it('says nothing of grain still green then, nor where nothing was read', () => {
    expect(logFirstRead(1000, 900)).toBe(0)
    expect(logFirstRead(1000, Number.NaN)).toBe(0)
  })
})

describe('the moisture of a first reading', () => {
  const BAND_HIGH_WB = 13
  it('says nothing of grain in the band or a little above, where a crew begins to look', () => {
    for (const wb of [8, 13, 20, 25]) expect(logFirstReadAt(wb, BAND_HIGH_WB)).toBeCloseTo(0, 12)
  })

  it('is the less likely the greener the grain: by e for each 2.5 points', () => {
    expect(logFirstReadAt(30, BAND_HIGH_WB)).toBeCloseTo(-2, 12)
    expect(logFirstReadAt(35, BAND_HIGH_WB) - logFirstReadAt(32.5, BAND_HIGH_WB)).toBeCloseTo(-1, 12)
  })

  it('leaves a sound reading at the highest a meter shows far likelier than a wild one', () => {
    const unlikely = logFirstReadAt(35, BAND_HIGH_WB) + logReading(0, readingVariance(reading(35), 0, true))
    expect(unlikely).toBeGreaterThan(logReading(20, 1) + 1)
  })
})

describe('a wild reading', () => {
  it('pulls as a normal one within three spreads and not at all beyond six', () => {
    const pull = (residual: number) => logReading(residual + 0.01, 1) - logReading(residual, 1)
    for (const residual of [0.5, 1, 2]) expect(pull(residual) / (-0.01 * residual)).toBeGreaterThan(0.9)
    expect(Math.abs(pull(6.5))).toBeLessThan(1e-5)
  })

  it('is the likelier the farther off, and half likely at about four spreads', () => {
    fc.assert(
      fc.property(residuals, variances, (residual, variance) => {
        const chance = wildChance(residual, variance)
        expect(chance).toBeGreaterThanOrEqual(0)
        expect(chance).toBeLessThanOrEqual(1)
        expect(wildChance(residual * 1.1, variance)).toBeGreaterThanOrEqual(chance)
        expect(Number.isFinite(logReading(residual, variance))).toBe(true)
      }),
    )
    expect(wildChance(3.5, 1)).toBeLessThan(0.5)
    expect(wildChance(4.5, 1)).toBeGreaterThan(0.5)
  })
})
