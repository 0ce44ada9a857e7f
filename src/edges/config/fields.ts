/** The `fields` section of the farm file. */
import { z } from 'zod'
import { crop, date, id, moisture, name } from './common.ts'
import { quantity, type UnitsOfFile } from './units.ts'

/** Enough for a field digitised metre by metre; more is a pasted map, not a field. */
const MAX_POINTS = 2000

const position = z
  .array(z.number())
  .min(2)
  .max(3)
  .describe('A point as [longitude, latitude] in degrees, longitude first, west negative.')
const ring = z
  .array(position)
  .min(4)
  .max(MAX_POINTS)
  .describe(`A closed ring of 4 to ${MAX_POINTS} points; the last point repeats the first.`)
const polygonRings = z.array(ring).min(1).max(50).describe('Rings of one polygon: the outline first, then its holes.')

export const boundary = z
  .discriminatedUnion('type', [
    z.strictObject({ type: z.literal('Polygon'), coordinates: polygonRings }),
    z.strictObject({ type: z.literal('MultiPolygon'), coordinates: z.array(polygonRings).min(1).max(20) }),
  ])
  .describe(
    'Outline of the field as a GeoJSON (RFC 7946) geometry of type Polygon or MultiPolygon, points as ' +
      '[longitude, latitude]. The area is computed from it.',
  )

export const latitude = z.number().min(-66).max(72).describe('Latitude in degrees, north positive, -66 to 72.')
export const longitude = z.number().min(-180).max(180).describe('Longitude in degrees, east positive, -180 to 180.')
const centre = z
  .strictObject({ lat: latitude, lon: longitude })
  .describe('Middle of the field, where no boundary is given: lat and lon in degrees.')

const soil = z
  .strictObject({
    texture: z
      .enum(['sand', 'loamy-sand', 'sandy-loam', 'loam', 'silt-loam', 'silt', 'silty-clay-loam', 'silty-clay', 'clay'])
      .describe(
        'Texture of the topsoil: sand, loamy-sand, sandy-loam, loam, silt-loam, silt, silty-clay-loam, ' +
          'silty-clay or clay.',
      ),
    drainage: z.enum(['well', 'moderate', 'poor', 'tiled']).describe('Drainage: well, moderate, poor or tiled.'),
    carries: z
      .number()
      .min(-0.3)
      .max(0.3)
      .describe(
        'How much wetter than usual the ground still carries a loaded combine and cart, as a share of field capacity: ' +
          '0.05 for tracks or firm sod, -0.05 for heavy carts; from -0.3 to 0.3.',
      )
      .optional(),
  })
  .describe('The soil of the field, for when it bears a combine: texture and drainage.')

const band = z
  .strictObject({
    low: moisture('Below this the crop is brittle.'),
    high: moisture('Above this the crop is wet.'),
  })
  .refine((b) => b.low < b.high, {
    error: 'has its low end at or above its high end',
    params: { cure: 'Make `low` the drier and `high` the wetter moisture, such as low: 10, high: 13.' },
  })
  .describe("Moisture range in which to cut this field, where it is not the crop's usual one: low and high.")

const patch = z
  .strictObject({
    name: name('Name of the patch.'),
    id,
    share: z
      .number()
      .gt(0)
      .lt(1)
      .describe("Share of the field's area, between 0 and 1: 0.08 is 8 percent. May be left out where it is drawn.")
      .optional(),
    outline: z
      .strictObject({
        type: z.literal('Polygon').describe('Polygon.'),
        coordinates: z.array(ring).length(1).describe('The one ring, points as [longitude, latitude].'),
      })
      .describe('Outline of the patch as a GeoJSON (RFC 7946) Polygon of one ring; its share is computed from it.')
      .optional(),
    kind: z.enum(['green', 'wet-hole']).describe('Kind of patch: green (ripens late) or wet-hole (soft ground).'),
    later: z.number().min(0).max(60).describe('Days it ripens after the rest of the field, 0 to 60.'),
    handling: z
      .enum(['leave', 'blend'])
      .describe('leave: the crew cuts round it and comes back. blend: the crew cuts through it.'),
  })
  .describe('A part of the field that ripens apart: name, share or outline, kind, later, handling.')

/** Maturity groups 000 to X exist; the growth model here knows 00 to 8. "00" must stay text: as a number it is 0. */
const maturityGroup = z
  .union([z.number().min(0).max(8.9), z.string().regex(/^00(\.\d)?$/)])
  .describe('Maturity group of a soybean variety: 00 to 8.9, such as 2.8.')

export const fieldSchema = (units: UnitsOfFile) =>
  z
    .strictObject({
      name: name('Name of the field as the crew says it.'),
      id,
      crop,
      boundary: boundary.optional(),
      centre: centre.optional(),
      area: quantity(units, 'area', 'Area of the field; may be left out where a boundary is given.').optional(),
      planted: date('Day the crop was planted.'),
      maturity_group: maturityGroup.optional(),
      relative_maturity: z
        .number()
        .min(65)
        .max(130)
        .optional()
        .describe('Relative maturity of a corn hybrid in days, 65 to 130.'),
      mature_seen: date('Day the crop was seen physiologically mature, if it was looked at.').optional(),
      cut: date('Day the whole field was cut, if it already is; it is then left out of every plan.').optional(),
      rows: z
        .number()
        .min(0)
        .max(360)
        .optional()
        .describe('Bearing of the rows in degrees clockwise from north, 0 to 360: 0 north-south, 90 east-west.'),
      soil,
      after_wheat: z
        .boolean()
        .default(false)
        .describe('true if planted after wheat the same summer (double crop), else false.'),
      usual_yield: quantity(units, 'usualYield', "Usual yield at the buyer's standard moisture."),
      band: band.optional(),
      patches: z.array(patch).max(20).default([]).describe('Parts that ripen apart; their shares sum to less than 1.'),
      buyer: z.string().min(1).describe('Name or id of one of the buyers below.'),
      haul: quantity(units, 'haul', 'Road distance from the field to its buyer.'),
    })
    .describe('A field: name, crop, place, planted, soil, usual_yield, buyer, haul.')

export type FieldEntry = z.infer<ReturnType<typeof fieldSchema>>
export type BoundaryEntry = z.infer<typeof boundary>
