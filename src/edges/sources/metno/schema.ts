/** The parts of Locationforecast 2.0 (compact or complete) that are read here. Every detail may be missing. */
import { z } from 'zod'

const amount = z.number().nullish()

const instant = z.object({
  air_temperature: amount,
  relative_humidity: amount,
  wind_speed: amount,
  wind_speed_of_gust: amount,
  wind_from_direction: amount,
  cloud_area_fraction: amount,
  air_temperature_percentile_10: amount,
  air_temperature_percentile_90: amount,
  wind_speed_percentile_10: amount,
  wind_speed_percentile_90: amount,
})
export type MetInstant = z.infer<typeof instant>

const period = z.object({
  details: z
    .object({
      precipitation_amount: amount,
      precipitation_amount_min: amount,
      precipitation_amount_max: amount,
      probability_of_precipitation: amount,
      probability_of_thunder: amount,
    })
    .optional(),
})

export const locationforecastSchema = z.object({
  properties: z.object({
    meta: z.object({ updated_at: z.string(), units: z.record(z.string(), z.string()) }),
    timeseries: z
      .array(
        z.object({
          time: z.string(),
          data: z.object({
            instant: z.object({ details: instant }),
            next_1_hours: period.optional(),
            next_6_hours: period.optional(),
          }),
        }),
      )
      .min(1),
  }),
})
export type MetForecast = z.infer<typeof locationforecastSchema>
export type MetStep = MetForecast['properties']['timeseries'][number]
export type MetPeriodDetails = NonNullable<z.infer<typeof period>['details']>
