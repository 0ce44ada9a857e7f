/**
 * Grain lost, from seeds counted on the ground.
 *
 * @param seedsPerM2 seeds counted [1/m2, 0 or more].
 * @param seedsPerKg seeds in a kilogram of the crop [1/kg, above 0].
 * @returns loss [t/ha]; NaN when an input is not known or out of range.
 * Form: mass balance, exact: 1 kg/m2 = 10 t/ha. Used as in the field guides (bu/acre = seeds/ft2 x 43,560 / (seeds/lb x lb/bu)).
 * Checked: tests/truth/losses.ts (North Dakota State extension 2002, ten rows within half a seed).
 */
export function lossTHaFromSeedCount(seedsPerM2: number, seedsPerKg: number): number {
  return seedsPerM2 >= 0 && seedsPerKg > 0 ? (seedsPerM2 / seedsPerKg) * 10 : Number.NaN
}
