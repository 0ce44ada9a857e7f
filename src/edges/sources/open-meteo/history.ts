/**
 * Open-Meteo's past: the reanalysis of its archive up to some days ago, and the first hours of its runs since then.
 * The same consent of the farm, the same terms and the same form of answer as its forecasts.
 */

import type { HistoryRequest, HistorySource, SourceHistory } from '#app/ports.ts'
import { HOURS_PER_DAY, instantOf } from '#core/units/time.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { acceptedPast } from '#edges/sources/need.ts'
import { joinedHours } from '#edges/sources/past-hours.ts'
import { checked } from '#edges/sources/reading.ts'
import { OPEN_METEO_CREDIT } from './credit.ts'
import { type OpenMeteoSettings, placeIn } from './question.ts'
import { hourlyAnswerSchema } from './schema.ts'
import { ENSEMBLE_VARIABLES as PAST_VARIABLES, pastFromHourlyAnswer } from './to-weather.ts'

const FREE_ARCHIVE = 'https://archive-api.open-meteo.com/v1/'
const PAID_ARCHIVE = 'https://customer-archive-api.open-meteo.com/v1/'
const FREE = 'https://api.open-meteo.com/v1/'
const PAID = 'https://customer-api.open-meteo.com/v1/'
/** The archive is some five days behind (from memory); a day more, for it may be late. */
const ARCHIVE_LAG_DAYS = 6
/** The forecast host has so many days of its own past. */
const RECENT_DAYS = 92
/** The archive goes back to 1940; no further than a long memory is asked. */
const SINCE_EPOCH_H = -20 * 365.25 * HOURS_PER_DAY

export function openMeteoHistory(http: HttpClient, settings: OpenMeteoSettings = {}): HistorySource {
  const { address, apiKey } = settings
  const archive = address ?? (apiKey === undefined ? FREE_ARCHIVE : PAID_ARCHIVE)
  const forecast = address ?? (apiKey === undefined ? FREE : PAID)
  return {
    id: 'open-meteo',
    ...OPEN_METEO_CREDIT,
    needsConsent: true,
    lagH: 0,
    sinceEpochH: SINCE_EPOCH_H,
    fetch: async (request) => {
      const today = Math.floor(request.nowEpochH / HOURS_PER_DAY)
      const seamEpochH = (today - ARCHIVE_LAG_DAYS) * HOURS_PER_DAY
      const firstRecentEpochH = (today - RECENT_DAYS + 1) * HOURS_PER_DAY
      const { fromEpochH, toEpochH } = request
      const pieces: SourceHistory[] = []
      if (fromEpochH < seamEpochH) {
        const until = Math.min(toEpochH, seamEpochH)
        pieces.push(await ask(http, new URL('archive', archive), { ...request, toEpochH: until }, settings))
      }
      if (toEpochH > seamEpochH) {
        const from = Math.max(fromEpochH, seamEpochH, firstRecentEpochH)
        pieces.push(await ask(http, new URL('forecast', forecast), { ...request, fromEpochH: from }, settings))
      }
      return joinedHours(pieces, request)
    },
  }
}

async function ask(
  http: HttpClient,
  url: URL,
  { place, fromEpochH, toEpochH, signal }: HistoryRequest,
  settings: OpenMeteoSettings,
): Promise<SourceHistory> {
  const told = { source: OPEN_METEO_CREDIT.name, where: `${url.origin}${url.pathname}` }
  placeIn(url, PAST_VARIABLES, place, settings)
  const day = (epochH: number) => instantOf(epochH).toString().slice(0, 10)
  url.searchParams.set('start_date', day(fromEpochH))
  // The last hour runs to the stamp that ends it, be it the first of the next day.
  url.searchParams.set('end_date', day(toEpochH))
  const grid = { startEpochH: fromEpochH, hours: toEpochH - fromEpochH }
  const { value, rawHash, notes } = await http.getJson({
    url,
    source: OPEN_METEO_CREDIT.name,
    signal,
    read: (json) => {
      const answer = checked(hourlyAnswerSchema, json, told)
      return acceptedPast(pastFromHourlyAnswer(answer, place, grid, told), grid.hours, told.where)
    },
  })
  return { weather: value, rawHash, notes }
}
