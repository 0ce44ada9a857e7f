/** What an outfit does in a part of a farm, hauled to the part's buyer. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import { buyerTPerH } from '#core/planning/capacity/buyer.ts'
import { bulkDensityKgM3 } from '#core/planning/capacity/cutting.ts'
import { type OutfitRate, outfitRate } from '#core/planning/capacity/outfit.ts'
import { massAtMoisture } from '#core/science/money/shrink.ts'

/** @returns a function that gives undefined where the outfit has no head for the crop or nobody buys it. */
export function rateIn(farm: Farm) {
  return (outfit: Outfit, part: FieldPart, moistureWb: number): OutfitRate | undefined => {
    const { field } = part
    const buyer = farm.buyers.find(({ id }) => id === field.buyerId)
    const standardWb = buyer?.terms.find(({ crop }) => crop === field.crop)?.standardMoistureWb
    if (!buyer || standardWb === undefined) return undefined
    const rate = outfitRate({
      outfit,
      crop: field.crop,
      yieldTHa: massAtMoisture(field.usualYieldTHa, standardWb, moistureWb),
      grainKgM3: bulkDensityKgM3(field.crop),
      haulKm: field.haulKm,
      turnaroundMin: buyer.turnaroundMin,
      buyerTPerH: buyerTPerH(buyer, field.crop, moistureWb),
    })
    return rate.cutHaPerH > 0 ? rate : undefined
  }
}
