/** The US National Weather Service, api.weather.gov: forecasts, station reports and warnings for the United States. */

import { SourceFailure, SourceRefused, SourceTooThin, SourceUnreachable, SourceUnreadable } from '#app/failures.ts'
import type {
  ForecastSource,
  ObservationRequest,
  ObservationSource,
  SourceForecast,
  SourceObservations,
  Station,
  WarningSource,
  WeatherRequest,
} from '#app/ports.ts'
import { distanceKm } from '#core/units/sphere.ts'
import { instantOf } from '#core/units/time.ts'
import type { Place } from '#core/units/weather.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { accepted, FORECAST_NEED, type Need, refuseIfThin } from '#edges/sources/need.ts'
import { checked, type ForecastParts, type Told } from '#edges/sources/reading.ts'
import { screened } from '#edges/sources/screen.ts'
import { intoOurs } from '#edges/sources/units.ts'
import { NWS_CREDIT } from './credit.ts'
import { NwsGrid, pointOf } from './grid.ts'
import { weatherFromHourly } from './hourly.ts'
import { weatherFromObservations } from './observations.ts'
import {
  alertsSchema,
  gridpointSchema,
  hourlySchema,
  type NwsStation,
  observationsSchema,
  stationsSchema,
} from './schema.ts'
import { weatherFromGridpoint } from './to-weather.ts'
import { warningsInForce } from './warnings.ts'

export const NWS_ADDRESS = 'https://api.weather.gov/'
const SOURCE = NWS_CREDIT.name
const GEO_JSON = 'application/geo+json'
/** The text forecast has no amounts of rain: it is taken without them, and the weather says so. */
const HOURLY_NEED: Need = { ...FORECAST_NEED, variables: ['airTempC', 'relHumidity', 'windMs', 'solarWm2'] }
/** Rain and sunlight are missing from many stations; temperature, humidity and wind may not be. */
const OBSERVED_VARIABLES = ['airTempC', 'relHumidity', 'windMs'] as const
const OBSERVED_SHARE = 0.5
const MOST_STATIONS = 3
const FARTHEST_STATION_KM = 80
/** The service keeps about a week of reports. */
const MOST_HOURS_BACK = 7 * 24

export interface NwsSources {
  readonly forecast: ForecastSource
  readonly observations: ObservationSource
  readonly warnings: WarningSource
}

export function nwsSources(http: HttpClient, address: string = NWS_ADDRESS): NwsSources {
  const base = new URL(address)
  const grid = new NwsGrid(http, base)
  const credit = { id: 'nws', ...NWS_CREDIT }
  return {
    forecast: { ...credit, fetch: (request) => grid.at(request, (path) => forecast(http, base, path, request)) },
    observations: { ...credit, fetch: (request) => grid.at(request, (path) => observed(http, base, path, request)) },
    warnings: { ...credit, fetch: (request) => warnings(http, base, request) },
  }
}

async function forecast(http: HttpClient, base: URL, path: string, request: WeatherRequest): Promise<SourceForecast> {
  try {
    return await gridded(http, new URL(path, base), request)
  } catch (cause) {
    const isDown = cause instanceof SourceUnreachable || (cause instanceof SourceRefused && cause.status >= 500)
    if (!isDown || request.signal?.aborted === true) throw cause
    try {
      const text = await hourly(http, new URL(`${path}/forecast/hourly`, base), request)
      return { ...text, notes: [...text.notes, `The gridded forecast could not be had: ${cause.message}`] }
    } catch (second) {
      // The first failure says what is wrong; that of the way out only that it was shut too.
      throw second instanceof SourceFailure ? cause : second
    }
  }
}

async function gridded(http: HttpClient, url: URL, request: WeatherRequest): Promise<SourceForecast> {
  return await forecastFrom(http, url, request, FORECAST_NEED, (json, told) =>
    weatherFromGridpoint(checked(gridpointSchema, json, told), request.place, request.nowEpochH, told),
  )
}

async function hourly(http: HttpClient, url: URL, request: WeatherRequest): Promise<SourceForecast> {
  url.searchParams.set('units', 'si')
  return await forecastFrom(http, url, request, HOURLY_NEED, (json, told) =>
    weatherFromHourly(checked(hourlySchema, json, told), request.place, request.nowEpochH, told),
  )
}

