import { geoMercator } from 'd3-geo'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { webApp } from '#edges/web/app.ts'
import { cornerOf, drawTiles, tileAt } from '#edges/web/tiles.ts'
import { demoService } from './support/demo-service.ts'

const MAP = {
  tileUrl: 'https://tiles.example.org/a/{z}/{x}/{y}.png?k=1&s=2',
  credit: 'Ground by <Example> Survey',
  deepestZoom: 18,
}

describe('tiles', () => {
  it('lie where the worked example of mercantile says', () => {
    // README of mercantile 1.2.1 (github.com/mapbox/mercantile): ul(486, 332, 10) and bounds(486, 332, 10); looked up
    // 2026-11-25.
    const [west, north] = cornerOf(486, 332, 10)
    const [east, south] = cornerOf(487, 333, 10)
    expect([west, east]).toEqual([-9.140625, -8.7890625])
    expect(north).toBeCloseTo(53.33087298301705, 11)
    expect(south).toBeCloseTo(53.12040528310657, 11)
    expect(tileAt([-9, 53.2], 10).map(Math.floor)).toEqual([486, 332])
    // A point near Denver: `echo "[-104.99, 39.99, -105, 40]" | mercantile tiles - 14` gives (3413, 6202, 14) first.
    expect(tileAt([-105, 39.995], 14).map(Math.floor)).toEqual([3413, 6202])
  })

  it('end at 85.0511 degrees, where the world is a square', () => {
    // OGC 17-083r4, WebMercatorQuad; the same figure in the table of zoom levels of wiki.openstreetmap.org.
    expect(cornerOf(0, 0, 0)[0]).toBe(-180)
    expect(cornerOf(0, 0, 0)[1]).toBeCloseTo(85.0511, 4)
    expect(cornerOf(1, 1, 0)[1]).toBeCloseTo(-85.0511, 4)
  })

  it('go there and back', () => {
    const place = fc.tuple(
      fc.double({ min: -179.99, max: 179.99, noNaN: true }),
      fc.double({ min: -84, max: 84, noNaN: true }),
    )
    fc.assert(
      fc.property(place, fc.integer({ min: 1, max: 19 }), ([lon, lat], zoom) => {
        const [x, y] = tileAt([lon, lat], zoom)
        const [lonBack, latBack] = cornerOf(x, y, zoom)
        expect(lonBack).toBeCloseTo(lon, 9)
        expect(latBack).toBeCloseTo(lat, 9)
      }),
    )
  })

  it('cover the sheet without gap, in squares small enough to be sharp, and no more of them than are needed', () => {
    const place = fc.tuple(
      fc.double({ min: -170, max: 170, noNaN: true }),
      fc.double({ min: -60, max: 60, noNaN: true }),
    )
    fc.assert(
      fc.property(place, fc.double({ min: 0.002, max: 2, noNaN: true }), ([lon, lat], wide) => {
        const projection = geoMercator().fitExtent(
          [
            [0, 0],
            [400, 300],
          ],
          {
            type: 'MultiPoint',
            coordinates: [
              [lon, lat],
              [lon + wide, lat + wide * 0.5],
            ],
          },
        )
        const project = (point: readonly [number, number]) => projection([point[0], point[1]])!
        const drawn = drawTiles(
          { ...MAP, deepestZoom: 22 },
          project,
          projection.invert!([0, 0])!,
          projection.invert!([400, 300])!,
        )
        const tiles = [...drawn.matchAll(/x="([-\d.]+)" y="([-\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)].map(
          (found) => found.slice(1).map(Number),
        )
        expect(tiles.length).toBeGreaterThan(0)
        expect(tiles.length).toBeLessThanOrEqual(30)
        for (const [, , width, height] of tiles) {
          expect(width!).toBeLessThanOrEqual(221)
          expect(height! / width!).toBeCloseTo(1, 1)
        }
        expect(Math.min(...tiles.map(([x]) => x!))).toBeLessThanOrEqual(0.02)
        expect(Math.min(...tiles.map(([, y]) => y!))).toBeLessThanOrEqual(0.02)
        expect(Math.max(...tiles.map(([x, , width]) => x! + width!))).toBeGreaterThanOrEqual(399.98)
        expect(Math.max(...tiles.map(([, y, , height]) => y! + height!))).toBeGreaterThanOrEqual(299.98)
      }),
      { numRuns: 60 },
    )
  })
})

describe('the map of the fields', () => {
  it('shows the ground where the farm gives a server for it, with its credit, and allows that host alone', async () => {
    const service = await demoService({ farm: (farm) => ({ ...farm, baseMap: MAP }) })
    const answer = await webApp(service).request('/fields')
    const page = await answer.text()
    const images = [...page.matchAll(/<image href="([^"]*)"/g)].map(([, address]) => address!.replaceAll('&amp;', '&'))
    expect(images.length).toBeGreaterThan(3)
    const zooms = new Set(images.map((address) => /\/a\/(\d+)\/\d+\/\d+\.png\?k=1&s=2$/.exec(address)![1]))
    expect(zooms.size).toBe(1)
    expect(page).toContain('Ground by &lt;Example&gt; Survey')
    const policy = answer.headers.get('content-security-policy')!
    expect(/img-src ([^;]*)/.exec(policy)![1]).toBe("'self' https://tiles.example.org")
    expect(policy.match(/https:/g)).toHaveLength(1)
    // The home place at the middle of the farm lies within one of the tiles asked for.
    const { lonDeg, latDeg } = service.farm.fields.find(({ id }) => id === 'home-place')!.centre
    const [x, y] = tileAt([lonDeg, latDeg], Number([...zooms][0])).map(Math.floor)
    expect(images.some((address) => address.includes(`/${x}/${y}.png`))).toBe(true)
  })

  it('asks nobody for pictures where the farm gives no server', async () => {
    const answer = await webApp(await demoService()).request('/fields')
    expect(await answer.text()).not.toContain('<image')
    expect(answer.headers.get('content-security-policy')).toMatch(/img-src 'self';/)
  })
})
