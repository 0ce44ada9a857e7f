/**
 * NASA POWER: the past of any place on earth, hour by hour since 2001, without key or consent. Reanalysis in cells of
 * about 50 km, its rain the least sure of it; stations and forecasts seen live go before it.
 */

import type { HistoryRequest, HistorySource, SourceHistory } from '#app/ports.ts'
import { epochHourOf, HOURS_PER_DAY, instantOf } from '#core/units/time.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { acceptedPast } from '#edges/sources/need.ts'
import { checked } from '#edges/sources/reading.ts'
import { POWER_CREDIT } from './credit.ts'
import { powerAnswerSchema } from './schema.ts'
import { POWER_PARAMETERS, weatherFromPower } from './to-weather.ts'

const ADDRESS = 'https://power.larc.nasa.gov/api/temporal/hourly/'
/** "Hourly UTC and LST time standards data are available from 2001" (its documentation). */
const SINCE_EPOCH_H = epochHourOf(Temporal.Instant.from('2001-01-01T00:00Z'))
/** "Within several days of real time" (same): asked from three days on, and what is not there yet again later. */
const LAG_H = 3 * HOURS_PER_DAY

export function powerHistory(http: HttpClient, address: string = ADDRESS): HistorySource {
  return {
    id: 'nasa-power',
    ...POWER_CREDIT,
    lagH: LAG_H,
    sinceEpochH: SINCE_EPOCH_H,
    fetch: (request) => ask(http, new URL('point', address), request),
  }
}

async function ask(http: HttpClient, url: URL, request: HistoryRequest): Promise<SourceHistory> {
  const { place, fromEpochH, toEpochH, signal } = request
  const told = { source: POWER_CREDIT.name, where: `${url.origin}${url.pathname}` }
  const day = (epochH: number) => instantOf(epochH).toString().slice(0, 10).replaceAll('-', '')
  const set = (name: string, value: string) => url.searchParams.set(name, value)
  set('parameters', POWER_PARAMETERS.join(','))
  set('community', 'RE')
  set('latitude', place.latDeg.toFixed(4))
  set('longitude', place.lonDeg.toFixed(4))
  set('start', day(fromEpochH))
  set('end', day(toEpochH - 1))
  set('format', 'JSON')
  set('time-standard', 'UTC')
  const grid = { startEpochH: fromEpochH, hours: toEpochH - fromEpochH }
  const { value, rawHash, notes } = await http.getJson({
    url,
    source: POWER_CREDIT.name,
    signal,
    read: (json) => {
      const answer = checked(powerAnswerSchema, json, told)
      return acceptedPast(weatherFromPower(answer, place, grid, told), grid.hours, told.where)
    },
  })
  return { weather: value, rawHash, notes }
}
