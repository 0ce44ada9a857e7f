import { describe, expect, it } from 'vitest'
import type { Role } from '#app/people-port.ts'
import { FieldList } from '#edges/web/api/fields-api.ts'
import { Cut, Day, FieldCollection, Problem, Reading, ReadingList } from '#edges/web/api/schemas.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { type Site, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()

const tell = (site: Site, role: Role, path: string, body: unknown, key?: string) =>
  site.as(role, path, {
    method: 'POST',
    body: typeof body === 'string' ? body : JSON.stringify(body),
    headers: {
      'content-type': 'application/json',
      'sec-fetch-site': 'same-origin',
      ...(key ? { 'idempotency-key': key } : {}),
    },
  })
const reading = { field: 'Mill Forty', moistureWb: 12.4, instrument: { kind: 'hand' } }

describe('the API', () => {
  it('gives the day, the fields and their outlines in the shapes that it states', async () => {
    const site = await siteOf(service)
    const get = async (path: string) => await (await site.as('crew', path)).json()
    Day.parse(await get('/api/day'))
    const { items } = FieldList.parse(await get('/api/fields'))
    expect(items.map(({ id }) => id)).toEqual(service.farm.fields.map(({ id }) => id).toSorted())
    FieldCollection.parse(await get('/api/fields.geojson'))
  })

  it('gives outlines as RFC 7946 asks: closed rings, the first counterclockwise, holes clockwise', async () => {
    const site = await siteOf(service)
    const { features } = FieldCollection.parse(await (await site.as('crew', '/api/fields.geojson')).json())
    const polygons = features.flatMap(({ geometry }) => (geometry.type === 'MultiPolygon' ? geometry.coordinates : []))
    expect(polygons.some((rings) => rings.length > 1)).toBe(true)
    for (const rings of polygons) {
      for (const [index, ring] of rings.entries()) {
        expect(ring.at(0)).toEqual(ring.at(-1))
        const area = ring.slice(1).reduce((sum, [x, y], n) => sum + ring[n]![0]! * y! - x! * ring[n]![1]!, 0)
        expect(Math.sign(area)).toBe(index === 0 ? 1 : -1)
      }
    }
  })

  it('keeps a reading once under its idempotency key, and says so', async () => {
    const site = await siteOf(service)
    const first = await tell(site, 'crew', '/api/readings', reading, 'key-1')
    const again = await tell(site, 'crew', '/api/readings', reading, 'key-1')
    expect([first.status, again.status]).toEqual([201, 200])
    const kept = Reading.parse(await first.json())
    expect(kept).toMatchObject({ key: 'key-1', part: 'mill-forty', by: 'cal-crew', moistureWb: 12.4 })
    expect(Reading.parse(await again.json())).toEqual(kept)
    const other = await tell(site, 'crew', '/api/readings', { ...reading, moistureWb: 13 }, 'key-1')
    expect(other.status).toBe(409)
    const { items } = ReadingList.parse(await (await site.as('crew', '/api/readings')).json())
    expect(items).toEqual([kept])
  })

  it('keeps a cut', async () => {
    const site = await siteOf(service)
    const answer = await tell(site, 'crew', '/api/cuts', { field: 'mill-forty', areaHa: 4, massT: 12 })
    expect(Cut.parse(await answer.json())).toMatchObject({ areaHa: 4, massT: 12, done: false })
  })

  it('refuses with a problem that says what is wrong and where (RFC 9457)', async () => {
    const site = await siteOf(service)
    const refusal = async (answer: Promise<Response>) => {
      const { status, headers, json } = await answer.then((r) => ({
        status: r.status,
        headers: r.headers,
        json: r.json(),
      }))
      expect(headers.get('content-type')).toBe('application/problem+json')
      const problem = Problem.parse(await json)
      expect(problem.status).toBe(status)
      return problem
    }
    expect(await refusal(tell(site, 'crew', '/api/readings', { ...reading, moistureWb: 'wet' }))).toMatchObject({
      status: 422,
      errors: [{ pointer: '/moistureWb' }],
    })
    expect(await refusal(tell(site, 'crew', '/api/readings', { ...reading, extra: 1 }))).toMatchObject({ status: 422 })
    expect(await refusal(tell(site, 'crew', '/api/readings', { ...reading, moistureWb: 99 }))).toMatchObject({
      status: 422,
      detail: expect.stringContaining('99 %'),
    })
    expect(await refusal(tell(site, 'crew', '/api/readings', { ...reading, field: 'x' }))).toMatchObject({
      status: 404,
    })
    expect(await refusal(tell(site, 'crew', '/api/readings', '{'))).toMatchObject({ status: 400 })
    expect(await refusal(site.as('crew', '/api/fields?limit=0'))).toMatchObject({ status: 422 })
    expect(await refusal(site.as('crew', '/api/fields?after=nowhere'))).toMatchObject({ status: 422 })
    expect(await refusal(site.as('crew', '/api/nothing'))).toMatchObject({ status: 404 })
    expect(await refusal(site.as(undefined, '/api/day'))).toMatchObject({ status: 401 })
  })

  it('pages through the fields without leaving one out or giving one twice', async () => {
    const site = await siteOf(service)
    const seen: string[] = []
    for (let after: string | null = ''; after !== null; ) {
      const query: string = after === '' ? '' : `&after=${after}`
      const { items, next } = FieldList.parse(await (await site.as('crew', `/api/fields?limit=5${query}`)).json())
      expect(items.length).toBeLessThanOrEqual(5)
      seen.push(...items.map(({ id }) => id))
      after = next
    }
    expect(seen).toEqual(service.farm.fields.map(({ id }) => id).toSorted())
  })

  it('does not send again what has not changed', async () => {
    const site = await siteOf(service)
    const first = await site.as('crew', '/api/fields')
    const again = await site.as('crew', '/api/fields', { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect(again.status).toBe(304)
  })
})

describe('the OpenAPI document', () => {
  it('is 3.1, and tells of every route of the API under the path where it is', async () => {
    const site = await siteOf(service)
    const document = (await (await site.as('crew', '/api/openapi.json')).json()) as {
      openapi: string
      paths: Record<string, Record<string, { responses: Record<string, unknown> }>>
    }
    expect(document.openapi).toBe('3.1.0')
    const told = Object.entries(document.paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
    )
    const served = site.app.routes
      .filter(({ method, path }) => method !== 'ALL' && path.startsWith('/api/') && path !== '/api/openapi.json')
      .map(({ method, path }) => `${method} ${path}`)
    expect(told.toSorted()).toEqual([...new Set(served)].toSorted())
    for (const methods of Object.values(document.paths)) {
      for (const { responses } of Object.values(methods)) expect(Object.keys(responses)).toContain('401')
    }
  })

  it('refers to nothing that it does not hold', async () => {
    const site = await siteOf(service)
    const text = await (await site.as('crew', '/api/openapi.json')).text()
    const { components } = JSON.parse(text) as { components: { schemas: Record<string, unknown> } }
    for (const [, name] of text.matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      expect(Object.keys(components.schemas)).toContain(name)
    }
  })
})
