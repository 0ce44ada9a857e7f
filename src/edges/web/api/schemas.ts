/** Shapes of the API: what is checked on the way in, and told of in its OpenAPI document. SI units, moisture % wet basis. */
import { z } from '@hono/zod-openapi'
import { CROPS } from '#core/science/crop.ts'
import { PROBLEMS } from '#edges/web/errors.ts'

const time = z.string().openapi({ example: '2010-09-28T14:05:00-05:00', description: 'RFC 3339.' })

export const Problem = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string().optional(),
    errors: z.array(z.object({ pointer: z.string(), detail: z.string() })).optional(),
  })
  .openapi('Problem', {
    description: `RFC 9457. Types: ${Object.keys(PROBLEMS).join(', ')}.`,
  })

export const Day = z
  .looseObject({
    format: z.string(),
    date: z.string(),
    now: z.string().nullable(),
    headline: z.string(),
    lines: z.array(z.object({ kind: z.string(), text: z.string() })),
    runs: z.array(z.looseObject({ part: z.string(), name: z.string(), start: z.string().nullable() })),
    waiting: z.array(z.looseObject({ part: z.string(), name: z.string(), reason: z.string() })),
    parts: z.array(z.looseObject({ part: z.string(), name: z.string() })),
  })
  .openapi('Day', { description: 'The whole day as `npm run today -- --json` gives it; see docs/today-json.md.' })

export const Field = z
  .object({
    id: z.string(),
    name: z.string(),
    crop: z.enum(CROPS),
    areaHa: z.number(),
    centre: z.object({ latDeg: z.number(), lonDeg: z.number() }),
    plantedOn: z.string(),
    band: z.object({ lowWb: z.number(), highWb: z.number() }),
    patches: z.array(z.object({ key: z.string(), name: z.string(), share: z.number() })),
  })
  .openapi('Field')

const Position = z.array(z.number()).min(2)
export const FieldCollection = z
  .object({
    type: z.literal('FeatureCollection'),
    features: z.array(
      z.object({
        type: z.literal('Feature'),
        id: z.string(),
        geometry: z.discriminatedUnion('type', [
          z.object({ type: z.literal('Point'), coordinates: Position }),
          z.object({ type: z.literal('MultiPolygon'), coordinates: z.array(z.array(z.array(Position))) }),
        ]),
        properties: z.object({
          name: z.string(),
          crop: z.enum(CROPS),
          areaHa: z.number(),
          field: z.string().optional().openapi({ description: 'Of a patch: id of its field.' }),
          patch: z.string().optional(),
          kind: z.enum(['green', 'wet-hole']).optional(),
          laterDays: z.number().optional(),
          handling: z.enum(['leave', 'blend']).optional(),
        }),
      }),
    ),
  })
  .openapi('FieldCollection', { description: 'GeoJSON (RFC 7946).' })

export const NewReading = z
  .strictObject({
    field: z.string().openapi({ description: 'Id, name, or key of a part such as `creek-bottom/the-slump`.' }),
    moistureWb: z.number().openapi({ description: 'Moisture, % wet basis.', example: 12.4 }),
    instrument: z.strictObject({
      kind: z.enum(['combine', 'hand', 'ticket']),
      id: z.string().max(100).optional(),
      sdWb: z.number().optional(),
      offsetWb: z.number().optional(),
    }),
    at: time.optional().openapi({ description: 'When it was taken; now when left out.' }),
    replaces: z.string().optional().openapi({ description: 'Key of the reading that this one corrects.' }),
  })
  .openapi('NewReading')

export const NewCut = z
  .strictObject({
    field: z.string(),
    areaHa: z.number().optional().openapi({ description: 'May be left out where the part is done.' }),
    done: z.boolean().optional(),
    massT: z.number().optional(),
    moistureWb: z.number().optional(),
    outfit: z.string().optional().openapi({ description: 'May be left out where the farm has only one.' }),
    at: time.optional(),
    replaces: z.string().optional(),
  })
  .openapi('NewCut')

export const NewEvent = z
  .strictObject({
    field: z.string(),
    kind: z.enum(['maturity-seen', 'still-green-seen', 'regreened']),
    laterDays: z
      .number()
      .optional()
      .openapi({ description: 'For `regreened`: days later than it would have ripened.' }),
    at: time.optional(),
    replaces: z.string().optional(),
  })
  .openapi('NewEvent')

const kept = {
  key: z.string(),
  part: z.string(),
  at: z.string(),
  by: z.string(),
}

export const Reading = z
  .object({ ...kept, moistureWb: z.number(), instrument: z.object({ id: z.string(), kind: z.string() }) })
  .openapi('Reading')
export const Cut = z
  .object({ ...kept, areaHa: z.number(), done: z.boolean(), massT: z.number().nullable() })
  .openapi('Cut')
export const FieldEvent = z
  .object({ ...kept, kind: z.string(), laterDays: z.number().nullable() })
  .openapi('Event', { description: 'What somebody saw happen to a field.' })
export const ReadingList = z.object({ items: z.array(Reading), next: z.string().nullable() }).openapi('ReadingList')
export const CutList = z.object({ items: z.array(Cut), next: z.string().nullable() }).openapi('CutList')

export const PageQuery = z.object({
  limit: z.coerce
    .number()
    .int()
    .min(1)
    .max(500)
    .default(100)
    .openapi({ param: { name: 'limit', in: 'query' } }),
  after: z
    .string()
    .optional()
    .openapi({ param: { name: 'after', in: 'query' }, description: '`next` of the page before.' }),
})

export const IdempotencyKey = z.object({
  'idempotency-key': z
    .string()
    .min(1)
    .max(200)
    .optional()
    .openapi({ description: 'The same request sent again under one key counts once.' }),
})
