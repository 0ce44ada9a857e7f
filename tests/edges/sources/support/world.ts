/** All services on one loopback server, each answering well until a test puts a fault on it. */
import type { IncomingMessage, ServerResponse } from 'node:http'
import type { HistoryRequest, ObservationSource, WeatherRequest } from '#app/ports.ts'
import { epochHoursOf, instantOf } from '#core/units/time.ts'
import type { HttpClient, HttpLimits } from '#edges/http/client.ts'
import { metnoForecast } from '#edges/sources/metno/index.ts'
import { nwsSources } from '#edges/sources/nws/index.ts'
import { openMeteoHistory } from '#edges/sources/open-meteo/history.ts'
import { openMeteoEnsemble, openMeteoForecast } from '#edges/sources/open-meteo/index.ts'
import { powerHistory } from '#edges/sources/power/index.ts'
import { bodyOf, resolved, resolvedNebraska } from './bodies.ts'
import { TestClock, testClient } from './http.ts'
import { hourlyAnswer } from './open-meteo.ts'
import { powerBody } from './power.ts'
import { type Loopback, loopback } from './server.ts'

const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
/** The moment for which the templated bodies of Nebraska fall on full hours. */
export const NEBRASKA_NOW = at('2024-12-03T02:00Z') + 2503 / 3600
const NEW_YORK_NOW = at('2020-07-20T11:44:31Z')
const NEBRASKA = { latDeg: 41.212, lonDeg: -96.623, elevationM: 368 }
const NEW_YORK = { latDeg: 40.7, lonDeg: -74, elevationM: 10 }
export const HOURS_BACK = 48

export type Fault = (request: IncomingMessage, response: ServerResponse, good: unknown) => void

export interface World {
  readonly server: Loopback
  readonly client: HttpClient
  readonly clock: TestClock
  /** Puts a fault on every path that matches. */
  readonly spoil: (path: RegExp, fault: Fault) => void
  readonly stop: () => Promise<void>
}

export async function world(limits: Partial<HttpLimits> = {}): Promise<World> {
  const faults: [RegExp, Fault][] = []
  const server = await loopback((request, response) => {
    const { pathname: path, searchParams } = new URL(request.url ?? '', 'http://localhost')
    const good = goodBody(path, searchParams)
    const fault = faults.find(([pattern]) => pattern.test(path))
    if (fault !== undefined) fault[1](request, response, good)
    else if (good === undefined) response.writeHead(404).end('{"title":"Not Found"}')
    else response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify(good))
  })
  const clock = new TestClock(NEBRASKA_NOW)
  const client = testClient(clock, limits)
  return {
    server,
    client,
    clock,
    spoil: (path, fault) => faults.unshift([path, fault]),
    stop: async () => {
      await client.close()
      await server.stop()
    },
  }
}

/** Every source: how it is asked, and the paths on which its faults are put. */
export const SOURCES: {
  readonly [name: string]: { readonly path: RegExp; readonly fetch: (w: World) => Promise<unknown> }
} = {
  'NWS forecast': {
    path: /gridpoints\/OAX\/59,58(\/forecast\/hourly)?$/,
    fetch: ({ client, server }) => nwsSources(client, server.url.href).forecast.fetch(nebraska()),
  },
  'NWS points': {
    path: /points\/41/,
    fetch: ({ client, server }) => nwsSources(client, server.url.href).forecast.fetch(nebraska()),
  },
  'NWS reports': {
    path: /\/observations$/,
    fetch: ({ client, server }) => reports(nwsSources(client, server.url.href).observations),
  },
  'NWS warnings': {
    path: /alerts\/active$/,
    fetch: ({ client, server }) => nwsSources(client, server.url.href).warnings.fetch(nebraska()),
  },
  'MET Norway': {
    path: /met\/complete$/,
    fetch: ({ client, server }) =>
      metnoForecast(client, new URL('met/', server.url).href).fetch({ place: NEW_YORK, nowEpochH: NEW_YORK_NOW }),
  },
  'Open-Meteo': {
    path: /om\/forecast$/,
    fetch: ({ client, server }) =>
      openMeteoForecast(client, { address: new URL('om/', server.url).href }).fetch(nebraska()),
  },
  'Open-Meteo ensemble': {
    path: /om\/ensemble$/,
    fetch: ({ client, server }) =>
      openMeteoEnsemble(client, { address: new URL('om/', server.url).href }).fetch(nebraska()),
  },
  'Open-Meteo archive': {
    path: /om\/archive$/,
    fetch: ({ client, server }) =>
      openMeteoHistory(client, { address: new URL('om/', server.url).href }).fetch(monthAgo()),
  },
  'Open-Meteo, last days': {
    path: /om\/forecast$/,
    fetch: ({ client, server }) =>
      openMeteoHistory(client, { address: new URL('om/', server.url).href }).fetch(lastDays()),
  },
  'NASA POWER': {
    path: /power\/point$/,
    fetch: ({ client, server }) => powerHistory(client, new URL('power/', server.url).href).fetch(monthAgo()),
  },
}

