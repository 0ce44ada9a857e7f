/** The parts of the bodies of api.weather.gov that are read here. Everything else in them is ignored. */
import { z } from 'zod'

const quantity = z.object({
  unitCode: z.string().optional(),
  value: z.number().nullish(),
  qualityControl: z.string().optional(),
})
export type NwsQuantity = z.infer<typeof quantity>

export const pointsSchema = z.object({
  properties: z.object({
    gridId: z.string().regex(/^[A-Z]{3}$/),
    gridX: z.coerce.number().int().nonnegative(),
    gridY: z.coerce.number().int().nonnegative(),
  }),
})
export type NwsPoints = z.infer<typeof pointsSchema>['properties']

/** One layer of the grid: `values` may be empty (not made by this office), `value` may be null. */
const layer = z.object({
  uom: z.string().optional(),
  values: z.array(z.object({ validTime: z.string(), value: z.number().nullable() })),
})
export type NwsLayer = z.infer<typeof layer>

export const gridpointSchema = z.object({
  properties: z.object({
    updateTime: z.string(),
    elevation: quantity.optional(),
    temperature: layer,
    dewpoint: layer.optional(),
    relativeHumidity: layer.optional(),
    skyCover: layer.optional(),
    windSpeed: layer,
    windGust: layer.optional(),
    windDirection: layer.optional(),
    probabilityOfPrecipitation: layer.optional(),
    quantitativePrecipitation: layer,
    probabilityOfThunder: layer.optional(),
  }),
})
export type NwsGridpoint = z.infer<typeof gridpointSchema>

export const hourlySchema = z.object({
  properties: z.object({
    updateTime: z.string().optional(),
    generatedAt: z.string().optional(),
    periods: z.array(
      z.object({
        startTime: z.string(),
        temperature: z.union([z.number(), quantity]).nullable(),
        temperatureUnit: z.string().nullish(),
        probabilityOfPrecipitation: quantity.nullish(),
        dewpoint: quantity.nullish(),
        relativeHumidity: quantity.nullish(),
        windSpeed: z.union([z.string(), quantity.extend({ maxValue: z.number().nullish() })]).nullish(),
        windDirection: z.string().nullish(),
        icon: z.string().nullish(),
      }),
    ),
  }),
})
export type NwsHourly = z.infer<typeof hourlySchema>
export type NwsPeriod = NwsHourly['properties']['periods'][number]

export const stationsSchema = z.object({
  features: z.array(
    z.object({
      geometry: z.object({ coordinates: z.array(z.number()).min(2) }),
      properties: z.object({
        stationIdentifier: z.string().regex(/^[A-Za-z0-9]{1,12}$/),
        name: z.string().optional(),
        elevation: quantity.optional(),
      }),
    }),
  ),
})
export type NwsStation = z.infer<typeof stationsSchema>['features'][number]

const observation = z.object({
  timestamp: z.string(),
  rawMessage: z.string().nullish(),
  temperature: quantity.nullish(),
  dewpoint: quantity.nullish(),
  relativeHumidity: quantity.nullish(),
  windSpeed: quantity.nullish(),
  windGust: quantity.nullish(),
  windDirection: quantity.nullish(),
  precipitationLastHour: quantity.nullish(),
  cloudLayers: z.array(z.object({ amount: z.string() })).nullish(),
})
export type NwsObservation = z.infer<typeof observation>

export const observationsSchema = z.object({ features: z.array(z.object({ properties: observation })) })

export const alertsSchema = z.object({
  features: z.array(
    z.object({
      properties: z.object({
        id: z.string(),
        areaDesc: z.string().nullish(),
        references: z.array(z.object({ identifier: z.string() })).nullish(),
        sent: z.string(),
        effective: z.string().nullish(),
        onset: z.string().nullish(),
        expires: z.string(),
        ends: z.string().nullish(),
        status: z.string(),
        messageType: z.string(),
        category: z.string().nullish(),
        severity: z.string().nullish(),
        certainty: z.string().nullish(),
        urgency: z.string().nullish(),
        event: z.string(),
        sender: z.string().nullish(),
        senderName: z.string().nullish(),
        headline: z.string().nullish(),
        description: z.string().nullish(),
        instruction: z.string().nullish(),
        response: z.string().nullish(),
      }),
    }),
  ),
})
export type NwsAlert = z.infer<typeof alertsSchema>['features'][number]['properties']
