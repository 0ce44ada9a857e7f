/** A day's plan as data: who cuts what, from when to when, how much, and what is left and why. */
import type { FieldPart } from '#core/field/parts.ts'
import type { Holdback } from '#core/outlook/holdback.ts'

/** Less than this left is not worth a run, nor a line [ha]. */
export const SLIVER_HA = 0.2

export interface DayPlan {
  readonly date: Temporal.PlainDate
  /** In order of start. */
  readonly runs: readonly Run[]
  /** Every part that is not run today, in the order in which it is likely to be. */
  readonly waiting: readonly Waiting[]
  /** All parts by dollars at risk if they wait, highest first. */
  readonly ranking: readonly Ranked[]
}

export interface Run {
  readonly part: FieldPart
  readonly outfitId: string
  /** Hours since the epoch, with fraction. */
  readonly startEpochH: number
  readonly endEpochH: number
  readonly areaHa: number
  /** Area that was left in the part before this run. */
  readonly ofAreaHa: number
  /** Grain taken, as bought: at the buyer's standard moisture [t]. */
  readonly massT: number
  /** Grain taken, as it fills tanks and trucks [L]. */
  readonly volumeL: number
  readonly truckLoads: number
  readonly combines: number
  readonly trucksNeeded: number
  readonly cartsNeeded: number
  readonly limitedBy: 'combines' | 'carts' | 'trucks' | 'buyer'
  readonly startMoistureWb: number
  readonly endMoistureWb: number
  readonly lowWb: number
  readonly highWb: number
  /** Chance that the window behind the run holds, 0-1. */
  readonly chance: number
  /** What the part loses by each day it waits [money/ha]. */
  readonly atRiskPerHaDay: number
}

export interface Waiting {
  readonly part: FieldPart
  /**
   * What holds it back today at its best hour; `later-turn` when it is fit but others come first, `worth-waiting`
   * when an outfit has the time and yet it brings more on another day.
   */
  readonly reason:
    | Holdback
    | 'later-turn'
    | 'worth-waiting'
    | 'kept-off'
    | 'patch-green'
    | 'short-window'
    | 'no-outfit'
    | 'no-buyer'
  /** Moisture at the best hour of today [% wet basis]. */
  readonly moistureWb: number
  /** What it brings more by waiting, where that is the reason [money]. */
  readonly waitingSaves?: number
  /** Next window after today's plan, when there is one in sight. */
  readonly next: { readonly startEpochH: number; readonly chance: number } | undefined
}

export interface Ranked {
  readonly part: FieldPart
  readonly atRiskPerHaDay: number
  readonly fitToday: boolean
}
