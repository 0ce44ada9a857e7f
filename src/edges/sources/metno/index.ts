/** MET Norway, Locationforecast 2.0: the whole world, a good second opinion. */

import type { ForecastSource } from '#app/ports.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { accepted, FORECAST_NEED } from '#edges/sources/need.ts'
import { checked } from '#edges/sources/reading.ts'
import { MET_CREDIT } from './credit.ts'
import { locationforecastSchema } from './schema.ts'
import { weatherFromLocationforecast } from './to-weather.ts'

export const MET_ADDRESS = 'https://api.met.no/weatherapi/locationforecast/2.0/'
/** The service refuses more decimals. */
const DECIMALS = 4

/** @param product `complete` carries gusts and probabilities where there are any. */
export function metnoForecast(
  http: HttpClient,
  address: string = MET_ADDRESS,
  product: 'complete' | 'compact' = 'complete',
): ForecastSource {
  return {
    id: 'metno',
    ...MET_CREDIT,
    fetch: async ({ place, nowEpochH, signal }) => {
      const url = new URL(product, address)
      url.searchParams.set('lat', place.latDeg.toFixed(DECIMALS))
      url.searchParams.set('lon', place.lonDeg.toFixed(DECIMALS))
      url.searchParams.set('altitude', Math.round(place.elevationM).toString())
      const told = { source: MET_CREDIT.name, where: url.href }
      const { value, ...rest } = await http.getJson({
        url,
        source: MET_CREDIT.name,
        signal,
        read: (json) => {
          const body = checked(locationforecastSchema, json, told)
          return accepted(weatherFromLocationforecast(body, place, nowEpochH, told), FORECAST_NEED, url.href)
        },
      })
      return { ...value, ...rest }
    },
  }
}
