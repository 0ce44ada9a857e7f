/**
 * The `fire` and `weather` sections of the farm file.
 *
 * The fire numbers are when Threshday speaks up, set to the farm's local rule. They permit nothing: a ban, a warning
 * of the weather service, the fire service and the operator's own eyes outrank them.
 */
import { z } from 'zod'
import { date, timeOfDay } from './common.ts'
import { quantity, type UnitsOfFile } from './units.ts'

/**
 * Care from gusts of 25 mph, wind of 20 mph or humidity of 20 %: in the range of the red-flag criteria of several
 * U.S. weather offices; common practice, no single source. Grass indices: 35 is the Australian grain-harvest stop.
 */
export const FIRE_DEFAULTS = {
  us: { gust: 25, wind: 20 },
  metric: { gust: 40, wind: 32 },
  humidity: 20,
  careGrassIndex: 20,
  stopGrassIndex: 35,
} as const

const grassIndex = (meaning: string) =>
  z.number().min(1).max(150).describe(`${meaning} McArthur Mark 4 grassland fire danger index, 1 to 150.`)

export const fireSchema = (units: UnitsOfFile) =>
  z
    .strictObject({
      care: z
        .strictObject({
          gust: quantity(units, 'windSpeed', 'Gust from which to take care; left out, 25 mph or 40 km/h.').optional(),
          wind: quantity(units, 'windSpeed', 'Wind from which to take care; left out, 20 mph or 32 km/h.').optional(),
          humidity: z
            .number()
            .min(1)
            .max(60)
            .default(FIRE_DEFAULTS.humidity)
            .describe('Relative humidity at or below which to take care, in percent, 1 to 60.'),
          grass_index: grassIndex('Index from which to take care.').default(FIRE_DEFAULTS.careGrassIndex),
        })
        .prefault({})
        .describe('When the message asks for extra care: gust, wind, humidity, grass_index.'),
      stop: z
        .strictObject({
          grass_index: grassIndex('Index from which the farm stops cutting.').default(FIRE_DEFAULTS.stopGrassIndex),
        })
        .prefault({})
        .describe('When the farm stops cutting: grass_index.'),
      bans: z
        .array(
          z.strictObject({
            from: date('First day of the ban.'),
            to: date('Last day of the ban.'),
            text: z.string().trim().min(1).max(300).describe('What is banned and who said so, 1 to 300 characters.'),
          }),
        )
        .max(100)
        .default([])
        .describe('Bans the farm was told of: from, to, text.'),
    })
    .prefault({})
    .describe('The local fire rule as the farm sets it. A ban or warning always outranks it.')

export const weatherSchema = z
  .array(
    z.discriminatedUnion('use', [
      z.strictObject({ use: z.literal('national-us').describe('The U.S. national weather service.') }),
      z.strictObject({ use: z.literal('global').describe('A national service with a forecast for the whole globe.') }),
      z.strictObject({
        use: z
          .literal('global-history')
          .describe(
            'A public service with the past of any place, for the season since planting and for earlier years.',
          ),
      }),
      z.strictObject({
        use: z.literal('open-aggregator').describe('An open aggregator of national models, with terms of its own.'),
        consent: z
          .literal(true)
          .describe('Write true once you have read its terms of use (not for sale, fair use) and accept them.'),
        server: z
          .url({ protocol: /^https?$/, error: 'is not an address such as https://weather.example.org/v1/' })
          .refine((address) => !/[?#]|\/\/[^/]*@/.test(address), 'holds more than an address: no keys, no passwords')
          .optional()
          .describe(
            'Address of your own server of the same form, ending in its version, such as https://weather.example.org/v1/.',
          ),
      }),
      z.strictObject({
        use: z.literal('recorded').describe('A weather file, for the demo and for replays.'),
        file: z.string().min(1).describe('Path of the CSV file, seen from the farm file.'),
        day: date('Day on which the clock of the demo stands when it starts.'),
        time: timeOfDay('Time at which the clock of the demo stands when it starts.'),
        years: z
          .string()
          .min(1)
          .optional()
          .describe('Path of a CSV file with earlier years of the place, for the season beyond the forecast.'),
        credit: z.string().min(1).describe('Whom the weather is owed to; shown wherever it is used.'),
        licence: z.string().min(1).describe('Licence of the weather file.'),
      }),
    ]),
  )
  .min(1)
  .max(5)
  .default([{ use: 'national-us' }, { use: 'global' }, { use: 'global-history' }])
  .describe(
    'Weather suppliers in the order they are asked, each as `use:` national-us, global, global-history, open-aggregator or recorded.',
  )

export type FireEntry = z.infer<ReturnType<typeof fireSchema>>
export type WeatherEntry = z.infer<typeof weatherSchema>
