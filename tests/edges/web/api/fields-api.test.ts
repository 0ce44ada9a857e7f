/** Outlines in and out as GeoJSON: RFC 7946. */
import { describe, expect, it } from 'vitest'
import { farmFromBook, seedFields } from '#app/farm-fields.ts'
import type { Service } from '#app/service.ts'
import { FieldCollection } from '#edges/web/api/schemas.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, type Site, siteOf } from '#tests/edges/web/support/people.ts'
import { latitudeDegreeM, longitudeDegreeM } from '#tests/truth/degree-lengths.ts'

const demo = await demoService()

interface Report {
  changes: { key: string; change: string; areaHa: number }[]
}
interface Refusal {
  errors: { pointer: string; detail: string }[]
}
type Feature = { type: 'Feature'; id?: string; properties: object | null; geometry: object }

/** A site whose fields stand in its book, so that what is drawn anew is what it shows next. */
async function drawable(): Promise<Site> {
  let known = demo.farm
  const service: Service = {
    ...demo,
    current: async () => ({ ...(await demo.current()), day: { farm: known } as never }),
  }
  const site = await siteOf(service)
  await seedFields(demo.farm, site.records, demo.clock())
  Object.assign(service, {
    current: async () => {
      known = await farmFromBook(demo.farm, site.records)
      return { ...(await demo.current()), day: { farm: known } as never }
    },
  })
  return site
}

const outlines = async (site: Site) =>
  FieldCollection.parse(await (await asked(site, 'planner', 'GET /api/fields.geojson')).json())
const put = (site: Site, features: readonly Feature[], more: object = {}) =>
  asked(site, 'planner', 'PUT /api/fields.geojson', { type: 'FeatureCollection', features, ...more })
const faultsOf = async (answer: Promise<Response>) => {
  const response = await answer
  expect(response.status).toBe(422)
  return ((await response.json()) as Refusal).errors
}

/** A square of so many degrees, its lower left corner near home. */
const home = demo.farm.home
const square = (sizeDeg: number, east = 0, north = 0, turned = false) => {
  const [w, s] = [home.lonDeg + east, home.latDeg + north]
  const ring = [
    [w, s],
    [w + sizeDeg, s],
    [w + sizeDeg, s + sizeDeg],
    [w, s + sizeDeg],
    [w, s],
  ]
  return { type: 'Polygon', coordinates: [turned ? ring.toReversed() : ring] }
}
const feature = (field: string, geometry: object, properties: object = {}): Feature => ({
  type: 'Feature',
  id: field,
  properties,
  geometry,
})

