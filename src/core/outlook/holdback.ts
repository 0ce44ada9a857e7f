/**
 * Why an hour is not fit to cut: one bit each, so that an hour may have several.
 * The order is the order in which a person wants to hear them.
 */
export const HOLDBACKS = [
  'unknown',
  'unripe',
  'wet-grain',
  'rain',
  'wet-plants',
  'tough-stems',
  'soft-ground',
  'fire-stop',
  'wind',
  'buyer-shut',
  'crew-off',
  'dark',
] as const
export type Holdback = (typeof HOLDBACKS)[number]

export const HOLDBACK_BIT = Object.fromEntries(HOLDBACKS.map((name, index) => [name, 1 << index])) as {
  readonly [H in Holdback]: number
}

/** @returns the names behind the bits, in the order of `HOLDBACKS`. */
export const holdbacksIn = (bits: number): Holdback[] => HOLDBACKS.filter((_, index) => (bits & (1 << index)) !== 0)
