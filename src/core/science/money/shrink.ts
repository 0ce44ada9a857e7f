/** Water and weight: what a load weighs at another moisture. Dry matter is never made or lost here. */

const isMoisture = (moistureWb: number): boolean => moistureWb >= 0 && moistureWb < 100

/**
 * Mass of the same dry matter at another moisture.
 *
 * @param mass mass at `fromWb` [any unit of mass].
 * @param fromWb moisture it has [% wet basis, 0-100).
 * @param toWb moisture wanted [% wet basis, 0-100).
 * @returns mass at `toWb` [unit of `mass`]; NaN when an input is not known or out of range.
 * Form: m (100 - from) / (100 - to), conservation of dry matter, exact.
 * Checked: tests/truth/losses.ts (Missouri, South Dakota and Nebraska extension tables, within their rounding).
 */
export function massAtMoisture(mass: number, fromWb: number, toWb: number): number {
  if (!isMoisture(fromWb) || !isMoisture(toWb)) return Number.NaN
  return (mass * (100 - fromWb)) / (100 - toWb)
}

/**
 * Weight lost by taking water out, as share of the wet weight.
 *
 * @param fromWb moisture it has [% wet basis, 0-100).
 * @param toWb moisture wanted [% wet basis, 0-100).
 * @returns water shrink [share of wet mass]; below 0 when water is put in; NaN when not known.
 * Form: 1 - (100 - from) / (100 - to), exact. Checked: tests/truth/losses.ts (South Dakota State: 11.24 % from 25 to 15.5 %).
 */
export function waterShrink(fromWb: number, toWb: number): number {
  return 1 - massAtMoisture(1, fromWb, toWb)
}

/**
 * Water shrink for each point taken out, which a buyer's flat rate has to be compared with.
 *
 * @param toWb moisture dried to [% wet basis, 0-100).
 * @returns shrink [% of wet weight per point]; NaN when not known.
 * Form: 100 / (100 - to), exact. Checked: tests/truth/losses.ts (1.183 at 15.5 %, 1.149 at 13 %).
 */
export function waterShrinkPerPoint(toWb: number): number {
  return isMoisture(toWb) ? 100 / (100 - toWb) : Number.NaN
}

/**
 * Weight left after drying and handling, when handling takes a flat share of the wet weight.
 *
 * @param mass mass at `fromWb` [any unit of mass].
 * @param fromWb moisture it has [% wet basis, 0-100).
 * @param toWb moisture wanted [% wet basis, 0-100).
 * @param handlingPercent handling shrink, often 0.25-0.5 [% of wet weight, 0-100].
 * @returns mass left [unit of `mass`]; NaN when an input is not known or out of range.
 * Form: m (1 - water shrink - handling). Checked: tests/truth/losses.ts (1,000 lb corn from 25.5 to 15.5 % with 0.5 %: 876.7 lb).
 */
export function massAfterDrying(mass: number, fromWb: number, toWb: number, handlingPercent: number): number {
  if (!(handlingPercent >= 0 && handlingPercent <= 100)) return Number.NaN
  return mass * (1 - waterShrink(fromWb, toWb) - handlingPercent / 100)
}

/**
 * Weight a buyer deducts by a flat rate per point, his pencil shrink.
 *
 * @param moistureWb moisture of the load [% wet basis].
 * @param standardWb moisture he pays on [% wet basis].
 * @param percentPerPoint his rate, usually 1.2-1.5 [% of wet weight per point, 0 or more].
 * @returns deduction [share of wet weight, 0-1]; 0 at or below standard; NaN when not known.
 * Form: linear per point above standard, held at 1. Checked: tests/truth/losses.ts (Iowa State A2-32; Michigan State).
 */
export function pencilShrink(moistureWb: number, standardWb: number, percentPerPoint: number): number {
  if (!isMoisture(moistureWb) || !isMoisture(standardWb) || !(percentPerPoint >= 0)) return Number.NaN
  return Math.min(1, (percentPerPoint * Math.max(0, moistureWb - standardWb)) / 100)
}

/**
 * Share of the saleable weight given away by cutting grain drier than the buyer's standard.
 *
 * @param moistureWb moisture of the load [% wet basis, 0-100).
 * @param standardWb moisture he pays on [% wet basis, 0-100).
 * @returns loss [share of the weight at standard]; 0 at or above standard; NaN when not known.
 * Form: 1 - (100 - standard) / (100 - m), exact. Checked: tests/truth/losses.ts (Nebraska extension 2016: 5.43 % at 8 %).
 */
export function overDryLoss(moistureWb: number, standardWb: number): number {
  const share = 1 - massAtMoisture(1, standardWb, moistureWb)
  return Number.isNaN(share) ? Number.NaN : Math.max(0, share)
}
