/** What every crop's file tells `estimateMaturity`. */
import type { DailyTemps } from './season.ts'

export interface CropClock {
  /** Whether the variety is one that the model covers. */
  readonly covered: boolean
  /**
   * Day of physiological maturity.
   *
   * @param temps temperatures by day. @param effort multiplies what the crop needs; 1 = as published.
   * @returns epoch day with fraction; NaN if never reached.
   */
  readonly matureOn: (temps: DailyTemps, effort: number) => number
  /** Spread of the requirement between varieties and places, as share of it [-]. */
  readonly effortSd: number
  /** Spread from what the model leaves out: stand, stress, how maturity is called [d]. */
  readonly modelSdDays: number
  /** Grain moisture at physiological maturity [% wet basis]. */
  readonly moistureWb: number
  readonly moistureSdWb: number
  /** Days after planting from which a killing freeze would end its growth; absent for crops that stand frost. */
  readonly tenderFromDay?: number
  readonly basis: string
  readonly remarks: readonly string[]
}
