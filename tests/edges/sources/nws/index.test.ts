import { afterEach, describe, expect, it } from 'vitest'
import { SourceRefused, SourceTooThin, SourceUnreadable } from '#app/failures.ts'
import { instantOf } from '#core/units/time.ts'
import { nwsSources } from '#edges/sources/nws/index.ts'
import { goodBody, HOURS_BACK, NEBRASKA_NOW, nebraska, type World, world } from '#tests/edges/sources/support/world.ts'

const open: World[] = []
afterEach(async () => {
  for (const one of open.splice(0)) await one.stop()
})
async function start() {
  const one = await world({ retries: 0 })
  open.push(one)
  const paths = () => one.server.asked.map(({ url }) => url!.split('?')[0])
  return { one, paths, nws: nwsSources(one.client, one.server.url.href) }
}
const down = (status: number) => (_: unknown, response: { writeHead: (s: number) => { end: () => void } }) =>
  response.writeHead(status).end()
const GRID = /gridpoints\/OAX\/59,58$/

describe('the forecast', () => {
  it('goes from the place to its grid to the weather, asking for the place once', async () => {
    const { nws, paths } = await start()
    const forecast = await nws.forecast.fetch(nebraska())
    await nws.forecast.fetch(nebraska())
    expect(paths()).toEqual(['/points/41.212,-96.623', '/gridpoints/OAX/59,58', '/gridpoints/OAX/59,58'])
    expect(forecast.weather.startEpochH).toBe(Math.floor(NEBRASKA_NOW))
    expect(forecast.rawHash).toMatch(/^[0-9a-f]{64}$/)
    expect(forecast.notes).toEqual([])
  })

  it('asks anew for the grid when the one it knew is gone', async () => {
    const { one, nws, paths } = await start()
    await nws.forecast.fetch(nebraska())
    one.spoil(GRID, down(404))
    one.spoil(/^\/points/, (_, response, good) => {
      const moved = structuredClone(good) as { properties: { gridX: number } }
      moved.properties.gridX = 60
      response.writeHead(200).end(JSON.stringify(moved))
    })
    one.spoil(/gridpoints\/OAX\/60,58$/, (_, response) => {
      response.writeHead(200).end(JSON.stringify(goodBody('/gridpoints/OAX/59,58')))
    })
    expect((await nws.forecast.fetch(nebraska())).weather.hours).toBe(166)
    expect(paths().slice(2)).toEqual(['/gridpoints/OAX/59,58', '/points/41.212,-96.623', '/gridpoints/OAX/60,58'])
  })

  it('gives up when the new grid is gone too', async () => {
    const { one, nws, paths } = await start()
    one.spoil(GRID, down(404))
    await expect(nws.forecast.fetch(nebraska())).rejects.toThrow(SourceRefused)
    expect(paths()).toHaveLength(4)
  })

  it('follows the service to the right spelling of the place', async () => {
    const { one, nws, paths } = await start()
    one.spoil(
      /points\/41\.212,/,
      (_, response) => void response.writeHead(301, { location: '/points/41.2,-96.6' }).end(),
    )
    await nws.forecast.fetch(nebraska())
    expect(paths().slice(0, 2)).toEqual(['/points/41.212,-96.623', '/points/41.2,-96.6'])
  })

  it('falls back on the hourly text forecast while the grid is down, and says so', async () => {
    const { one, nws } = await start()
    const grid = (await nws.forecast.fetch(nebraska())).weather
    one.spoil(GRID, down(500))
    const { weather, notes, chances } = await nws.forecast.fetch(nebraska())
    expect(notes.join()).toContain('answered 500')
    expect(weather.provenance.remarks.join()).toContain('gusts and amounts of rain are not known')
    // Two bodies of one run: the text forecast rounds to whole deg F and mph, and its "0 hours" stands for two hours.
    for (let h = 3; h < 24; h++) {
      const near = [h - 1, h, h + 1].map((hour) => Math.abs(weather.airTempC[h]! - grid.airTempC[hour]!))
      expect(Math.min(...near)).toBeLessThan(0.6)
    }
    expect(weather.gustMs.every(Number.isNaN)).toBe(true)
    expect(weather.rainMm.every((mm, h) => (chances.popPct![h] === 0 ? mm === 0 : Number.isNaN(mm)))).toBe(true)
  })

  it('tells the first failure when the way out is shut too', async () => {
    const { one, nws } = await start()
    one.spoil(GRID, down(500))
    one.spoil(/hourly$/, down(503))
    await expect(nws.forecast.fetch(nebraska())).rejects.toThrow(/answered 500/)
  })

  it('does not fall back on text when the grid speaks an unknown unit', async () => {
    const { one, nws, paths } = await start()
    one.spoil(GRID, (_, response, good) => {
      response.writeHead(200).end(JSON.stringify(good).replaceAll('wmoUnit:degC', 'wmoUnit:degR'))
    })
    await expect(nws.forecast.fetch(nebraska())).rejects.toThrow(/temperature comes in an unknown unit "wmoUnit:degR"/)
    expect(paths().join()).not.toContain('hourly')
  })
})

