/** The API for programs: the day, the fields, readings and cuts. */
import { OpenAPIHono } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { etag } from 'hono/etag'
import type { Farm, Field } from '#core/farm/farm.ts'
import { instantOf } from '#core/units/time.ts'
import { type ProblemType, problem } from '#edges/web/errors.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { dayJson, noDayJson } from '#work/day-json.ts'
import { type RecordFault, sayFault } from '#work/record-faults.ts'
import { type Answer, type Book, takeCut, takeReading } from '#work/records.ts'
import type { FarmRecord, RecordKind, RecordStore, Standing } from '#work/records-port.ts'
import type { Service } from '#work/service.ts'
import {
  cutsRoute,
  dayRoute,
  fieldsRoute,
  newCutRoute,
  newReadingRoute,
  outlinesRoute,
  readingsRoute,
} from './routes.ts'

export const API_INFO = {
  openapi: '3.1.0',
  info: {
    title: 'Threshday',
    version: '1',
    description:
      'Which field is fit to cut, from when to when. SI units, moisture in % wet basis, times as RFC 3339. Sign in with `Authorization: Bearer` and a token from the page of people. Errors are problems (RFC 9457).',
  },
}

const PROBLEM_OF: { readonly [C in RecordFault['code']]?: ProblemType } = {
  'unknown-field': 'not-found',
  'unknown-patch': 'not-found',
  'unknown-outfit': 'not-found',
  'unknown-record': 'not-found',
  'already-replaced': 'conflict',
  'key-taken': 'conflict',
}

export function apiRoutes(service: Service, records: RecordStore): OpenAPIHono<WebEnv> {
  const api = new OpenAPIHono<WebEnv>({
    defaultHook: (result, context) => {
      if (result.success) return undefined
      const errors = result.error.issues.map(({ path, message }) => ({
        pointer: `/${path.map(String).join('/')}`,
        detail: message,
      }))
      return problem(context, 'not-valid', { errors })
    },
  })
  const known = async (): Promise<Farm> => (await service.current()).day?.farm ?? service.farm
  const bookNow = async (): Promise<Book> => ({ farm: await known(), store: records, nowEpochH: service.clock() })

  api.use(etag({ weak: true }))

  api.openapi(dayRoute, async (context) => {
    const { day, message } = await service.current()
    return context.json(day ? dayJson(day) : noDayJson(service.farm, message), 200)
  })

  api.openapi(fieldsRoute, async (context) => {
    const { fields } = await known()
    const sorted = fields.toSorted((a, b) => (a.id < b.id ? -1 : 1))
    const found = page(sorted, context.req.valid('query'), ({ id }) => id)
    if (!found) return noSuchPage(context) as never
    return context.json({ items: found.items.map(fieldJson), next: found.next }, 200)
  })

  api.openapi(outlinesRoute, async (context) => {
    const { fields } = await known()
    const body = { type: 'FeatureCollection' as const, features: fields.map(featureOf) }
    return context.body(JSON.stringify(body), 200, { 'content-type': 'application/geo+json' }) as never
  })

  api.openapi(readingsRoute, async (context) => {
    const all = await records.current(service.farm.id, 'reading')
    const found = page(all, context.req.valid('query'), ({ key }) => key)
    if (!found) return noSuchPage(context) as never
    return context.json({ items: found.items.map(readingJson), next: found.next }, 200)
  })

  api.openapi(newReadingRoute, async (context) => {
    const told = context.req.valid('json')
    const key = context.req.valid('header')['idempotency-key']
    const answer = await takeReading(await bookNow(), { ...told, key, by: nameIn(context) })
    return answered(context, answer, readingJson) as never
  })

  api.openapi(cutsRoute, async (context) => {
    const all = await records.current(service.farm.id, 'cut')
    const found = page(all, context.req.valid('query'), ({ key }) => key)
    if (!found) return noSuchPage(context) as never
    return context.json({ items: found.items.map(cutJson), next: found.next }, 200)
  })

  api.openapi(newCutRoute, async (context) => {
    const told = context.req.valid('json')
    const key = context.req.valid('header')['idempotency-key']
    const answer = await takeCut(await bookNow(), { ...told, key, by: nameIn(context) })
    return answered(context, answer, cutJson) as never
  })

  function answered<K extends RecordKind>(
    context: Context<WebEnv>,
    answer: Answer<K>,
    toJson: (record: Standing<K>) => unknown,
  ): Response {
    if (answer.kind === 'refused') {
      const detail = sayFault(answer.fault, service.farm)
      return problem(context, PROBLEM_OF[answer.fault.code] ?? 'not-valid', { detail })
    }
    const isNew = answer.kind === 'kept'
    if (isNew) service.changed()
    return context.json(toJson(withBody(answer.record)) as object, isNew ? 201 : 200)
  }
  return api
}

/** What was just told has a body; only what takes back has none. */
function withBody<K extends RecordKind>(record: FarmRecord<K>): Standing<K> {
  if (record.body === undefined) throw new Error(`${record.key} has no body`)
  return record as Standing<K>
}

const nameIn = (context: Context<WebEnv>): string => context.get('who').name

interface Page<T> {
  readonly items: readonly T[]
  readonly next: string | null
}

/** So many after the one named; undefined where that one is not there (any more). */
function page<T>(
  all: readonly T[],
  { limit, after }: { readonly limit: number; readonly after?: string | undefined },
  nameOf: (item: T) => string,
): Page<T> | undefined {
  const before = after === undefined ? -1 : all.findIndex((item) => nameOf(item) === after)
  if (after !== undefined && before < 0) return undefined
  const items = all.slice(before + 1, before + 1 + limit)
  const last = items.at(-1)
  return { items, next: last && before + 1 + limit < all.length ? nameOf(last) : null }
}

const noSuchPage = (context: Context): Response =>
  problem(context, 'not-valid', { errors: [{ pointer: '/after', detail: 'There is no such page; begin anew.' }] })

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

const keptJson = ({ key, atEpochH, by, body }: Standing<'reading' | 'cut'>) => ({
  key,
  part: body.partKey,
  at: instantOf(atEpochH).toString(),
  by,
})

const readingJson = (record: Standing<'reading'>) => ({
  ...keptJson(record),
  moistureWb: record.body.moistureWb,
  instrument: { id: record.body.instrument.id, kind: record.body.instrument.kind },
})

const cutJson = (record: Standing<'cut'>) => ({
  ...keptJson(record),
  areaHa: record.body.areaHa,
  done: record.body.done === true,
  massT: record.body.massT ?? null,
})
