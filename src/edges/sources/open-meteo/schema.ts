/** The parts of an hourly answer that are read here. Series stand side by side under names known only at run time. */
import { z } from 'zod'

const series = z.custom<readonly (number | null)[]>(isSeries, 'is no list of numbers')

/** In one plain loop: an ensemble has some hundred thousand values. */
function isSeries(values: unknown): boolean {
  if (!Array.isArray(values)) return false
  for (let i = 0; i < values.length; i++) if (values[i] !== null && !Number.isFinite(values[i])) return false
  return true
}

export const hourlyAnswerSchema = z.object({
  utc_offset_seconds: z.number(),
  elevation: z.number().nullish(),
  hourly_units: z.record(z.string(), z.string()),
  hourly: z.object({ time: z.array(z.string()).min(1) }).catchall(series),
})
export type HourlyAnswer = z.infer<typeof hourlyAnswerSchema>
