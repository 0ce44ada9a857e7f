/**
 * When each alert starts and ends. All figures are choices of this project, no source; the manner of setting them
 * (two thresholds, delays, a least time on) follows alarm-management practice (EEMUA 191, ISA-18.2; from memory).
 */
import type { AlertKind } from './alert.ts'

export interface AlertRule {
  /** Evidence from which it starts, and below which it ends; `off` is lower so that it does not chatter. */
  readonly on: number
  readonly off: number
  /** Evidence must have lasted so long before it starts [h]. */
  readonly confirmH: number
  /** Once started it stays on at least so long [h]. */
  readonly holdH: number
  /** Evidence must have been gone so long before it ends [h]. */
  readonly clearH: number
  /** After its end it stays quiet at least so long [h]. */
  readonly restH: number
  /** Whether its end is told; not where the end is known at the start or brings nothing to do. */
  readonly tellsEnd: boolean
}

/** Evidence: see the function named after the kind in `watch-*.ts`. */
export const ALERT_RULES: { readonly [K in AlertKind]: AlertRule } = {
  // Share of the courses that say stop: a third, as in the day's outlook, because missing it costs most.
  'fire-stop': { on: 1 / 3, off: 0.2, confirmH: 0, holdH: 1, clearH: 1, restH: 0, tellsEnd: true },
  'official-warning': { on: 1, off: 0.5, confirmH: 0, holdH: 1, clearH: 0, restH: 0, tellsEnd: true },
  // Chance of rain within three hours.
  rain: { on: 0.6, off: 0.35, confirmH: 0, holdH: 1, clearH: 1, restH: 2, tellsEnd: true },
  'fire-care': { on: 1, off: 0.5, confirmH: 0, holdH: 2, clearH: 2, restH: 2, tellsEnd: false },
  // Sight along the passes: 3 blind, 2 poor, 1 thin, 0 clear.
  dust: { on: 2.5, off: 1.5, confirmH: 0.5, holdH: 1.5, clearH: 1, restH: 2, tellsEnd: true },
  // Points above the band.
  'too-wet': { on: 0.5, off: 0, confirmH: 0.5, holdH: 1, clearH: 1, restH: 2, tellsEnd: true },
  // Hours that the window closes before the time told.
  dew: { on: 1, off: 0.25, confirmH: 0.5, holdH: 2, clearH: 1, restH: 12, tellsEnd: false },
  // Share of the courses in which the ground does not carry.
  'soft-ground': { on: 0.5, off: 0.25, confirmH: 0.5, holdH: 2, clearH: 1, restH: 6, tellsEnd: true },
  'plan-changed': { on: 1, off: 0.5, confirmH: 1, holdH: 0, clearH: 0, restH: 3, tellsEnd: false },
  // Share of the courses that leave the band downwards within a day and a half.
  'over-dry': { on: 0.6, off: 0.3, confirmH: 3, holdH: 20, clearH: 2, restH: 20, tellsEnd: false },
  // Chance that a reading is wild.
  'meter-disagrees': { on: 0.5, off: 0.3, confirmH: 0, holdH: 12, clearH: 0, restH: 24, tellsEnd: false },
  // Age of the weather as a share of the farm's limit.
  'sources-down': { on: 0.75, off: 0.4, confirmH: 0, holdH: 3, clearH: 0.5, restH: 3, tellsEnd: true },
}
