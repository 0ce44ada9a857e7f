/** How fast one combine cuts, fills its tank and empties it. */
import { CROP_TRADE, type CropName } from '#core/science/crop.ts'
import { KG_PER_LB, L_PER_BUSHEL } from '#core/units/convert.ts'

const S_PER_H = 3600
const M2_PER_HA = 10_000
const MIN_PER_H = 60
const KG_PER_T = 1000

/** Weight of a volume of grain, for carts, tanks and trucks given by volume. */
export const litresFromTonnes = (massT: number, bulkDensityKgM3: number): number =>
  (massT * KG_PER_T * 1000) / bulkDensityKgM3

export const tonnesFromLitres = (volumeL: number, bulkDensityKgM3: number): number =>
  (volumeL * bulkDensityKgM3) / 1000 / KG_PER_T

/**
 * Bulk density of a crop's grain at its standard test weight.
 *
 * @param crop any crop.
 * @returns bulk density [kg/m3].
 * Form: standard test weight of CROP_TRADE [lb/bu] over the U.S. bushel, exact. Wet or light grain is lighter than this.
 * Checked: tests/truth/capacity.ts (corn 56 lb/bu = 720.8 kg/m3).
 */
export const bulkDensityKgM3 = (crop: CropName): number =>
  ((CROP_TRADE[crop].lbPerBu * KG_PER_LB) / L_PER_BUSHEL) * 1000

/**
 * Area a machine covers in an hour.
 *
 * @param widthM width cut [m, 0 or more].
 * @param speedMs speed while cutting [m/s, 0 or more].
 * @param efficiency field efficiency: turns, overlap and unloading on the go are in it [0-1]. 1 gives the theoretical rate.
 * @returns field capacity [ha/h]; NaN when an input is not known or out of range.
 * Form: w v e (ASAE EP496; Srivastava et al. 2006, eq. 15.1; Hancock, Swetnam & Benson 1991: acres/h = mph x ft / 8.25).
 * Checked: tests/truth/capacity.ts. Combines usually 0.65-0.80 (ASAE D497, from memory).
 */
export function fieldCapacityHaPerH(widthM: number, speedMs: number, efficiency: number): number {
  if (!(widthM >= 0 && speedMs >= 0 && efficiency >= 0 && efficiency <= 1)) return Number.NaN
  return (widthM * speedMs * efficiency * S_PER_H) / M2_PER_HA // eq. 15.1
}

/**
 * Grain a machine takes in an hour.
 *
 * @param haPerH field capacity [ha/h, 0 or more].
 * @param yieldTHa grain that reaches the tank, at the moisture it has [t/ha, 0 or more].
 * @returns material capacity [t/h]; NaN when an input is not known or out of range.
 * Form: C Y (Srivastava et al. 2006, eq. 15.2). Checked: tests/truth/capacity.ts.
 */
export function throughputTPerH(haPerH: number, yieldTHa: number): number {
  return haPerH >= 0 && yieldTHa >= 0 ? haPerH * yieldTHa : Number.NaN // eq. 15.2
}

/**
 * Time to fill a tank.
 *
 * @param tankL tank [L, above 0].
 * @param throughputLPerH grain coming in [L/h, above 0].
 * @returns time [min]; NaN when an input is not known or out of range.
 * Form: volume over rate, exact. Checked: tests/truth/capacity.ts (common practice, no source: corn, 400 bu, about 7 min).
 */
export function tankFillMin(tankL: number, throughputLPerH: number): number {
  return tankL > 0 && throughputLPerH > 0 ? (tankL / throughputLPerH) * MIN_PER_H : Number.NaN
}

/**
 * Time to empty a tank or cart.
 *
 * @param volumeL what is in it [L, 0 or more].
 * @param unloadLPerS rate of the auger [L/s, above 0].
 * @returns time [min]; NaN when an input is not known or out of range.
 * Form: volume over rate, exact. Checked: tests/truth/capacity.ts (common practice, no source: 400 bu at 3.8 bu/s, 105 s).
 */
export function unloadMin(volumeL: number, unloadLPerS: number): number {
  return volumeL >= 0 && unloadLPerS > 0 ? volumeL / unloadLPerS / 60 : Number.NaN
}

/**
 * Share of its rate that a combine keeps when it stops to unload.
 *
 * @param fillMin time to fill the tank [min, above 0].
 * @param stopMin time it stands still for each tank: driving over, lining up, unloading [min, 0 or more].
 * @returns factor [0-1]; NaN when an input is not known or out of range.
 * Form: fill / (fill + stop), exact for a steady cycle. Checked: tests/truth/capacity.ts.
 */
export function stopToUnloadFactor(fillMin: number, stopMin: number): number {
  return fillMin > 0 && stopMin >= 0 ? fillMin / (fillMin + stopMin) : Number.NaN
}
