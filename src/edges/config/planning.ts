/** The `planning` section of the farm file: what every plan keeps to, and how much the bad end of the weather counts. */
import { z } from 'zod'
import type { PlanningRule } from '#core/operation/farm.ts'

/** Two outfits in a field, four fields a day: common practice, no source. */
const USUAL = { outfitsPerField: 2, fieldsPerDay: 4, worst: 0.2 } as const

export const planningSchema = z
  .strictObject({
    outfits_per_field: z
      .number()
      .int()
      .min(1)
      .max(20)
      .default(USUAL.outfitsPerField)
      .describe('Outfits that fit in a field at once, 1 to 20.'),
    fields_per_day: z
      .number()
      .int()
      .min(1)
      .max(20)
      .default(USUAL.fieldsPerDay)
      .describe('Fields an outfit visits in a day at most, 1 to 20.'),
    caution: z
      .strictObject({
        weight: z
          .number()
          .min(0)
          .max(1)
          .describe('How much the bad end counts against the mean, 0 to 1: 0 is the mean alone, 1 the bad end alone.'),
        worst: z
          .number()
          .min(0.05)
          .max(1)
          .default(USUAL.worst)
          .describe('Share of the outcomes that makes the bad end, 0.05 to 1; left out, 0.2.'),
      })
      .optional()
      .describe('For a farm that would rather be safe than have the best mean: weight, worst.'),
  })
  .prefault({})
  .describe('What every plan keeps to: outfits_per_field, fields_per_day, caution.')

export type PlanningEntry = z.infer<typeof planningSchema>

export function toPlanning({ outfits_per_field, fields_per_day, caution }: PlanningEntry): PlanningRule {
  return {
    outfitsPerField: outfits_per_field,
    fieldsPerDay: fields_per_day,
    ...(caution && { aversion: { weight: caution.weight, tail: caution.worst } }),
  }
}