describe('outlines taken in', () => {
  it('as they were given out change nothing, twice', async () => {
    const site = await drawable()
    const given = await outlines(site)
    for (let round = 0; round < 2; round++) {
      const answer = await put(site, given.features as Feature[])
      expect(answer.status).toBe(200)
      const { changes } = (await answer.json()) as Report
      expect(changes).toHaveLength(given.features.length)
      expect(new Set(changes.map(({ change }) => change))).toEqual(new Set(['same']))
    }
    expect(await outlines(site)).toEqual(given)
  })

  it('draw a field anew, whichever way round, with area on the ellipsoid; the same again changes nothing', async () => {
    const site = await drawable()
    const change = async (turned: boolean) =>
      ((await (await put(site, [feature('mill-forty', square(0.005, 0, 0, turned))])).json()) as Report).changes[0]!
    const first = await change(true)
    expect(first).toMatchObject({ key: 'mill-forty', change: 'changed' })
    const middle = home.latDeg + 0.0025
    const haOf = 0.005 * latitudeDegreeM(middle) * 0.005 * longitudeDegreeM(middle)
    expect(first.areaHa / (haOf / 10_000)).toBeCloseTo(1, 3)
    expect((await change(false)).change).toBe('same')
    const drawn = (await outlines(site)).features.find(({ id }) => id === 'mill-forty')!
    const ring = (drawn.geometry.coordinates as number[][][][])[0]![0]!
    const twice = ring.slice(1).reduce((sum, [x, y], n) => sum + ring[n]![0]! * y! - x! * ring[n]![1]!, 0)
    expect(twice).toBeGreaterThan(0)
  })

  it('draw a patch as a share of its field, again by the same name', async () => {
    const site = await drawable()
    const whole = feature('mill-forty', square(0.004))
    const low = (size: number) => ({
      ...feature('x', square(size)),
      properties: { field: 'Mill Forty', patch: 'Low end' },
    })
    const report = async (features: Feature[]) => ((await (await put(site, features)).json()) as Report).changes
    const [, patch] = await report([low(0.002), whole]).then((changes) => changes)
    expect(patch).toMatchObject({ key: 'mill-forty/low-end', change: 'added' })
    const [field] = (await report([whole]))!
    // A quarter of the square; the share is counted on a grid, known to about a percent.
    expect(patch!.areaHa / field!.areaHa).toBeCloseTo(0.25, 2)
    expect((await report([low(0.002)]))[0]).toMatchObject({ change: 'same' })
    expect((await report([low(0.003)]))[0]).toMatchObject({ change: 'changed' })
  })

  it('are refused as a whole, each fault by its feature', async () => {
    const site = await drawable()
    const before = await outlines(site)
    const open = { type: 'Polygon', coordinates: [square(0.005).coordinates[0]!.slice(0, 4)] }
    const bowTie = square(0.005)
    const [a, b, c, d, e] = bowTie.coordinates[0]!
    const crossed = { type: 'Polygon', coordinates: [[a, c, b, d, e]] }
    const turnedRound = {
      type: 'Polygon',
      coordinates: square(0.005).coordinates.map((r) => r.map(([x, y]) => [y, x])),
    }
    const metres = {
      type: 'Polygon',
      coordinates: [
        [
          [4e5, 4.4e6],
          [4.01e5, 4.4e6],
          [4.01e5, 4.41e6],
          [4e5, 4.4e6],
        ],
      ],
    }
    const errors = await faultsOf(
      put(site, [
        feature('mill-forty', square(0.005)),
        feature('no-such-field', square(0.005)),
        feature('long-eighty', open),
        feature('twin-elms', crossed),
        feature('far-half', turnedRound),
        feature('lone-oak', metres),
      ]),
    )
    expect(errors.map(({ pointer }) => pointer.split('/').slice(0, 3).join('/'))).toEqual(
      [1, 2, 3, 4, 5].map((n) => `/features/${n}`),
    )
    expect(errors.map(({ detail }) => detail)).toEqual([
      expect.stringContaining('No field is called "no-such-field"'),
      expect.stringContaining('not closed'),
      expect.stringContaining('crosses itself'),
      expect.stringMatching(/no place on earth|km from home/),
      expect.stringContaining('no place on earth'),
    ])
    expect(await outlines(site)).toEqual(before)
  })

  it('are refused twice in one file, in another system of coordinates, and in no collection', async () => {
    const site = await drawable()
    const twice = feature('mill-forty', square(0.005))
    expect((await faultsOf(put(site, [twice, twice])))[0]).toMatchObject({
      pointer: '/features/1',
      detail: expect.stringContaining('twice'),
    })
    const crs = { type: 'name', properties: { name: 'urn:ogc:def:crs:EPSG::26916' } }
    expect((await faultsOf(put(site, [twice], { crs })))[0]!.detail).toContain('WGS 84')
    const named = { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } }
    expect((await put(site, [twice], { crs: named })).status).toBe(200)
    await faultsOf(asked(site, 'planner', 'PUT /api/fields.geojson', twice))
    await faultsOf(put(site, [feature('mill-forty', { type: 'LineString', coordinates: [[0, 0]] })]))
  })

  it('may come under their own media type, and be large', async () => {
    const site = await drawable()
    const { features } = await outlines(site)
    const ring = Array.from({ length: 4001 }, (_, n) => {
      const angle = (2 * Math.PI * (n % 4000)) / 4000
      return [home.lonDeg + 0.004 * Math.cos(angle), home.latDeg + 0.003 * Math.sin(angle)]
    })
    const round = feature('mill-forty', { type: 'Polygon', coordinates: [ring] })
    const body = JSON.stringify({
      type: 'FeatureCollection',
      features: [round, ...features.slice(1).filter(({ id }) => id !== 'mill-forty')],
    })
    expect(body.length).toBeGreaterThan(64 * 1024)
    const answer = await site.as('planner', '/api/fields.geojson', {
      method: 'PUT',
      body,
      headers: { 'content-type': 'application/geo+json', 'sec-fetch-site': 'same-origin' },
    })
    expect(answer.status).toBe(200)
  })
})

describe('patches', () => {
  it('that were drawn come with the outlines, and the same sent back changes nothing', async () => {
    const site = await drawable()
    expect((await put(site, [feature('mill-forty', square(0.01))])).status).toBe(200)
    const told = { field: 'mill-forty', name: 'Knoll', outline: square(0.002, 0.001, 0.001), laterDays: 4 }
    const made = await asked(site, 'planner', 'POST /api/patches', told)
    // A fifth of the side each way: a twenty-fifth of the area.
    expect(((await made.json()) as { share: number }).share).toBeCloseTo(0.04, 4)
    const { features } = await outlines(site)
    const knoll = features.find(({ id }) => id === 'mill-forty/knoll')!
    expect(knoll.properties).toMatchObject({ field: 'mill-forty', patch: 'Knoll', kind: 'green', laterDays: 4 })
    const again = await put(site, features as Feature[])
    const { changes } = (await again.json()) as { changes: { key: string; change: string }[] }
    expect(changes.find(({ key }) => key === 'mill-forty/knoll')).toMatchObject({ change: 'same' })
  })

  it('are split off, known again, and joined', async () => {
    const site = await drawable()
    const told = { field: 'mill-forty', name: 'Wet hole', share: 0.1, kind: 'wet-hole' }
    const first = await asked(site, 'planner', 'POST /api/patches', told)
    expect([first.status, await first.json()]).toMatchObject([201, { key: 'mill-forty/wet-hole', share: 0.1 }])
    expect((await asked(site, 'planner', 'POST /api/patches', told)).status).toBe(200)
    expect((await asked(site, 'planner', 'POST /api/patches', { ...told, share: 0.2 })).status).toBe(409)
    expect((await asked(site, 'planner', 'POST /api/patches', { ...told, outline: square(0.001) })).status).toBe(422)
    expect((await asked(site, 'planner', 'DELETE /api/patches?key=mill-forty/wet-hole')).status).toBe(204)
    expect((await asked(site, 'planner', 'DELETE /api/patches?key=mill-forty/wet-hole')).status).toBe(404)
  })
})
