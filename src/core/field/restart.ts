/** Where grain stands when nobody watched the weather since it matured: a prior, not a course. */
import type { CropName } from '#core/science/crop.ts'

/**
 * First-order dry-down after maturity [1/d]. Soybean and corn fitted to published dry-down (Ciampitti, Kansas State: 58
 * to 12 % in about 15 days; Iowa State 2017: 0.69 points a day over the first 20); the others are a choice, no source.
 */
const DRY_DOWN_PER_DAY: { readonly [C in CropName]: number } = {
  soybean: 0.25,
  corn: 0.055,
  'wheat-soft': 0.2,
  'wheat-hard': 0.2,
  'wheat-durum': 0.2,
  sorghum: 0.06,
  barley: 0.2,
  oats: 0.2,
  canola: 0.2,
  sunflower: 0.08,
}

/** @param restWb moisture at rest with the air of late [% wet basis]. @returns likely moisture now [% wet basis]. */
export function restartMoistureWb(
  crop: CropName,
  daysSinceMaturity: number,
  moistureAtMaturityWb: number,
  restWb: number,
): number {
  if (daysSinceMaturity <= 0) return moistureAtMaturityWb
  return restWb + (moistureAtMaturityWb - restWb) * Math.exp(-DRY_DOWN_PER_DAY[crop] * daysSinceMaturity)
}
