import { describe, expect, it } from 'vitest'
import { CROP_TRADE, CROPS } from '#core/science/crop.ts'
import { CANOLA_TOLD, OFFICIAL_LB_PER_BU, STANDARD_MOISTURE_WB } from '#tests/truth/trade.ts'

describe('constants of the trade', () => {
  it.each(Object.entries(OFFICIAL_LB_PER_BU))('a bushel of %s weighs %d lb', (crop, lb) => {
    expect(CROP_TRADE[crop as keyof typeof OFFICIAL_LB_PER_BU].lbPerBu).toBe(lb)
  })

  it.each(Object.entries(STANDARD_MOISTURE_WB))('%s is paid on %d %%', (crop, wb) => {
    expect(CROP_TRADE[crop as keyof typeof STANDARD_MOISTURE_WB].standardMoistureWb).toBe(wb)
  })

  it('canola lies within what tables tell', () => {
    const { lbPerBu, standardMoistureWb } = CROP_TRADE.canola
    expect(CANOLA_TOLD.lbPerBu).toContain(lbPerBu)
    expect(CANOLA_TOLD.standardWb).toContain(standardMoistureWb)
  })
})

describe('bands', () => {
  it.each(CROPS)('%s: the band is a band, and what is paid without a dock can be cut in it', (crop) => {
    const { band, standardMoistureWb } = CROP_TRADE[crop]
    expect(band.lowWb).toBeGreaterThan(0)
    expect(band.highWb).toBeGreaterThan(band.lowWb)
    expect(standardMoistureWb).toBeGreaterThanOrEqual(band.lowWb)
  })
})