export const nebraska = (): WeatherRequest => ({ place: NEBRASKA, nowEpochH: NEBRASKA_NOW })
/** Ten whole days, a month before. */
export const monthAgo = (): HistoryRequest => ({
  ...nebraska(),
  fromEpochH: MONTH_AGO,
  toEpochH: MONTH_AGO + PAST_H,
})
/** Three whole days that the archive does not have yet. */
export const lastDays = (): HistoryRequest => ({
  ...nebraska(),
  fromEpochH: LAST_DAYS,
  toEpochH: LAST_DAYS + 3 * 24,
})
const LAST_DAYS = (Math.floor(NEBRASKA_NOW / 24) - 4) * 24
const MONTH_AGO = (Math.floor(NEBRASKA_NOW / 24) - 30) * 24
const PAST_H = 10 * 24
const reports = (source: ObservationSource) => source.fetch({ ...nebraska(), hoursBack: HOURS_BACK })

/** @param query what was asked for, where the body depends on it. */
export function goodBody(path: string, query = new URLSearchParams()): unknown {
  if (path === '/om/forecast' && query.has('start_date')) return hourlyAnswer(LAST_DAYS, PAST_H, 1)

  if (path.startsWith('/points/')) return bodyOf('nws/templated_points_41.212_-96.623.json')
  if (path === '/gridpoints/OAX/59,58') return resolvedNebraska(NEBRASKA_NOW)
  if (path === '/gridpoints/OAX/59,58/forecast/hourly')
    return resolved(bodyOf('nws/templated_gridpoint_OAX_59_58_forecast_hourly.json'), NEBRASKA_NOW)
  if (path === '/gridpoints/OAX/59,58/stations') return bodyOf('nws/templated_gridpoint_OAX_59_58_stations_limit3.json')
  if (path.endsWith('/observations')) return hourlyReports()
  if (path === '/alerts/active') return resolved(bodyOf('nws/templated_alerts_active_status_actual.json'), NEBRASKA_NOW)
  if (path === '/met/complete') return (bodyOf('metno/compact_new_york_2020.json') as { data: unknown }).data
  if (path === '/om/forecast') return hourlyAnswer(Math.floor(NEBRASKA_NOW) - 2, 96, 1)
  if (path === '/om/ensemble') return hourlyAnswer(Math.floor(NEBRASKA_NOW) - 2, 96, 5)
  if (path === '/om/archive') return hourlyAnswer(MONTH_AGO, PAST_H + 24, 1)
  if (path === '/power/point') return powerBody(MONTH_AGO, PAST_H)
  return undefined
}

/** The one report of the bundle, 47 minutes before now, repeated for each hour with the temperature moving. */
function hourlyReports(): unknown {
  const body = resolved(bodyOf('nws/templated_observations_KAHQ_limit1.json'), NEBRASKA_NOW) as {
    features: {
      properties: {
        timestamp: string
        temperature: { value: number }
        dewpoint: { value: number }
        windSpeed: { value: number }
      }
    }[]
  }
  const [report] = body.features
  const features = Array.from({ length: HOURS_BACK + 1 }, (_, back) => {
    const copy = structuredClone(report!)
    const stamp = at(copy.properties.timestamp) - back
    copy.properties.timestamp = instantOf(stamp).toString().replace('Z', '+00:00')
    copy.properties.temperature.value += (back % 7) / 2
    copy.properties.dewpoint.value += (back % 5) / 3
    copy.properties.windSpeed.value += back % 3
    delete (copy.properties as { relativeHumidity?: unknown }).relativeHumidity
    return copy
  })
  return { ...body, features }
}
