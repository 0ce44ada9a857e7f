/** What every question to Open-Meteo says alike: where, what, in which units and on whose account. */
import type { Place } from '#core/units/weather.ts'

export interface OpenMeteoSettings {
  /** Key of a paying customer; sent to the customer hosts unless an address is given. */
  readonly apiKey?: string
  /** Own server, such as `http://localhost:8080/v1/`. */
  readonly address?: string
  readonly ensembleAddress?: string
  /** Ensembles in order of preference: names have changed, so an unknown one is passed over. */
  readonly ensembleModels?: readonly string[]
}

/** Writes it into the address. */
export function placeIn(url: URL, variables: readonly string[], place: Place, { apiKey }: OpenMeteoSettings): void {
  const set = (name: string, value: string) => url.searchParams.set(name, value)
  set('latitude', place.latDeg.toFixed(4))
  set('longitude', place.lonDeg.toFixed(4))
  set('elevation', Math.round(place.elevationM).toString())
  set('hourly', variables.join(','))
  // Local times of this service carry one offset for the whole answer, wrong after a clock change: always ask for GMT.
  set('timezone', 'GMT')
  set('wind_speed_unit', 'ms')
  if (apiKey !== undefined) set('apikey', apiKey)
}
