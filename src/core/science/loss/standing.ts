/** The one door through which the outlook asks what waiting costs in grain. */
import type { CropName } from '#core/science/crop.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'
import { CORN_WORST, cornStandingFraction, cornStandingPerDay } from './lodging.ts'
import { SHATTER_TRAITS, shatterFraction, shatterRatePerDay } from './shatter.ts'

/**
 * Share of the yield that a standing crop loses per day, at this hour.
 *
 * @param crop any crop.
 * @param moistureWb grain moisture now [% wet basis, 0-100); corn does not depend on it.
 * @param daysRipe days since ripeness: soybean R8, corn black layer, others fit for direct cutting [d].
 * @param wetDryCycles times the ripe crop was wetted and dried again [count, 0 or more]; corn does not depend on it.
 * @returns loss rate [share of yield per day]; NaN when an input that matters is not known.
 * Form and sources: `shatterRatePerDay` and `cornStandingPerDay`. Checked: tests/truth/losses.ts.
 */
export function standingLossPerDay(crop: CropName, moistureWb: number, daysRipe: number, wetDryCycles: number): number {
  return crop === 'corn' ? cornStandingPerDay(daysRipe) : shatterRatePerDay(crop, moistureWb, daysRipe, wetDryCycles)
}

/**
 * Loss of a standing crop after some more hours at a rate.
 *
 * @param crop any crop.
 * @param lossSoFar share of yield lost until now [0-1].
 * @param ratePerDay from `standingLossPerDay` [share of yield per day, 0 or more].
 * @param hours time that passes at that rate [h, 0 or more].
 * @returns loss [share of yield], held at the crop's worst; NaN when an input is not known.
 * Form: rates are shares of the first yield, so they add up. Checked against the closed form `standingLossFraction`.
 */
export function addStandingLoss(crop: CropName, lossSoFar: number, ratePerDay: number, hours: number): number {
  const worst = crop === 'corn' ? CORN_WORST : SHATTER_TRAITS[crop].worst
  return Math.min(worst, lossSoFar + (ratePerDay * hours) / HOURS_PER_DAY)
}

/**
 * Loss of a standing crop from ripeness until now, had the conditions been the same all along.
 *
 * @param crop any crop.
 * @param moistureWb grain moisture [% wet basis, 0-100); corn does not depend on it.
 * @param daysRipe days since ripeness, as in `standingLossPerDay` [d].
 * @param wetDryCycles times the ripe crop was wetted and dried again [count, 0 or more]; corn does not depend on it.
 * @returns loss [share of yield]; NaN when an input that matters is not known.
 * Form and sources: `shatterFraction` and `cornStandingFraction`. Checked: tests/truth/losses.ts.
 */
export function standingLossFraction(
  crop: CropName,
  moistureWb: number,
  daysRipe: number,
  wetDryCycles: number,
): number {
  return crop === 'corn' ? cornStandingFraction(daysRipe) : shatterFraction(crop, moistureWb, daysRipe, wetDryCycles)
}
