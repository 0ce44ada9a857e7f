import { describe, expect, it } from 'vitest'
import { zonedAt } from '#core/units/time.ts'
import { CHAMPAIGN_YEARS, champaignAutumn } from './champaign.ts'

describe('autumns near Champaign', () => {
  it('are 28, each from local midnight of 1 July, five months long', () => {
    expect(CHAMPAIGN_YEARS).toHaveLength(28)
    for (const year of CHAMPAIGN_YEARS) {
      const weather = champaignAutumn(year)
      // Standard time all year: Etc/GMT+6 is UTC-6.
      expect(zonedAt(weather.startEpochH, 'Etc/GMT+6').toPlainDateTime().toString()).toBe(`${year}-07-01T00:00:00`)
      expect(weather.hours).toBe(153 * 24)
    }
  })

  it('have the sun highest at solar noon, 11:53 local standard time at 88.2 W less the equation of time', () => {
    const { solarWm2, hours } = champaignAutumn(2012)
    let moment = 0
    let total = 0
    for (let h = 0; h < hours; h++) {
      moment += ((h % 24) + 0.5) * solarWm2[h]!
      total += solarWm2[h]!
    }
    // July to November the equation of time runs from -6 to +16 minutes: noon between 11:36 and 11:59.
    expect(moment / total).toBeGreaterThan(11.6)
    expect(moment / total).toBeLessThan(11.99)
  })

  it('keep the daily rain whole, in bursts, and say so where it is not known', () => {
    const { rainMm } = champaignAutumn(2008)
    // 2008: remains of hurricanes Gustav (4 September) and Ike (13-14 September) crossed Illinois (US National Weather
    // Service), so September must be very wet. From memory: about 190-200 mm at Champaign.
    const september = rainMm.subarray(62 * 24, 92 * 24).reduce((sum, mm) => sum + mm, 0)
    expect(september).toBeGreaterThan(150)
    const day = rainMm.subarray(65 * 24, 66 * 24)
    expect(day.filter((mm) => mm > 0).length).toBeLessThanOrEqual(8)
    const unknown = champaignAutumn(2019).rainMm.filter(Number.isNaN)
    expect(unknown).toHaveLength(24)
  })
})
