/** The farm file as a whole, in the farm's units. Sections live in the files beside this one. */
import { z } from 'zod'
import { buyerSchema } from './buyers.ts'
import { id, name } from './common.ts'
import { fieldSchema, latitude, longitude } from './fields.ts'
import { fireSchema, weatherSchema } from './fire.ts'
import { mapSchema } from './map.ts'
import { morningSchema } from './morning.ts'
import { outfitSchema } from './outfits.ts'
import { language, personSchema } from './people.ts'
import { planningSchema } from './planning.ts'
import { quantity, type UnitsOfFile } from './units.ts'

/** Offsets such as -06:00 know no daylight saving, so only names of places are taken. */
export function isTimeZone(text: string): boolean {
  if (text !== 'UTC' && !/^[A-Za-z_]+\/[A-Za-z0-9_+\-/]+$/.test(text)) return false
  try {
    return Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(text).timeZoneId !== ''
  } catch {
    return false
  }
}

/** @param units system the file's bare numbers are read in; `either` gives the editor's schema. */
export const farmSchema = (units: UnitsOfFile) =>
  z
    .strictObject({
      farm: name('Name of the farm.'),
      id,
      units: z.enum(['us', 'metric']).describe('How every bare number in this file is read: us or metric.'),
      language: language.default('en'),
      time_zone: z
        .string()
        .refine(isTimeZone, 'is not a time zone')
        .describe('Time zone of the farm by its IANA name, such as America/Chicago.'),
      home: z
        .strictObject({
          lat: latitude,
          lon: longitude,
          elevation: quantity(units, 'elevation', 'Height above the sea.'),
        })
        .describe('Where the farmyard is: lat, lon, elevation.'),
      fields: z.array(fieldSchema(units)).min(1).max(5000).describe('The fields, at least one.'),
      outfits: z.array(outfitSchema(units)).min(1).max(50).describe('The harvest outfits, at least one.'),
      buyers: z.array(buyerSchema(units)).min(1).max(200).describe('The buyers, at least one.'),
      people: z.array(personSchema).min(1).max(500).describe('The people, at least one.'),
      fire: fireSchema(units),
      morning: morningSchema,
      planning: planningSchema,
      map: mapSchema,
      weather: weatherSchema,
    })
    .describe(
      'The farm file: farm, units, time_zone, home, fields, outfits, buyers, people, fire, morning, planning, map, weather.',
    )

export type FarmFile = z.infer<ReturnType<typeof farmSchema>>
