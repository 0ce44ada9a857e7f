/** When the plants come dry on a day, and when they are wet again. */

/** Less water than this counts as dry: a tenth of a usual night's dew [mm]. Choice, no source. */
export const DRY_BELOW_MM = 0.015

export interface DryingOff {
  /** When the plants are dry, hours from the start of the series; Infinity if not in the span, NaN if not known. */
  readonly dryH: number
  /** When they are wet again after that, likewise. */
  readonly wetAgainH: number
}

/**
 * First time after sunrise at which the plants are dry, and the first time after it at which they are wet again.
 *
 * @param waterMm water at the end of each hour [mm], see `canopyWater`
 * @param base first index of the member: member x hours
 * @param sunriseH sunrise, hours from the start of the series with fraction [h], >= 1
 * @param endH end of the span looked at, for instance the next sunrise [h], whole hours used
 * @param dryBelowMm water that counts as dry [mm]
 * @returns both times, drawn straight within the hour [h]
 *
 * Water is taken to change evenly within an hour. An unknown hour before the answer makes the answer unknown.
 */
export function dryingOff(
  waterMm: Float32Array,
  base: number,
  sunriseH: number,
  endH: number,
  dryBelowMm: number = DRY_BELOW_MM,
): DryingOff {
  const dryH = crossing(waterMm, base, sunriseH, endH, dryBelowMm, -1)
  const wetAgainH = Number.isFinite(dryH) ? crossing(waterMm, base, dryH, endH, dryBelowMm, 1) : dryH
  return { dryH, wetAgainH }
}

/** @returns first time from `fromH` at which water is below (-1) or not below (1) the level [h]. */
function crossing(
  waterMm: Float32Array,
  base: number,
  fromH: number,
  endH: number,
  levelMm: number,
  direction: 1 | -1,
): number {
  if (!(fromH >= 1 && endH >= fromH)) return Number.NaN
  const hour = Math.floor(fromH)
  for (let h = hour; h < endH; h++) {
    const before = waterMm[base + h - 1]! - levelMm
    const after = waterMm[base + h]! - levelMm
    const atStart = h === hour ? before + (after - before) * (fromH - hour) : before
    if (Number.isNaN(atStart + after)) return Number.NaN
    if (direction < 0 ? atStart < 0 : atStart >= 0) return Math.max(fromH, h)
    if (direction < 0 ? after < 0 : after >= 0) return Math.max(fromH, h + before / (before - after))
  }
  return Number.POSITIVE_INFINITY
}
