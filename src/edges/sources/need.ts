/** When too little is known to be of use, all of it is refused. */

import { SourceTooThin } from '#app/failures.ts'
import type { Weather, WeatherVariable } from '#core/units/weather.ts'
import type { ForecastParts } from './reading.ts'
import { POSSIBLE, screened, screenedChances } from './screen.ts'

export interface Need {
  readonly variables: readonly WeatherVariable[]
  /** Share of the hours that must be known, 0-1. */
  readonly share: number
  /** How far ahead (or how much of what was asked for) this is needed [h]. */
  readonly hours: number
}

/** What a forecast must have to be of any use: the next two days, at most a quarter of them missing. */
export const FORECAST_NEED: Need = {
  variables: ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'solarWm2'],
  share: 0.75,
  hours: 48,
}
/** A series that ends sooner than this is refused as too thin [h]. */
const SHORTEST_H = 24

/** Throws when too little is known; hours after the end of a short series count as not known. */
export function refuseIfThin(weather: Weather, need: Need, where: string): Weather {
  const { source } = weather.provenance
  const asked = Math.min(need.hours, Math.max(Math.min(need.hours, SHORTEST_H), weather.hours))
  for (const variable of need.variables) {
    let known = 0
    for (let member = 0; member < weather.members; member++)
      for (let hour = 0; hour < Math.min(asked, weather.hours); hour++)
        if (!Number.isNaN(weather[variable][member * weather.hours + hour]!)) known++
    const share = known / (asked * Math.max(1, weather.members))
    if (!(share >= need.share)) throw new SourceTooThin(POSSIBLE[variable].spoken, share, { source, where })
  }
  return weather
}

/** Less than this of the hours asked for is no answer. */
const PAST_KNOWN_SHARE = 0.5

/** Screens the past of so many hours, and refuses it when too little is left. */
export const acceptedPast = (weather: Weather, hours: number, where: string): Weather =>
  refuseIfThin(
    screened(weather, 'forecast'),
    { variables: ['airTempC', 'relHumidity', 'rainMm', 'windMs'], share: PAST_KNOWN_SHARE, hours },
    where,
  )

/** Screens a forecast and its chances, and refuses it when too little is left. */
export function accepted({ weather, chances }: ForecastParts, need: Need, where: string): ForecastParts {
  return { weather: refuseIfThin(screened(weather, 'forecast'), need, where), chances: screenedChances(chances) }
}
