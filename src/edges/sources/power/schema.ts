/** The parts of an hourly answer that are read here. */
import { z } from 'zod'

/** Values by hour, under stamps such as `2025020207`. */
const byHour = z.custom<{ readonly [stamp: string]: number | null }>(isByHour, 'is no list of numbers by hour')

/** In one plain loop: a year has some fifty thousand values. */
function isByHour(values: unknown): boolean {
  if (typeof values !== 'object' || values === null || Array.isArray(values)) return false
  for (const stamp in values) {
    const value = (values as { [stamp: string]: unknown })[stamp]
    if (value !== null && !Number.isFinite(value)) return false
  }
  return true
}

export const powerAnswerSchema = z.object({
  header: z.object({ fill_value: z.number(), time_standard: z.literal('UTC') }),
  parameters: z.record(z.string(), z.object({ units: z.string() })),
  properties: z.object({ parameter: z.record(z.string(), byHour) }),
})
export type PowerAnswer = z.infer<typeof powerAnswerSchema>