describe('the reports of stations', () => {
  it('come from the nearest station, by the hour', async () => {
    const { nws } = await start()
    const { weather, station } = await nws.observations.fetch({ ...nebraska(), hoursBack: HOURS_BACK })
    // Wahoo, 3.2 km north of the place by the coordinates of the bodies (0.0286 deg of latitude = 3.18 km; east 2.37 km).
    expect([station.id, station.name]).toEqual(['KAHQ', 'Wahoo'])
    expect(station.distanceKm).toBeCloseTo(Math.hypot(3.18, 2.38), 1)
    expect([weather.hours, weather.members, weather.provenance.spread]).toEqual([HOURS_BACK, 1, 'observed'])
    expect(weather.startEpochH + weather.hours).toBe(Math.floor(NEBRASKA_NOW))
    // The report 2804 s before 02:41:43 is of 01:54:59: the last full hour. By eye: -8.5 degC, 9.36 km/h from 320.
    expect(weather.airTempC.at(-1)).toBeCloseTo(-8.5, 5)
    expect(weather.windMs.at(-1)).toBeCloseTo(2.6, 5)
    expect(weather.windFromDeg.at(-1)).toBeCloseTo(320, 3)
    // AO2, no amount, no rain: none fell. Clear sky.
    expect(weather.rainMm.every((mm) => mm === 0)).toBe(true)
  })

  it('pass over a station that is silent', async () => {
    const { one, nws } = await start()
    one.spoil(/KAHQ\/observations/, (_, response) => void response.writeHead(200).end('{"features":[]}'))
    const { station, notes } = await nws.observations.fetch({ ...nebraska(), hoursBack: HOURS_BACK })
    expect(station.id).not.toBe('KAHQ')
    expect(notes.join()).toContain('Station KAHQ passed over')
  })

  it('are refused when no station has anything', async () => {
    const { one, nws } = await start()
    one.spoil(/observations/, (_, response) => void response.writeHead(200).end('{"features":[]}'))
    await expect(nws.observations.fetch({ ...nebraska(), hoursBack: 24 })).rejects.toThrow(SourceTooThin)
    one.spoil(/stations$/, (_, response) => void response.writeHead(200).end('{"features":[]}'))
    await expect(nws.observations.fetch({ ...nebraska(), hoursBack: 24 })).rejects.toThrow(/no weather station/)
  })
})

describe('the warnings', () => {
  it('carry the fields of the protocol, words unaltered', async () => {
    const { one, nws } = await start()
    const warnings = await nws.warnings.fetch(nebraska())
    expect(one.server.asked[0]!.url).toBe('/alerts/active?point=41.212%2C-96.623&status=actual')
    const blizzard = warnings.find(({ event }) => event === 'Blizzard Warning')!
    expect(blizzard).toMatchObject({
      severity: 'Extreme',
      certainty: 'Likely',
      urgency: 'Expected',
      messageType: 'Update',
      response: 'Prepare',
      areaDesc: 'Eastern Beaufort Sea Coast',
      senderName: 'NWS Fairbanks AK',
    })
    expect(blizzard.description).toMatch(
      /^\* WHAT\.\.\.Blizzard conditions occuring\. Winds gusting as high as\n60 mph\./,
    )
    expect(blizzard.replaces).toContain('urn:oid:2.49.0.1.840.0.50186263db80dd3a37b9a35b4106434dbb236843.003.1')
    // "date:today 16:00:-5 +24 hours" and "+48 hours": 21:00Z on 4 and 5 December.
    expect(instantOf(blizzard.onsetAtEpochH!).toString()).toBe('2024-12-04T21:00:00Z')
    expect(instantOf(blizzard.endsAtEpochH!).toString()).toBe('2024-12-05T21:00:00Z')
  })

  it('leave out what is over, cancelled, replaced or a test, and nothing else', async () => {
    const { one, nws } = await start()
    const before = await nws.warnings.fetch(nebraska())
    const [first, second, third, fourth] = before
    one.spoil(/alerts/, (_, response, good) => {
      const body = good as { features: { properties: { [name: string]: unknown } }[] }
      for (const { properties } of body.features) {
        if (properties.id === first!.id) Object.assign(properties, { expires: '2024-12-01T00:00:00Z', ends: null })
        if (properties.id === second!.id) Object.assign(properties, { messageType: 'Cancel' })
        if (properties.id === third!.id) Object.assign(properties, { references: [{ identifier: fourth!.id }] })
      }
      const { properties } = body.features.at(-1)!
      const drill = { properties: { ...properties, id: 'drill', status: 'Exercise' } }
      const strange = {
        properties: { ...properties, id: 'strange', severity: 'Dire', status: 'Novel', messageType: 'Novel' },
      }
      response.writeHead(200).end(JSON.stringify({ features: [...body.features, drill, strange] }))
    })
    const after = await nws.warnings.fetch(nebraska())
    const gone = new Set([first!.id, second!.id, fourth!.id])
    const expected = before.filter(({ id, replaces }) => !gone.has(id) && replaces !== undefined).map(({ id }) => id)
    expect(after.map(({ id }) => id)).toEqual([...expected, 'strange'])
    expect(after.at(-1)).toMatchObject({ severity: 'Unknown', status: 'Actual', messageType: 'Alert' })
  })

  it('are refused when one of them has no readable time', async () => {
    const { one, nws } = await start()
    one.spoil(/alerts/, (_, response, good) => {
      const body = good as { features: { properties: object }[] }
      Object.assign(body.features[3]!.properties, { expires: 'soon' })
      response.writeHead(200).end(JSON.stringify(body))
    })
    await expect(nws.warnings.fetch(nebraska())).rejects.toThrow(SourceUnreadable)
  })
})
