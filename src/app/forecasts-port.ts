/** Forecasts of moisture as they were told in the morning, kept to be held against readings later. */
import type { CropName } from '#core/science/crop.ts'

/** Shares at which the spread of a forecast is kept: the middles of ten equal slices, so that each weighs alike. */
export const KEPT_SHARES = [0.05, 0.15, 0.25, 0.35, 0.45, 0.55, 0.65, 0.75, 0.85, 0.95] as const

export interface KeptForecast {
  readonly farmId: string
  readonly partKey: string
  readonly crop: CropName
  /** Local date on which it was made: one is kept a part and day. */
  readonly madeOn: Temporal.PlainDate
  readonly madeAtEpochH: number
  /** First hour it speaks of. */
  readonly startEpochH: number
  readonly hours: number
  /** At the end of each hour, ten values in rising order [% wet basis]: index = hour * 10 + share; NaN = not known. */
  readonly moistureWb: Float32Array
}

export interface ForecastStore {
  /** The first of a part and day stays; later ones of that day change nothing. */
  keepForecasts(forecasts: readonly KeptForecast[]): Promise<void>
  /** Those of a farm made since a moment, by day and part. @param partKeys all parts unless named. */
  forecasts(farmId: string, sinceEpochH?: number, partKeys?: readonly string[]): Promise<readonly KeptForecast[]>
}
