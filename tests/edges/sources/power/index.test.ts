import { afterEach, describe, expect, it } from 'vitest'
import { SourceTooThin } from '#app/failures.ts'
import { epochHourOf } from '#core/units/time.ts'
import { powerHistory } from '#edges/sources/power/index.ts'
import { TestClock, testClient } from '#tests/edges/sources/support/http.ts'
import { FILL, powerBody } from '#tests/edges/sources/support/power.ts'
import { loopback } from '#tests/edges/sources/support/server.ts'

const YEAR = epochHourOf(Temporal.Instant.from('2019-01-01T00:00Z'))
const NEXT = epochHourOf(Temporal.Instant.from('2020-01-01T00:00Z'))
const PLACE = { latDeg: 41.21212, lonDeg: -96.6, elevationM: 368 }
let stop: (() => Promise<void>) | undefined
afterEach(async () => stop?.())

async function set(body: unknown) {
  const server = await loopback((_, response) => void response.writeHead(200).end(JSON.stringify(body)))
  const client = testClient(new TestClock(NEXT + 5000))
  stop = async () => {
    await client.close()
    await server.stop()
  }
  const source = powerHistory(client, server.url.href)
  const fetch = () => source.fetch({ place: PLACE, nowEpochH: NEXT + 5000, fromEpochH: YEAR, toEpochH: NEXT })
  return { source, fetch, asked: () => new URL(server.asked[0]!.url!, server.url) }
}

describe('NASA POWER', () => {
  it('gives a year for one question, credited, without key or consent', async () => {
    const { source, fetch, asked } = await set(powerBody(YEAR, NEXT - YEAR))
    const { weather } = await fetch()
    expect([weather.hours, weather.members, weather.provenance.spread]).toEqual([8760, 1, 'observed'])
    expect(weather.airTempC.some(Number.isNaN)).toBe(false)
    expect(weather.provenance.attribution).toContain('NASA Langley Research Center POWER Project')
    expect(source.needsConsent).toBeUndefined()
    expect(asked().pathname).toBe('/point')
    expect(Object.fromEntries(asked().searchParams)).toEqual({
      parameters: 'T2M,RH2M,PRECTOTCORR,WS10M,WD10M,ALLSKY_SFC_SW_DWN',
      community: 'RE',
      latitude: '41.2121',
      longitude: '-96.6000',
      start: '20190101',
      end: '20191231',
      format: 'JSON',
      'time-standard': 'UTC',
    })
  })

  it('is refused when it has less than half of what was asked for', async () => {
    const body = powerBody(YEAR, NEXT - YEAR)
    const rain = body.properties.parameter.PRECTOTCORR!
    for (const stamp of Object.keys(rain).slice(4000)) rain[stamp] = FILL
    const { fetch } = await set(body)
    await expect(fetch()).rejects.toThrow(SourceTooThin)
  })
})
