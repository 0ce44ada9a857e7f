/** Carts from the combine to the headland, trucks from the headland to the buyer: their cycles and what they can carry. */

const S_PER_MIN = 60
const MIN_PER_H = 60

export interface CartTrip {
  readonly cartL: number
  /** Combine tank it takes over [L]. */
  readonly tankL: number
  /** Time to empty one combine tank [min]. */
  readonly tankUnloadMin: number
  /** Time to line up with a combine, per tank [min]. */
  readonly positionMin: number
  /** Drive between combine and truck, one way [min]. */
  readonly travelMin: number
  /** Time to empty the cart into the truck [min]. */
  readonly cartUnloadMin: number
}

/**
 * Time from one cart load to the next.
 *
 * @param trip all volumes above 0, all times 0 or more.
 * @returns cycle [min]; NaN when an input is not known or out of range.
 * Form: (cart / tank) (unload + line up) + 2 travel + empty the cart: textbook cycle time (Srivastava et al. 2006, ch. 15,
 * from memory). Checked: tests/truth/capacity.ts (worked by hand: 13.6 min).
 */
export function cartCycleMin(trip: CartTrip): number {
  const { cartL, tankL, tankUnloadMin, positionMin, travelMin, cartUnloadMin } = trip
  if (!(cartL > 0 && tankL > 0)) return Number.NaN
  if (!(tankUnloadMin >= 0 && positionMin >= 0 && travelMin >= 0 && cartUnloadMin >= 0)) return Number.NaN
  return (cartL / tankL) * (tankUnloadMin + positionMin) + 2 * travelMin + cartUnloadMin
}

/**
 * Time from one truck load to the next.
 *
 * @param loadMin time to load it at the field [min, 0 or more].
 * @param haulKm road distance, one way [km, 0 or more].
 * @param roadSpeedMs mean speed on the road [m/s, above 0].
 * @param turnaroundMin time at the buyer: queue, probe, weigh, dump [min, 0 or more].
 * @returns cycle [min]; NaN when an input is not known or out of range.
 * Form: load + 2 haul + turnaround, exact. Checked: tests/truth/capacity.ts (worked by hand: 71 min).
 */
export function truckCycleMin(loadMin: number, haulKm: number, roadSpeedMs: number, turnaroundMin: number): number {
  if (!(loadMin >= 0 && haulKm >= 0 && roadSpeedMs > 0 && turnaroundMin >= 0)) return Number.NaN
  return loadMin + (2 * haulKm * 1000) / roadSpeedMs / S_PER_MIN + turnaroundMin
}

/**
 * What one carrier moves in an hour.
 *
 * @param load what it carries [t or L, 0 or more].
 * @param cycleMin its cycle [min, above 0].
 * @returns rate [t/h or L/h]; NaN when an input is not known or out of range.
 * Form: 60 load / cycle, exact. Checked: tests/truth/capacity.ts (6 trucks of 950 bu at 71 min: 4,817 bu/h).
 */
export function carrierRatePerH(load: number, cycleMin: number): number {
  return load >= 0 && cycleMin > 0 ? (MIN_PER_H * load) / cycleMin : Number.NaN
}

/** Keeps a fleet that fits exactly from being rounded up by the last bit of a division. */
const ROUNDING_SLACK = 1e-9

/**
 * Carts or trucks needed so that none ahead of them waits.
 *
 * @param ratePerH what has to be moved [t/h or L/h, 0 or more].
 * @param carrierPerH what one of them moves [same unit, above 0].
 * @returns whole number of carriers; NaN when an input is not known or out of range.
 * Form: ceil(rate / carrier rate). Checked: tests/truth/capacity.ts (1.63 carts: 2; 8.97 trucks: 9).
 */
export function carriersNeeded(ratePerH: number, carrierPerH: number): number {
  return ratePerH >= 0 && carrierPerH > 0 ? Math.max(0, Math.ceil(ratePerH / carrierPerH - ROUNDING_SLACK)) : Number.NaN
}
