/** What the day's outlooks say of moisture, made small enough to keep a season of them. */
import { quantilesAcrossCourses } from '#core/outlook/quantile.ts'
import { KEPT_SHARES, type KeptForecast } from './forecasts-port.ts'
import type { Day } from './make-day.ts'

export function forecastsOf(day: Pick<Day, 'farm' | 'date' | 'nowEpochH' | 'partOutlooks'>): KeptForecast[] {
  return day.partOutlooks.map(({ part, startEpochH, hours, courses, moistureWb }) => {
    const byShare = quantilesAcrossCourses(moistureWb, courses, hours, KEPT_SHARES)
    const kept = new Float32Array(hours * KEPT_SHARES.length)
    for (const [s, values] of byShare.entries()) {
      for (let h = 0; h < hours; h++) kept[h * KEPT_SHARES.length + s] = values[h]!
    }
    return {
      farmId: day.farm.id,
      partKey: part.key,
      crop: part.field.crop,
      madeOn: day.date,
      madeAtEpochH: day.nowEpochH,
      startEpochH,
      hours,
      moistureWb: kept,
    }
  })
}
