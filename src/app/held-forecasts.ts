/** Kept forecasts held against what was read afterwards. */
import type { Reading } from '#core/field/reading.ts'
import type { CropName } from '#core/science/crop.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import { KEPT_SHARES, type KeptForecast } from './forecasts-port.ts'

export interface HeldForecast {
  readonly partKey: string
  readonly crop: CropName
  readonly readAtEpochH: number
  /** From the making of the forecast to the reading [h]. */
  readonly leadH: number
  /** As read, less the offset the instrument was told to have [% wet basis]. */
  readonly readWb: number
  /** What was forecast for that hour: ten equally likely values in rising order [% wet basis]. */
  readonly forecastWb: Float32Array
}

/** Whole days ahead: 0 is within a day of the making. */
export const leadDays = ({ leadH }: Pick<HeldForecast, 'leadH'>): number => Math.floor(leadH / HOURS_PER_DAY)

/**
 * Every reading against every forecast of its part made before it and reaching to it. A load blended of several parts is
 * left out: no forecast speaks of it. So are hours of which the forecast knew nothing.
 */
export function heldAgainst(forecasts: readonly KeptForecast[], readings: readonly Reading[]): HeldForecast[] {
  const byPart = Map.groupBy(forecasts, ({ partKey }) => partKey)
  return readings
    .filter(({ blend }) => blend === undefined)
    .flatMap((reading) =>
      (byPart.get(reading.partKey) ?? []).flatMap((forecast) => {
        const forecastWb = valuesAt(forecast, reading.atEpochH)
        if (!forecastWb) return []
        const { crop, madeAtEpochH } = forecast
        const readWb = reading.moistureWb - (reading.instrument.offsetWb ?? 0)
        const readAtEpochH = reading.atEpochH
        const leadH = readAtEpochH - madeAtEpochH
        return [{ partKey: reading.partKey, crop, readAtEpochH, leadH, readWb, forecastWb }]
      }),
    )
}

/** Values stand for the ends of the hours: the nearest to the moment is taken, the first also for the half hour before. */
function valuesAt(forecast: KeptForecast, atEpochH: number): Float32Array | undefined {
  if (atEpochH < forecast.madeAtEpochH) return undefined
  const h = Math.max(0, Math.round(atEpochH - forecast.startEpochH) - 1)
  if (h >= forecast.hours) return undefined
  const values = forecast.moistureWb.subarray(h * KEPT_SHARES.length, (h + 1) * KEPT_SHARES.length)
  return values.some(Number.isNaN) ? undefined : values
}
