/** Shapes of the API: outlines of fields and patches on the way in (GeoJSON, RFC 7946). */
import { z } from '@hono/zod-openapi'

/** Of a FeatureCollection; a farm of a thousand fields fits. */
const MOST_FEATURES = 2000
const MOST_POINTS = 5000
const LATER_DAYS = 60

const Position = z.array(z.number()).min(2)
const Ring = z.array(Position).min(4).max(MOST_POINTS)
const Polygon = z.object({ type: z.literal('Polygon'), coordinates: z.array(Ring).min(1) })
const MultiPolygon = z.object({ type: z.literal('MultiPolygon'), coordinates: z.array(z.array(Ring).min(1)).min(1) })
const Point = z.object({ type: z.literal('Point'), coordinates: Position })

const patch = {
  kind: z.enum(['green', 'wet-hole']),
  laterDays: z.number().min(0).max(LATER_DAYS),
  handling: z.enum(['leave', 'blend']),
}

export const NewFeature = z.looseObject({
  type: z.literal('Feature'),
  id: z.union([z.string(), z.number()]).optional(),
  geometry: z.discriminatedUnion('type', [Polygon, MultiPolygon, Point]),
  properties: z
    .looseObject({
      field: z
        .string()
        .optional()
        .openapi({ description: 'Id or name of the field; the `id` of the feature serves too.' }),
      name: z.string().optional(),
      patch: z.string().optional().openapi({ description: 'Name of the patch of that field which is drawn.' }),
      kind: patch.kind.optional(),
      laterDays: patch.laterDays.optional(),
      handling: patch.handling.optional(),
    })
    .nullable(),
})

/** The one system of coordinates there is (RFC 7946, 4), as its forerunner of 2008 named it. */
const WGS84 = /CRS:?84$|EPSG::?4326$/i
const namesWgs84 = (crs: unknown): boolean => {
  const named = z.object({ properties: z.object({ name: z.string() }) }).safeParse(crs)
  return named.success && WGS84.test(named.data.properties.name)
}

export const NewOutlines = z
  .looseObject({
    type: z.literal('FeatureCollection'),
    features: z.array(NewFeature).min(1).max(MOST_FEATURES),
    crs: z
      .unknown()
      .refine((crs) => crs === undefined || crs === null || namesWgs84(crs), {
        message: 'Coordinates are longitude and latitude of WGS 84 (RFC 7946, 4); convert them and leave `crs` out.',
      })
      .optional(),
  })
  .openapi('NewOutlines', { description: 'GeoJSON (RFC 7946). Rings may run either way round.' })

export const ImportReport = z
  .object({
    changes: z.array(
      z.object({
        key: z.string().openapi({ description: 'Of the field, or of the patch: field id, slash, patch id.' }),
        change: z.enum(['added', 'changed', 'same']),
        areaHa: z.number(),
      }),
    ),
  })
  .openapi('ImportReport')

export const NewPatch = z
  .strictObject({
    field: z.string(),
    name: z.string().min(1).max(60),
    share: z.number().optional().openapi({ description: "Share of the field's area, 0-1; this or `outline`." }),
    outline: z
      .object({ type: z.literal('Polygon'), coordinates: z.array(Ring).length(1) })
      .optional()
      .openapi({ description: 'GeoJSON polygon of one ring.' }),
    kind: patch.kind.default('green'),
    laterDays: patch.laterDays.default(0),
    handling: patch.handling.default('leave'),
  })
  .refine(({ share, outline }) => (share === undefined) !== (outline === undefined), {
    message: 'Give `share` or `outline`, one of them.',
  })
  .openapi('NewPatch')

export const PatchMade = z
  .object({
    key: z.string(),
    id: z.string(),
    name: z.string(),
    share: z.number(),
    areaHa: z.number(),
    kind: patch.kind,
    laterDays: z.number(),
    handling: patch.handling,
  })
  .openapi('Patch')
