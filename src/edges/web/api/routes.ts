/** The API: what it takes and gives, as told in its OpenAPI document. */
import { createRoute, type z } from '@hono/zod-openapi'
import {
  Cut,
  CutList,
  Day,
  FieldCollection,
  FieldList,
  IdempotencyKey,
  NewCut,
  NewReading,
  PageQuery,
  Problem,
  Reading,
  ReadingList,
} from './schemas.ts'

const json = <S extends z.ZodType>(schema: S, description: string) => ({
  content: { 'application/json': { schema } },
  description,
})
const problem = (description: string) => ({ content: { 'application/problem+json': { schema: Problem } }, description })
const refusals = {
  401: problem('Nobody is signed in, or the token is not known.'),
  403: problem('The role may not do this.'),
}
const pageRefusals = { ...refusals, 422: problem('A parameter is not valid, or there is no such page.') }
const tellingRefusals = {
  ...refusals,
  404: problem('There is no such field, patch, outfit or record.'),
  409: problem('The key stands for something else, or what was to be corrected has been already.'),
  422: problem('Something in it does not hold up; `detail` or `errors` say what.'),
}

export const dayRoute = createRoute({
  method: 'get',
  path: '/day',
  tags: ['Day'],
  summary: "Today's message, plan and outlooks",
  responses: { 200: json(Day, 'The day.'), ...refusals },
})

export const fieldsRoute = createRoute({
  method: 'get',
  path: '/fields',
  tags: ['Fields'],
  summary: 'The fields, as they are known by now',
  request: { query: PageQuery },
  responses: { 200: json(FieldList, 'A page of fields, by id.'), ...pageRefusals },
})

export const outlinesRoute = createRoute({
  method: 'get',
  path: '/fields.geojson',
  tags: ['Fields'],
  summary: 'The outlines of the fields as GeoJSON',
  responses: {
    200: { content: { 'application/geo+json': { schema: FieldCollection } }, description: 'The outlines.' },
    ...refusals,
  },
})

export const readingsRoute = createRoute({
  method: 'get',
  path: '/readings',
  tags: ['Records'],
  summary: 'Readings that stand, oldest first',
  request: { query: PageQuery },
  responses: { 200: json(ReadingList, 'A page of readings.'), ...pageRefusals },
})

export const newReadingRoute = createRoute({
  method: 'post',
  path: '/readings',
  tags: ['Records'],
  summary: 'Tell a reading',
  request: {
    headers: IdempotencyKey,
    body: { required: true, content: { 'application/json': { schema: NewReading } } },
  },
  responses: {
    201: json(Reading, 'It is kept.'),
    200: json(Reading, 'It was kept before, under the same key.'),
    ...tellingRefusals,
  },
})

export const cutsRoute = createRoute({
  method: 'get',
  path: '/cuts',
  tags: ['Records'],
  summary: 'Cuts that stand, oldest first',
  request: { query: PageQuery },
  responses: { 200: json(CutList, 'A page of cuts.'), ...pageRefusals },
})

export const newCutRoute = createRoute({
  method: 'post',
  path: '/cuts',
  tags: ['Records'],
  summary: 'Tell an area cut',
  request: { headers: IdempotencyKey, body: { required: true, content: { 'application/json': { schema: NewCut } } } },
  responses: {
    201: json(Cut, 'It is kept.'),
    200: json(Cut, 'It was kept before, under the same key.'),
    ...tellingRefusals,
  },
})
