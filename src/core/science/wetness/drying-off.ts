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
  const dryH = fallsDry(waterMm, base, sunriseH, endH, dryBelowMm)
  const wetAgainH = Number.isFinite(dryH) ? turnsWet(waterMm, base, dryH, endH, dryBelowMm) : dryH
  return { dryH, wetAgainH }
}

function fallsDry(waterMm: Float32Array, base: number, fromH: number, endH: number, levelMm: number): number {
  if (!(fromH >= 1 && endH >= fromH)) return Number.NaN
  for (let h = Math.floor(fromH); h < endH; h++) {
    const before = waterMm[base + h - 1]!
    const after = waterMm[base + h]!
    const passed = Math.max(0, fromH - h)
    const atStart = before + (after - before) * passed
    if (Number.isNaN(atStart)) return Number.NaN
    if (atStart < levelMm) return h + passed
    if (after < levelMm) return h + (before - levelMm) / (before - after)
  }
  return Number.POSITIVE_INFINITY
}

/** From an hour in which the plants are dry: the rest of it counts only if it ends wet. */
function turnsWet(waterMm: Float32Array, base: number, fromH: number, endH: number, levelMm: number): number {
  for (let h = Math.floor(fromH); h < endH; h++) {
    const before = waterMm[base + h - 1]!
    const after = waterMm[base + h]!
    if (Number.isNaN(before + after)) return Number.NaN
    if (after >= levelMm) return Math.max(fromH, h + (levelMm - before) / (after - before))
  }
  return Number.POSITIVE_INFINITY
}
