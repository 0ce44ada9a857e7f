import type { IncomingMessage, ServerResponse } from 'node:http'
import { afterEach, describe, expect, it } from 'vitest'
import type { HttpClient } from '#edges/http/client.ts'
import { openMeteo, openMeteoEnsemble, openMeteoForecast } from '#edges/sources/open-meteo/index.ts'
import { textOf } from '#tests/edges/sources/support/bodies.ts'
import { TestClock, testClient } from '#tests/edges/sources/support/http.ts'
import { hourlyAnswer } from '#tests/edges/sources/support/open-meteo.ts'
import { type Loopback, loopback } from '#tests/edges/sources/support/server.ts'

const NOW = 497_650.4
const REQUEST = { place: { latDeg: 41.21212, lonDeg: -96.6, elevationM: 367.9 }, nowEpochH: NOW }
let stop: (() => Promise<void>) | undefined
afterEach(async () => stop?.())

async function set(answer: (request: IncomingMessage, response: ServerResponse, count: number) => void) {
  const server: Loopback = await loopback(answer)
  const client: HttpClient = testClient(new TestClock(NOW))
  stop = async () => {
    await client.close()
    await server.stop()
  }
  const asked = (at: number) => new URL(server.asked[at]!.url!, server.url).searchParams
  return { server, client, address: server.url.href, asked }
}
const good = (members: number) => JSON.stringify(hourlyAnswer(Math.floor(NOW) - 1, 72, members))

describe('Open-Meteo', () => {
  it('waits for the consent of the farm', async () => {
    const { client } = await set(() => undefined)
    expect([openMeteoForecast(client).needsConsent, openMeteoEnsemble(client).needsConsent]).toEqual([true, true])
  })

  it('is asked in GMT and m/s, with the key if there is one, which no error shows', async () => {
    const { client, address, asked } = await set((_, response, count) => {
      response.writeHead(count === 1 ? 200 : 400).end(count === 1 ? good(1) : '{"error":true,"reason":"no"}')
    })
    const source = openMeteoForecast(client, { address, apiKey: 's3cret' })
    await source.fetch(REQUEST)
    expect(Object.fromEntries(asked(0))).toMatchObject({
      latitude: '41.2121',
      longitude: '-96.6000',
      elevation: '368',
      timezone: 'GMT',
      wind_speed_unit: 'ms',
      apikey: 's3cret',
    })
    const failure = await source.fetch(REQUEST).catch((error: unknown) => error)
    expect(String(failure)).toContain('answered 400, "no"')
    expect(String(failure)).not.toContain('s3cret')
  })

  it('passes over an ensemble whose name is not known', async () => {
    const { client, address, asked, server } = await set((_, response, count) => {
      response.writeHead(count === 1 ? 400 : 200).end(count === 1 ? '{"error":true,"reason":"unknown model"}' : good(4))
    })
    const { weather } = await openMeteoEnsemble(client, { address }).fetch(REQUEST)
    expect([weather.members, weather.provenance.spread]).toEqual([4, 'ensemble'])
    expect([asked(0).get('models'), asked(1).get('models')]).toEqual(['ecmwf_ifs025_ensemble', 'ecmwf_ifs025'])
    expect(server.asked).toHaveLength(2)
  })

  it('falls back on the single run while no ensemble can be had, and says so', async () => {
    const { client, address, server } = await set((request, response) => {
      const isEnsemble = request.url!.startsWith('/ensemble')
      response.writeHead(isEnsemble ? 422 : 200).end(isEnsemble ? '' : good(1))
    })
    const { weather, notes } = await openMeteo(client, { address }).fetch(REQUEST)
    expect([weather.members, weather.provenance.spread]).toEqual([1, 'single'])
    expect(notes.join()).toContain('The ensemble could not be had')
    expect(server.asked).toHaveLength(2)
  })

  it('asks for no single run while the ensemble answers', async () => {
    const { client, address, server } = await set((_, response) => {
      response.writeHead(200).end(good(4))
    })
    const { weather } = await openMeteo(client, { address }).fetch(REQUEST)
    expect([weather.members, server.asked.length]).toEqual([4, 1])
  })

  it('tells that no ensemble was known', async () => {
    const { client, address } = await set((_, response) => {
      response.writeHead(400).end('{"error":true,"reason":"unknown model"}')
    })
    const source = openMeteoEnsemble(client, { address, ensembleModels: ['a', 'b'] })
    await expect(source.fetch(REQUEST)).rejects.toThrow(/unknown model/)
  })

  it('is refused with the recorded body of a place that it does not cover', async () => {
    const { client, address } = await set((_, response) => {
      response.writeHead(200).end(textOf('open-meteo/not_covered.txt'))
    })
    await expect(openMeteoForecast(client, { address }).fetch(REQUEST)).rejects.toThrow(
      /"nan" where a number should be/,
    )
  })
})
