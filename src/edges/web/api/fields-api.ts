/** The API: fields, their outlines in and out, and their patches. */
import type { z } from '@hono/zod-openapi'
import { type DrawnFeature, importOutlines } from '#app/import-outlines.ts'
import { joinPatch, splitField } from '#app/patches.ts'
import { partOfKey } from '#core/field/parts.ts'
import type { Field } from '#core/operation/farm.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import { ImportReport, type NewFeature, NewOutlines, NewPatch, PatchMade } from './outline-schemas.ts'
import {
  type Api,
  type ApiParts,
  bookNow,
  createRoute,
  json,
  jsonBody,
  keyQuery,
  knownFarm,
  listOf,
  pageOf,
  pageRefusals,
  pointer,
  refusal,
  refusals,
  refuse,
  refused,
  shapeFaults,
  tellingRefusals,
} from './parts.ts'
import { FieldCollection, Field as FieldShape, PageQuery } from './schemas.ts'

const GEO_JSON = 'application/geo+json'
export const FieldList = listOf(FieldShape, 'FieldList')

const fieldsRoute = createRoute({
  method: 'get',
  path: '/fields',
  tags: ['Fields'],
  summary: 'The fields, as they are known by now',
  request: { query: PageQuery },
  responses: { 200: json(FieldList, 'A page of fields, by id.'), ...pageRefusals },
})

const outlinesRoute = createRoute({
  method: 'get',
  path: '/fields.geojson',
  tags: ['Fields'],
  summary: 'The outlines of the fields as GeoJSON',
  responses: {
    200: { content: { [GEO_JSON]: { schema: FieldCollection } }, description: 'The outlines.' },
    ...refusals,
  },
})

const importRoute = createRoute({
  method: 'put',
  path: '/fields.geojson',
  tags: ['Fields'],
  summary: 'Draw fields and patches anew, all of the features or none',
  description:
    'A feature is a field that the farm file describes, by `id`, `properties.field` or `properties.name`; with `properties.patch` it is that patch of the field. The same again changes nothing.',
  request: {
    body: {
      required: true,
      content: { [GEO_JSON]: { schema: NewOutlines }, 'application/json': { schema: NewOutlines } },
    },
  },
  responses: {
    200: json(ImportReport, 'What each feature changed.'),
    ...refusals,
    409: refusal('Someone else changed a field at the same moment; send it again.'),
    422: refusal('Nothing was changed; `errors` name each feature and what is wrong with it.'),
  },
})

const newPatchRoute = createRoute({
  method: 'post',
  path: '/patches',
  tags: ['Fields'],
  summary: 'Split a patch off a field, by its share of the area or its outline',
  request: { body: jsonBody(NewPatch) },
  responses: {
    201: json(PatchMade, 'It is split off.'),
    200: json(PatchMade, 'It was there already, the same.'),
    ...tellingRefusals,
  },
})

const joinRoute = createRoute({
  method: 'delete',
  path: '/patches',
  tags: ['Fields'],
  summary: 'Join a patch to its field again; one that was measured or cut by itself stays',
  request: {
    query: keyQuery('Key of the patch: field id, slash, patch id.'),
  },
  responses: { 204: { description: 'It is part of its field.' }, ...tellingRefusals },
})