async function forecastFrom(
  http: HttpClient,
  url: URL,
  request: WeatherRequest,
  need: Need,
  read: (json: unknown, told: Told) => ForecastParts,
): Promise<SourceForecast> {
  const told = { source: SOURCE, where: url.href }
  const { value, ...rest } = await http.getJson({
    url,
    source: SOURCE,
    accept: GEO_JSON,
    signal: request.signal,
    read: (json) => accepted(read(json, told), need, url.href),
  })
  return { ...value, ...rest }
}

/** The nearest station that has enough to say. */
async function observed(
  http: HttpClient,
  base: URL,
  path: string,
  request: ObservationRequest,
): Promise<SourceObservations> {
  const hoursBack = Math.min(MOST_HOURS_BACK, Math.max(1, Math.floor(request.hoursBack)))
  const stations = await stationsNear(http, new URL(`${path}/stations`, base), request)
  const notes: string[] = []
  let last: unknown = new SourceUnreadable('knows no weather station near this place', {
    source: SOURCE,
    where: `${path}/stations`,
    why: 'no-station',
    cure: `None lies within ${FARTHEST_STATION_KM} km; the forecast has to do.`,
  })
  for (const station of stations) {
    try {
      const reports = await reportsOf(http, base, station, hoursBack, request)
      return { ...reports, station, notes: [...notes, ...reports.notes] }
    } catch (cause) {
      if (!(cause instanceof SourceFailure) || request.signal?.aborted === true) throw cause
      notes.push(`Station ${station.id} passed over: ${cause.message}`)
      last = cause
    }
  }
  throw last
}

async function stationsNear(http: HttpClient, url: URL, request: WeatherRequest): Promise<readonly Station[]> {
  const { value } = await http.getJson({
    url,
    source: SOURCE,
    accept: GEO_JSON,
    signal: request.signal,
    read: (json) => checked(stationsSchema, json, { source: SOURCE, where: url.href }).features,
  })
  return value
    .map((station) => stationOf(station, request.place, url))
    .filter((station) => station.distanceKm <= FARTHEST_STATION_KM)
    .sort((a, b) => a.distanceKm - b.distanceKm)
    .slice(0, MOST_STATIONS)
}

function stationOf({ geometry, properties }: NwsStation, from: Place, url: URL): Station {
  const { stationIdentifier: id, name, elevation } = properties
  const told = { source: SOURCE, where: url.href }
  const elevationM =
    elevation?.value === undefined || elevation.value === null
      ? from.elevationM
      : intoOurs('height', elevation.unitCode, 'elevation', told)(elevation.value)
  const place = { latDeg: geometry.coordinates[1]!, lonDeg: geometry.coordinates[0]!, elevationM }
  return { id, name: name ?? id, place, distanceKm: distanceKm(from, place) }
}

async function reportsOf(
  http: HttpClient,
  base: URL,
  station: Station,
  hoursBack: number,
  { nowEpochH, signal }: ObservationRequest,
): Promise<Omit<SourceObservations, 'station'>> {
  const endEpochH = Math.floor(nowEpochH)
  const url = new URL(`stations/${station.id}/observations`, base)
  url.searchParams.set('start', instantOf(endEpochH - hoursBack).toString())
  url.searchParams.set('end', instantOf(endEpochH).toString())
  const told = { source: SOURCE, where: url.href }
  const { value, rawHash, notes } = await http.getJson({
    url,
    source: SOURCE,
    accept: GEO_JSON,
    signal,
    read: (json) => {
      const reports = checked(observationsSchema, json, told).features.map(({ properties }) => properties)
      if (reports.length === 0) throw new SourceTooThin('all', 0, told)
      const weather = screened(weatherFromObservations(reports, station.place, nowEpochH, hoursBack, told), 'observed')
      return refuseIfThin(weather, { variables: OBSERVED_VARIABLES, share: OBSERVED_SHARE, hours: hoursBack }, url.href)
    },
  })
  return { weather: value, rawHash, notes }
}

async function warnings(http: HttpClient, base: URL, request: WeatherRequest) {
  const url = new URL('alerts/active', base)
  url.searchParams.set('point', pointOf(request))
  url.searchParams.set('status', 'actual')
  const told = { source: SOURCE, where: url.href }
  const { value } = await http.getJson({
    url,
    source: SOURCE,
    accept: GEO_JSON,
    signal: request.signal,
    read: (json) =>
      warningsInForce(
        checked(alertsSchema, json, told).features.map(({ properties }) => properties),
        request.nowEpochH,
        told,
      ),
  })
  return value
}
