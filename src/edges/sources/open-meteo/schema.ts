/** The parts of an hourly answer that are read here. Series stand side by side under names known only at run time. */
import { z } from 'zod'

export const hourlyAnswerSchema = z.object({
  utc_offset_seconds: z.number(),
  elevation: z.number().nullish(),
  hourly_units: z.record(z.string(), z.string()),
  hourly: z.object({ time: z.array(z.string()).min(1) }).catchall(z.array(z.number().nullable())),
})
export type HourlyAnswer = z.infer<typeof hourlyAnswerSchema>
