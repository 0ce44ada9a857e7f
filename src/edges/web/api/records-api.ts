/** The API: readings, cuts and events, told, listed, taken back, and as tables. */
import type { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { type Answer, noteEvent, takeBack, takeCut, takeReading } from '#app/records.ts'
import type { FarmRecord, RecordKind, Standing } from '#app/records-port.ts'
import { nameIn } from '#edges/web/sign-in/actor.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { type Cell, csvOf } from './csv.ts'
import {
  type Api,
  type ApiParts,
  bookNow,
  createRoute,
  json,
  jsonBody,
  keyQuery,
  listOf,
  pageOf,
  pageRefusals,
  refusals,
  refused,
  tellingRefusals,
  text,
  timeOf,
} from './parts.ts'
import {
  Cut,
  CutList,
  FieldEvent,
  IdempotencyKey,
  NewCut,
  NewEvent,
  NewReading,
  PageQuery,
  Reading,
  ReadingList,
} from './schemas.ts'

type Told = 'reading' | 'cut' | 'event'

const EventList = listOf(FieldEvent, 'EventList')
const KeyQuery = keyQuery('Key of the record.')
const CSV = 'text/csv'

const listRoute = <S extends z.ZodType>(path: string, what: string, schema: S) =>
  createRoute({
    method: 'get',
    path,
    tags: ['Records'],
    summary: `${what} that stand, oldest first`,
    request: { query: PageQuery },
    responses: { 200: json(schema, 'A page of them.'), ...pageRefusals },
  })
const tellRoute = <B extends z.ZodType, S extends z.ZodType>(path: string, what: string, body: B, schema: S) =>
  createRoute({
    method: 'post',
    path,
    tags: ['Records'],
    summary: `Tell ${what}, or correct one by naming the key it replaces`,
    request: { headers: IdempotencyKey, body: jsonBody(body) },
    responses: {
      201: json(schema, 'It is kept.'),
      200: json(schema, 'It was kept before, under the same key.'),
      ...tellingRefusals,
    },
  })
const takeBackRoute = (path: string, what: string) =>
  createRoute({
    method: 'delete',
    path,
    tags: ['Records'],
    summary: `Take ${what} back; it stays in the book as taken back`,
    request: { query: KeyQuery },
    responses: { 204: { description: 'It no longer counts.' }, ...tellingRefusals },
  })
const tableRoute = (path: string, what: string) =>
  createRoute({
    method: 'get',
    path,
    tags: ['Records'],
    summary: `${what} that stand, as a table`,
    responses: { 200: text(CSV, 'RFC 4180, the first line names the columns.'), ...refusals },
  })

export function recordsApi(api: Api, parts: ApiParts): void {
  const { service, records } = parts
  const { farm } = service
  const standing = <K extends Told>(kind: K) => records.current(farm.id, kind)

  api.openapi(listRoute('/readings', 'Readings', ReadingList), async (context) => {
    return pageOf(context, context.req.valid('query'), await standing('reading'), keyOf, readingJson)
  })
  api.openapi(listRoute('/cuts', 'Cuts', CutList), async (context) => {
    return pageOf(context, context.req.valid('query'), await standing('cut'), keyOf, cutJson)
  })
  api.openapi(listRoute('/events', 'Events', EventList), async (context) => {
    return pageOf(context, context.req.valid('query'), await standing('event'), keyOf, eventJson)
  })

  api.openapi(tellRoute('/readings', 'a reading', NewReading, Reading), async (context) => {
    const told = { ...context.req.valid('json'), key: context.req.valid('header')['idempotency-key'] }
    return answered(context, await takeReading(await bookNow(parts), { ...told, by: nameIn(context) }), readingJson)
  })
  api.openapi(tellRoute('/cuts', 'an area cut', NewCut, Cut), async (context) => {
    const told = { ...context.req.valid('json'), key: context.req.valid('header')['idempotency-key'] }
    return answered(context, await takeCut(await bookNow(parts), { ...told, by: nameIn(context) }), cutJson)
  })
  api.openapi(tellRoute('/events', 'what was seen', NewEvent, FieldEvent), async (context) => {
    const told = { ...context.req.valid('json'), key: context.req.valid('header')['idempotency-key'] }
    return answered(context, await noteEvent(await bookNow(parts), { ...told, by: nameIn(context) }), eventJson)
  })

  const back = (kind: Told) => async (context: Context<WebEnv>, key: string) => {
    const answer = await takeBack(await bookNow(parts), kind, key, nameIn(context))
    if (answer.kind === 'refused') return refused(context, answer.fault, farm)
    if (answer.kind === 'kept') service.changed()
    return context.body(null, 204)
  }
  const takesBack = { reading: back('reading'), cut: back('cut'), event: back('event') }
  api.openapi(takeBackRoute('/readings', 'a reading'), (context) =>
    takesBack.reading(context, context.req.valid('query').key),
  )
  api.openapi(takeBackRoute('/cuts', 'a cut'), (context) => takesBack.cut(context, context.req.valid('query').key))
  api.openapi(takeBackRoute('/events', 'an event'), (context) =>
    takesBack.event(context, context.req.valid('query').key),
  )

  api.openapi(tableRoute('/readings.csv', 'Readings'), async (context) =>
    table(context, 'readings', READING_HEAD, (await standing('reading')).map(readingRow)),
  )
  api.openapi(tableRoute('/tickets.csv', 'Tickets of loads'), async (context) => {
    const tickets = (await standing('reading')).filter(({ body }) => body.instrument.kind === 'ticket')
    return table(context, 'tickets', READING_HEAD, tickets.map(readingRow))
  })
  api.openapi(tableRoute('/cuts.csv', 'Cuts'), async (context) =>
    table(context, 'cuts', CUT_HEAD, (await standing('cut')).map(cutRow)),
  )
  api.openapi(tableRoute('/events.csv', 'Events'), async (context) =>
    table(context, 'events', EVENT_HEAD, (await standing('event')).map(eventRow)),
  )

  function answered<K extends RecordKind>(
    context: Context<WebEnv>,
    answer: Answer<K>,
    toJson: (record: Standing<K>) => unknown,
  ): never {
    if (answer.kind === 'refused') return refused(context, answer.fault, farm)
    const isNew = answer.kind === 'kept'
    if (isNew) service.changed()
    return context.json(toJson(withBody(answer.record)) as object, isNew ? 201 : 200) as never
  }
}

function table(context: Context, name: string, head: readonly string[], rows: readonly (readonly Cell[])[]): never {
  return context.body(csvOf(head, rows), 200, {
    'content-type': `${CSV}; charset=utf-8; header=present`,
    'content-disposition': `attachment; filename="${name}.csv"`,
  }) as never
}

const keyOf = ({ key }: FarmRecord<RecordKind>): string => key

/** What was just told has a body; only what takes back has none. */
function withBody<K extends RecordKind>(record: FarmRecord<K>): Standing<K> {
  if (record.body === undefined) throw new Error(`${record.key} has no body`)
  return record as Standing<K>
}

const keptJson = ({ key, atEpochH, by, body }: Standing<Told>) => ({
  key,
  part: body.partKey,
  at: timeOf(atEpochH),
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

const eventJson = (record: Standing<'event'>) => ({
  ...keptJson(record),
  kind: record.body.kind,
  laterDays: laterDaysOf(record) ?? null,
})

const laterDaysOf = ({ body }: Standing<'event'>): number | undefined =>
  body.kind === 'regreened' ? body.laterDays : undefined

const KEPT_HEAD = ['key', 'part', 'at', 'by'] as const
const keptRow = (record: Standing<Told>): Cell[] => {
  const { key, part, at, by } = keptJson(record)
  return [key, part, at, by]
}

const READING_HEAD = [...KEPT_HEAD, 'moisture_wb', 'instrument', 'instrument_kind', 'sd_wb', 'offset_wb']
const readingRow = (record: Standing<'reading'>): Cell[] => {
  const { moistureWb, instrument } = record.body
  return [...keptRow(record), moistureWb, instrument.id, instrument.kind, instrument.sdWb, instrument.offsetWb]
}

const CUT_HEAD = [...KEPT_HEAD, 'area_ha', 'done', 'mass_t', 'moisture_wb', 'outfit']
const cutRow = (record: Standing<'cut'>): Cell[] => {
  const { areaHa, done, massT, moistureWb, outfitId } = record.body
  return [...keptRow(record), areaHa, done === true, massT, moistureWb, outfitId]
}

const EVENT_HEAD = [...KEPT_HEAD, 'kind', 'later_days']
const eventRow = (record: Standing<'event'>): Cell[] => [...keptRow(record), record.body.kind, laterDaysOf(record)]