export function fieldsApi(api: Api, parts: ApiParts): void {
  const { service, outlines } = parts

  api.openapi(fieldsRoute, async (context) => {
    const { fields } = await knownFarm(parts)
    const sorted = fields.toSorted((a, b) => (a.id < b.id ? -1 : 1))
    return pageOf(context, context.req.valid('query'), sorted, ({ id }) => id, fieldJson)
  })

  api.openapi(outlinesRoute, async (context) => {
    const { fields } = await knownFarm(parts)
    const body = {
      type: 'FeatureCollection' as const,
      features: fields.flatMap((field) => [featureOf(field), ...patchFeatures(field)]),
    }
    return context.body(JSON.stringify(body), 200, { 'content-type': GEO_JSON }) as never
  })

  api.openapi(importRoute, async (context) => {
    // A body of this media type is JSON (RFC 7946, 12), but only `application/json` is read by the framework.
    const read = NewOutlines.safeParse(await context.req.json().catch(() => undefined))
    if (!read.success) return refuse(context, 'not-valid', { errors: shapeFaults(read.error) })
    const book = await bookNow(parts)
    const features = read.data.features.map(drawnOf)
    const answer = await importOutlines(book, features, outlines, nameIn(context))
    if (answer.kind === 'refused') {
      const errors = answer.faults.map(({ feature, path, what }) => ({
        pointer: pointer(['features', feature, ...(path === '' ? [] : path.split('/'))]),
        detail: what,
      }))
      return refuse(context, 'not-valid', { errors })
    }
    if (answer.kind === 'overtaken') {
      return refuse(context, 'conflict', { detail: `${answer.field} was changed meanwhile; send it again.` })
    }
    if (answer.changes.some(({ change }) => change !== 'same')) service.changed()
    const changes = answer.changes.map((change) => ({ ...change, areaHa: rounded(change.areaHa) }))
    return context.json({ changes }, 200)
  })

  api.openapi(newPatchRoute, async (context) => {
    const { outline, ...told } = context.req.valid('json')
    const ring = outline?.coordinates[0]?.map(([lon, lat]): [number, number] => [lon!, lat!])
    const answer = await splitField(await bookNow(parts), { ...told, outline: ring, by: nameIn(context) })
    if (answer.kind === 'refused') return refused(context, answer.fault, service.farm)
    if (answer.kind === 'kept') service.changed()
    const { field, patch } = answer
    const { id, name, share, kind, laterDays, handling } = patch
    const areaHa = rounded(field.areaHa * share)
    const body = { key: `${field.id}/${id}`, id, name, share, areaHa, kind, laterDays, handling }
    return context.json(body, answer.kind === 'kept' ? 201 : 200)
  })

  api.openapi(joinRoute, async (context) => {
    const { key } = context.req.valid('query')
    const book = await bookNow(parts)
    const part = partOfKey(book.farm, key)
    if (!part?.patch) return refuse(context, 'not-found', { detail: `No patch has the key "${key}".` })
    const answer = await joinPatch(book, part.field.id, part.patch.id, nameIn(context))
    if (answer.kind === 'refused') return refused(context, answer.fault, service.farm)
    service.changed()
    return context.body(null, 204)
  })
}

function drawnOf({ id, properties, geometry }: z.infer<typeof NewFeature>): DrawnFeature {
  const { field, name, patch, kind, laterDays, handling } = properties ?? {}
  const said = field ?? (patch === undefined ? (id ?? name) : undefined) ?? name ?? id ?? ''
  if (patch === undefined) return { field: String(said), shape: geometry }
  const told = {
    name: patch,
    ...(kind === undefined ? {} : { kind }),
    ...(laterDays === undefined ? {} : { laterDays }),
    ...(handling === undefined ? {} : { handling }),
  }
  return { field: String(said), patch: told, shape: geometry }
}

const fieldJson = (field: Field) => ({
  id: field.id,
  name: field.name,
  crop: field.crop,
  areaHa: rounded(field.areaHa),
  centre: field.centre,
  plantedOn: field.plantedOn.toString(),
  band: field.band,
  patches: field.patches.map(({ id, name, share }) => ({ key: `${field.id}/${id}`, name, share })),
})

const rounded = (value: number): number => Math.round(value * 100) / 100

const featureOf = (field: Field) => ({
  type: 'Feature' as const,
  id: field.id,
  geometry: field.boundary
    ? { type: 'MultiPolygon' as const, coordinates: polygonsOf(field.boundary) }
    : { type: 'Point' as const, coordinates: [field.centre.lonDeg, field.centre.latDeg] },
  properties: { name: field.name, crop: field.crop, areaHa: rounded(field.areaHa) },
})

/** Patches that were drawn, as they may be sent back. */
const patchFeatures = (field: Field) =>
  field.patches.flatMap(({ id, name, share, outline, kind, laterDays, handling }) => {
    if (!outline) return []
    const geometry = { type: 'MultiPolygon' as const, coordinates: [[outline]] }
    const areaHa = rounded(field.areaHa * share)
    const properties = { name, crop: field.crop, areaHa, field: field.id, patch: name, kind, laterDays, handling }
    return [{ type: 'Feature' as const, id: `${field.id}/${id}`, geometry, properties }]
  })

type Ring = NonNullable<Field['boundary']>[number]

/** Exterior rings run counterclockwise and start a polygon; the clockwise ones after it are its holes (RFC 7946, 3.1.6). */
function polygonsOf(rings: readonly Ring[]): Ring[][] {
  const polygons: Ring[][] = []
  for (const ring of rings) {
    const last = polygons.at(-1)
    if (last === undefined || twiceArea(ring) > 0) polygons.push([ring])
    else last.push(ring)
  }
  return polygons
}

/** Shoelace formula: above 0 for a counterclockwise ring. */
const twiceArea = (ring: Ring): number =>
  ring.slice(1).reduce((sum, [x, y], index) => sum + ring[index]![0] * y - x * ring[index]![1], 0)
