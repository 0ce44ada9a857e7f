import { afterEach, describe, expect, it } from 'vitest'
import { SourceRefused, SourceTooThin } from '#app/failures.ts'
import { WEATHER_VARIABLES } from '#core/units/weather.ts'
import { openMeteoHistory } from '#edges/sources/open-meteo/history.ts'
import { TestClock, testClient } from '#tests/edges/sources/support/http.ts'
import { hourlyAnswer } from '#tests/edges/sources/support/open-meteo.ts'
import { loopback } from '#tests/edges/sources/support/server.ts'

/** The middle of 9 October 2026. */
const NOW = 20_735 * 24 + 13.4
const TODAY = 20_735 * 24
const PLACE = { latDeg: 41.21212, lonDeg: -96.6, elevationM: 367.9 }
let stop: (() => Promise<void>) | undefined
afterEach(async () => stop?.())

/** Answers whole days as asked, as the service does; a test may spoil one of the two. */
async function set(spoil: (path: string) => 'good' | 'refused' | 'empty' = () => 'good') {
  const server = await loopback((request, response) => {
    const url = new URL(request.url!, 'http://localhost')
    const day = (name: string) => Date.parse(`${url.searchParams.get(name)}T00:00Z`) / 3_600_000
    const how = spoil(url.pathname)
    if (how === 'refused') return void response.writeHead(400).end('{"error":true,"reason":"no"}')
    const answer = hourlyAnswer(day('start_date'), day('end_date') + 24 - day('start_date'), 1)
    if (how === 'empty') answer.hourly.temperature_2m!.fill(null as never)
    response.writeHead(200).end(JSON.stringify(answer))
  })
  const client = testClient(new TestClock(NOW))
  stop = async () => {
    await client.close()
    await server.stop()
  }
  const source = openMeteoHistory(client, { address: server.url.href, apiKey: 's3cret' })
  const fetch = (fromEpochH: number, toEpochH: number) =>
    source.fetch({ place: PLACE, nowEpochH: NOW, fromEpochH, toEpochH })
  const asked = () => server.asked.map(({ url }) => new URL(url!, server.url))
  return { source, fetch, asked }
}

describe('the past of Open-Meteo', () => {
  it('waits for the consent of the farm', async () => {
    expect((await set()).source.needsConsent).toBe(true)
  })

  it('comes from the archive in one question, in GMT and m/s, with the day that ends the last hour', async () => {
    const { fetch, asked } = await set()
    const { weather } = await fetch(TODAY - 400 * 24, TODAY - 35 * 24)
    expect(asked()).toHaveLength(1)
    expect(asked()[0]!.pathname).toBe('/archive')
    expect(Object.fromEntries(asked()[0]!.searchParams)).toMatchObject({
      latitude: '41.2121',
      elevation: '368',
      timezone: 'GMT',
      wind_speed_unit: 'ms',
      apikey: 's3cret',
      start_date: '2025-09-04',
      end_date: '2026-09-04',
    })
    for (const name of WEATHER_VARIABLES) expect(weather[name].some(Number.isNaN), name).toBe(false)
  })

  it('up to now joins archive and runs without a gap or a step', async () => {
    const { fetch, asked } = await set()
    const from = TODAY - 20 * 24
    const { weather } = await fetch(from, Math.floor(NOW))
    expect(asked().map(({ pathname }) => pathname)).toEqual(['/archive', '/forecast'])
    expect(asked().map(({ searchParams }) => searchParams.get('end_date'))).toEqual(['2026-10-03', '2026-10-09'])
    expect([weather.startEpochH, weather.hours]).toEqual([from, 20 * 24 + 13])
    // The same plain numbers on either side: the middle of the hour, and the rain of the hour before its stamp.
    for (let h = 0; h < weather.hours; h++) {
      const value = (stamp: number) => 10 + (stamp % 24) / 4
      expect(weather.airTempC[h]).toBeCloseTo((value(from + h) + value(from + h + 1)) / 2, 4)
      expect(weather.rainMm[h]).toBeCloseTo((from + h + 1) % 24 === 6 ? 2 : 0, 5)
    }
  })

  it('asks only the runs for the last days, and no further back than they go', async () => {
    const { fetch, asked } = await set()
    await fetch(TODAY - 3 * 24, TODAY)
    expect(asked().map(({ pathname }) => pathname)).toEqual(['/forecast'])
  })

  it('is refused as a whole when one of its two halves is, and shows no key', async () => {
    const { fetch } = await set((path) => (path === '/archive' ? 'refused' : 'good'))
    const failure = await fetch(TODAY - 20 * 24, TODAY).catch((error: unknown) => error)
    expect(failure).toBeInstanceOf(SourceRefused)
    expect(String(failure)).not.toContain('s3cret')
  })

  it('is refused when the archive has nothing there', async () => {
    const { fetch } = await set(() => 'empty')
    await expect(fetch(TODAY - 30 * 24, TODAY - 20 * 24)).rejects.toThrow(SourceTooThin)
  })
})
