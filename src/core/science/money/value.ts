/** What a hectare is worth if it is cut now, and what waiting costs. */
import { massAtMoisture } from './shrink.ts'
import { type PaymentTerms, payment } from './terms.ts'

export interface Cutting {
  /** Usual yield at the buyer's standard moisture, nothing lost [t/ha]. */
  readonly usualYieldTHa: number
  readonly terms: PaymentTerms
  /** Grain moisture when cut [% wet basis, 0-100). */
  readonly moistureWb: number
  /** Share of the yield lost while standing [0-1]. */
  readonly standingLoss: number
  /** Share of what still stands that the combine leaves behind [0-1]. */
  readonly headerLoss: number
}

const isShare = (share: number): boolean => share >= 0 && share <= 1

/**
 * Grain that reaches the tank, at the moisture it has.
 *
 * @param cutting yield, moisture and losses.
 * @returns wet mass [t/ha]; NaN when an input is not known or out of range.
 * Form: Y (1 - standing) (1 - header) (100 - standard) / (100 - m). Dry matter is kept but for the two losses.
 * Checked: tests/truth/losses.ts (Illinois 2009: 190 bu at 15 % = 216 bu at 25 %).
 */
export function wetYieldTHa(cutting: Cutting): number {
  const { usualYieldTHa, terms, moistureWb, standingLoss, headerLoss } = cutting
  if (!(usualYieldTHa >= 0 && isShare(standingLoss) && isShare(headerLoss))) return Number.NaN
  const gathered = usualYieldTHa * (1 - standingLoss) * (1 - headerLoss)
  return massAtMoisture(gathered, terms.standardMoistureWb, moistureWb)
}

/**
 * Money for a hectare cut at a moisture, after shrink, dock, drying and losses, before the cost of cutting and hauling.
 *
 * @param cutting yield, terms, moisture and losses.
 * @returns value [money/ha]; NaN when an input is not known or out of range; 0 where the buyer refuses the load.
 * Form: `payment` on `wetYieldTHa`. Checked: tests/truth/losses.ts (Michigan State soybean table: 747.81-774 an acre, within 0.04).
 */
export function valuePerHa(cutting: Cutting): number {
  const wetMassT = wetYieldTHa(cutting)
  return Number.isNaN(wetMassT)
    ? Number.NaN
    : payment({ terms: cutting.terms, moistureWb: cutting.moistureWb, wetMassT }).net
}

/**
 * Money lost by each day of waiting.
 *
 * @param nowPerHa value if cut now [money/ha].
 * @param laterPerHa value if cut after waiting [money/ha].
 * @param days how long the wait is [d, above 0].
 * @param areaHa area still standing [ha, 0 or more].
 * @returns money at risk per day [money/d]; below 0 when waiting pays (the grain is still drying to its best);
 *   NaN when an input is not known or out of range.
 * Form: (now - later) x area / days. Checked by hand against the Michigan State table, tests/truth/losses.ts.
 */
export function dollarsAtRiskPerDay(nowPerHa: number, laterPerHa: number, days: number, areaHa: number): number {
  return days > 0 && areaHa >= 0 ? ((nowPerHa - laterPerHa) * areaHa) / days : Number.NaN
}
