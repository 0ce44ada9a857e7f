/**
 * The services at their own addresses, answered by msw inside this process. It sits at the sockets, so the client's
 * pool, cache, time limits and unpacking all take part.
 */
import { HttpRequestInterceptor } from '@mswjs/interceptors/http'
import { http } from 'msw'
import { defineNetwork, InterceptorSource } from 'msw/experimental'
import type {
  HistoryRequest,
  SourceForecast,
  SourceHistory,
  SourceObservations,
  Warning,
  WeatherRequest,
} from '#app/ports.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { HttpClient, HttpLimits } from '#edges/http/client.ts'
import { metnoForecast } from '#edges/sources/metno/index.ts'
import { nwsSources } from '#edges/sources/nws/index.ts'
import { openMeteoHistory } from '#edges/sources/open-meteo/history.ts'
import { openMeteoEnsemble, openMeteoForecast } from '#edges/sources/open-meteo/index.ts'
import { powerHistory } from '#edges/sources/power/index.ts'
import { TestClock, testClient } from './http.ts'
import { goodBody, HOURS_BACK, lastDays, monthAgo, NEBRASKA_NOW, nebraska } from './world.ts'

/** @param good the good body of the address asked, as parsed JSON. */
export type Answering = (good: unknown, request: Request) => Response | Promise<Response>

export interface MockedWorld {
  readonly client: HttpClient
  readonly clock: TestClock
  readonly asked: Request[]
  /** Answers every address that matches in this way from now on. */
  readonly spoil: (address: RegExp, answer: Answering) => void
  readonly stop: () => Promise<void>
}

const ADDRESSES: readonly (readonly [start: string, body: string])[] = [
  ['https://api.weather.gov', ''],
  ['https://api.met.no/weatherapi/locationforecast/2.0', '/met'],
  ['https://api.open-meteo.com/v1', '/om'],
  ['https://ensemble-api.open-meteo.com/v1', '/om'],
  ['https://archive-api.open-meteo.com/v1', '/om'],
  ['https://power.larc.nasa.gov/api/temporal/hourly', '/power'],
]

export const json = (body: unknown, init: ResponseInit = {}): Response =>
  new Response(typeof body === 'string' ? body : JSON.stringify(body), {
    ...init,
    headers: { 'content-type': 'application/json', ...init.headers },
  })

export async function mockedWorld(limits: Partial<HttpLimits> = {}): Promise<MockedWorld> {
  const spoiled: [RegExp, Answering][] = []
  const asked: Request[] = []
  const answer = ({ request }: { request: Request }): Response | Promise<Response> => {
    asked.push(request)
    const address = request.url.split('?')[0]!
    const known = ADDRESSES.find(([start]) => address.startsWith(`${start}/`))
    const { searchParams } = new URL(request.url)
    const good = known && goodBody(known[1] + address.slice(known[0].length), searchParams)
    const fault = spoiled.find(([pattern]) => pattern.test(address))
    if (fault) return fault[1](good, request)
    return good === undefined ? json({ title: 'Not Found' }, { status: 404 }) : json(good)
  }
  const network = defineNetwork({
    sources: [new InterceptorSource({ interceptors: [new HttpRequestInterceptor()] })],
    handlers: [http.all(/.*/, answer)],
    onUnhandledFrame: 'error',
    context: { quiet: true },
  })
  await network.enable()
  const clock = new TestClock(NEBRASKA_NOW)
  const client = testClient(clock, limits)
  return {
    client,
    clock,
    asked,
    spoil: (address, with_) => spoiled.unshift([address, with_]),
    stop: async () => {
      await client.close()
      await network.disable()
    },
  }
}

export const NEW_YORK: WeatherRequest = {
  place: { latDeg: 40.7, lonDeg: -74, elevationM: 10 },
  nowEpochH: epochHoursOf(Temporal.Instant.from('2020-07-20T11:44:31Z')),
}

export interface Asked<T> {
  /** Addresses on which faults are put. */
  readonly address: RegExp
  /** @param later moves the moment of asking [h]. */
  readonly fetch: (client: HttpClient, later?: number) => Promise<T>
}

const laterBy = <R extends WeatherRequest>(request: R, hours = 0): R => ({
  ...request,
  nowEpochH: request.nowEpochH + hours,
})

export const FORECASTS: { readonly [name: string]: Asked<SourceForecast> } = {
  'NWS forecast': {
    address: /weather\.gov\/gridpoints\/OAX\/59,58(?:\/forecast\/hourly)?$/,
    fetch: (client, later) => nwsSources(client).forecast.fetch(laterBy(nebraska(), later)),
  },
  'MET Norway': {
    address: /met\.no\/.*\/complete$/,
    fetch: (client, later) => metnoForecast(client).fetch(laterBy(NEW_YORK, later)),
  },
  'Open-Meteo': {
    address: /\/\/api\.open-meteo\.com\/v1\/forecast$/,
    fetch: (client, later) => openMeteoForecast(client).fetch(laterBy(nebraska(), later)),
  },
  'Open-Meteo ensemble': {
    address: /ensemble-api\.open-meteo\.com\/v1\/ensemble$/,
    fetch: (client, later) => openMeteoEnsemble(client).fetch(laterBy(nebraska(), later)),
  },
}

const pastLaterBy = (past: HistoryRequest, hours = 0): HistoryRequest => {
  const request = laterBy(past, hours)
  return { ...request, fromEpochH: request.fromEpochH + hours, toEpochH: request.toEpochH + hours }
}

export const HISTORIES: { readonly [name: string]: Asked<SourceHistory> } = {
  'Open-Meteo archive': {
    address: /archive-api\.open-meteo\.com\/v1\/archive$/,
    fetch: (client, later) => openMeteoHistory(client).fetch(pastLaterBy(monthAgo(), later)),
  },
  'Open-Meteo, last days': {
    address: /\/\/api\.open-meteo\.com\/v1\/forecast$/,
    fetch: (client, later) => openMeteoHistory(client).fetch(pastLaterBy(lastDays(), later)),
  },
  'NASA POWER': {
    address: /nasa\.gov\/.*\/point$/,
    fetch: (client, later) => powerHistory(client).fetch(pastLaterBy(monthAgo(), later)),
  },
}

export const REPORTS: Asked<SourceObservations> = {
  address: /\/observations$/,
  fetch: (client, later) =>
    nwsSources(client).observations.fetch({ ...laterBy(nebraska(), later), hoursBack: HOURS_BACK }),
}

export const WARNINGS: Asked<readonly Warning[]> = {
  address: /alerts\/active$/,
  fetch: (client, later) => nwsSources(client).warnings.fetch(laterBy(nebraska(), later)),
}
