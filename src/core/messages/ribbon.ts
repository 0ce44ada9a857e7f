/** A day of one part of a field, hour by hour, as a ribbon shows it. */
import type { Holdback } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { commonestHoldback } from '#core/outlook/windows.ts'
import type { Band } from '#core/science/crop.ts'

export type GrainState = 'wet' | 'fit' | 'brittle' | 'unknown'

export interface RibbonHour {
  readonly state: GrainState
  /** Share of courses in which the hour is fit, 0-1; NaN = not known. */
  readonly chance: number
  /** What holds it back in most courses, where it is less likely fit than not. */
  readonly heldBy: Holdback | undefined
  /** Median and middle 80 % of the moisture at the end of the hour [% wet basis]. */
  readonly medianWb: number
  readonly lowWb: number
  readonly highWb: number
}

export interface Ribbon {
  /** Whole hours since the epoch. */
  readonly fromEpochH: number
  readonly hours: readonly RibbonHour[]
  readonly band: Band
}

/** An hour more likely fit than not is shown as fit; the rest says what holds it back. */
const LIKELY = 0.5

export function ribbonOf(outlook: Outlook, fromEpochH: number, toEpochH: number): Ribbon {
  const hours = Array.from({ length: Math.max(0, toEpochH - fromEpochH) }, (_, n) =>
    hourOf(outlook, fromEpochH + n - outlook.startEpochH),
  )
  return { fromEpochH, hours, band: outlook.part.field.band }
}

function hourOf(outlook: Outlook, h: number): RibbonHour {
  const medianWb = outlook.medianWb[h] ?? Number.NaN
  const chance = outlook.fitChance[h] ?? Number.NaN
  return {
    state: stateOf(medianWb, outlook.part.field.band),
    chance,
    heldBy: chance >= LIKELY ? undefined : commonestHoldback(outlook, h),
    medianWb,
    lowWb: outlook.lowWb[h] ?? Number.NaN,
    highWb: outlook.highWb[h] ?? Number.NaN,
  }
}

export function stateOf(moistureWb: number, band: Band): GrainState {
  if (Number.isNaN(moistureWb)) return 'unknown'
  if (moistureWb > band.highWb) return 'wet'
  return moistureWb < band.lowWb ? 'brittle' : 'fit'
}
