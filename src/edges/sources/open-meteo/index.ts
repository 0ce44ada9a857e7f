/**
 * Open-Meteo: the whole world, single runs and ensembles. Its free host is for non-commercial use only, so this is off
 * until the farm switches it on; a farm that earns money uses its own key or its own server.
 */

import { SourceFailure, SourceRefused } from '#app/failures.ts'
import type { ForecastSource, SourceForecast, WeatherRequest } from '#app/ports.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { accepted, FORECAST_NEED } from '#edges/sources/need.ts'
import { checked } from '#edges/sources/reading.ts'
import { OPEN_METEO_CREDIT } from './credit.ts'
import { type OpenMeteoSettings, placeIn } from './question.ts'
import { hourlyAnswerSchema } from './schema.ts'
import { ENSEMBLE_VARIABLES, FORECAST_VARIABLES, weatherFromHourlyAnswer } from './to-weather.ts'

const FREE = 'https://api.open-meteo.com/v1/'
const FREE_ENSEMBLE = 'https://ensemble-api.open-meteo.com/v1/'
const PAID = 'https://customer-api.open-meteo.com/v1/'
const PAID_ENSEMBLE = 'https://customer-ensemble-api.open-meteo.com/v1/'
const MODELS = ['ecmwf_ifs025_ensemble', 'ecmwf_ifs025', 'ncep_gefs05', 'gfs05']
const FORECAST_DAYS = '11'
const BAD_REQUEST = 400

export function openMeteoForecast(http: HttpClient, settings: OpenMeteoSettings = {}): ForecastSource {
  const address = settings.address ?? (settings.apiKey === undefined ? FREE : PAID)
  return {
    id: 'open-meteo',
    ...OPEN_METEO_CREDIT,
    needsConsent: true,
    fetch: (request) => {
      const url = urlOf(new URL('forecast', address), FORECAST_VARIABLES, request, settings)
      return ask(http, url, 'single', request)
    },
  }
}

export function openMeteoEnsemble(http: HttpClient, settings: OpenMeteoSettings = {}): ForecastSource {
  const address =
    settings.ensembleAddress ?? settings.address ?? (settings.apiKey === undefined ? FREE_ENSEMBLE : PAID_ENSEMBLE)
  return {
    id: 'open-meteo-ensemble',
    ...OPEN_METEO_CREDIT,
    needsConsent: true,
    fetch: async (request) => {
      const [first, ...others] = settings.ensembleModels ?? MODELS
      let model = first ?? MODELS[0]!
      for (;;) {
        const url = urlOf(new URL('ensemble', address), ENSEMBLE_VARIABLES, request, settings)
        url.searchParams.set('models', model)
        try {
          return await ask(http, url, 'ensemble', request)
        } catch (cause) {
          const next = others.shift()
          const isUnknown = cause instanceof SourceRefused && cause.status === BAD_REQUEST
          if (!isUnknown || next === undefined) throw cause
          model = next
        }
      }
    },
  }
}

/** The ensemble, and the single run while no ensemble can be had. */
export function openMeteo(http: HttpClient, settings: OpenMeteoSettings = {}): ForecastSource {
  const ensemble = openMeteoEnsemble(http, settings)
  const single = openMeteoForecast(http, settings)
  return {
    ...single,
    fetch: async (request) => {
      try {
        return await ensemble.fetch(request)
      } catch (cause) {
        if (!(cause instanceof SourceFailure) || request.signal?.aborted === true) throw cause
        const run = await single.fetch(request)
        return { ...run, notes: [...run.notes, `The ensemble could not be had: ${cause.message}`] }
      }
    },
  }
}

function urlOf(url: URL, variables: readonly string[], request: WeatherRequest, settings: OpenMeteoSettings): URL {
  placeIn(url, variables, request.place, settings)
  url.searchParams.set('forecast_days', FORECAST_DAYS)
  return url
}

async function ask(
  http: HttpClient,
  url: URL,
  kind: 'single' | 'ensemble',
  { place, nowEpochH, signal }: WeatherRequest,
): Promise<SourceForecast> {
  const told = { source: OPEN_METEO_CREDIT.name, where: `${url.origin}${url.pathname}` }
  const { value, ...rest } = await http.getJson({
    url,
    source: OPEN_METEO_CREDIT.name,
    signal,
    read: (json) => {
      const answer = checked(hourlyAnswerSchema, json, told)
      return accepted(weatherFromHourlyAnswer(answer, place, nowEpochH, kind, told), FORECAST_NEED, told.where)
    },
  })
  return { ...value, ...rest }
}
