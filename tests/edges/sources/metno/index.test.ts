import { expect, it } from 'vitest'
import { epochHoursOf } from '#core/units/time.ts'
import { metnoForecast } from '#edges/sources/metno/index.ts'
import { bodyOf } from '#tests/edges/sources/support/bodies.ts'
import { TestClock, testClient } from '#tests/edges/sources/support/http.ts'
import { loopback } from '#tests/edges/sources/support/server.ts'

it('asks with four decimals and whole metres, and keeps the expiry of the real headers', async () => {
  const { headers, data } = bodyOf('metno/compact_new_york_2020.json') as {
    headers: { [name: string]: string }
    data: unknown
  }
  const server = await loopback((_, response) => {
    response.writeHead(200, { expires: headers.Expires!, 'last-modified': headers['Last-Modified']! })
    response.end(JSON.stringify(data))
  })
  const now = epochHoursOf(Temporal.Instant.from('2020-07-20T11:44:31Z'))
  const client = testClient(new TestClock(now))
  const source = metnoForecast(client, server.url.href)
  const place = { latDeg: 40.712345, lonDeg: -74.00001, elevationM: 10.4 }
  const { weather, expiresAtEpochH, rawHash } = await source.fetch({ place, nowEpochH: now })
  expect(server.asked[0]!.url).toBe('/complete?lat=40.7123&lon=-74.0000&altitude=10')
  expect(expiresAtEpochH).toBeCloseTo(epochHoursOf(Temporal.Instant.from('2020-07-20T12:14:53Z')), 9)
  expect(weather.provenance.attribution).toContain('MET Norway')
  expect((await source.fetch({ place, nowEpochH: now })).rawHash).toBe(rawHash)
  await client.close()
  await server.stop()
})
