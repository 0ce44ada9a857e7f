/** Weather services that can be switched off, over recorded weather: they know nothing later than their lead. */

import { SourceUnreachable } from '#app/failures.ts'
import type { ForecastSource, ObservationSource } from '#app/ports.ts'
import type { Weather } from '#core/units/weather.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'

/** How far back stations can be asked, as with real services [h]. */
const STATION_REACH_H = 7 * 24
const AHEAD_H = 240

export interface FakeService {
  readonly forecast: ForecastSource
  readonly observations: ObservationSource
  /** Calls that reached the service, answered or not. */
  readonly calls: { forecast: number; observations: number }
  readonly hoursAsked: number[]
  isUp: boolean
  /** Most calls that were open at the same time. */
  mostOpen: number
}

/** @param change what this service makes of the recorded weather. */
export function fakeService(
  id: string,
  full: Weather,
  change: (weather: Weather) => Weather = (same) => same,
): FakeService {
  const ahead = recordedForecast(full, AHEAD_H)
  const past = recordedObservations(full)
  let open = 0
  const service: FakeService = {
    calls: { forecast: 0, observations: 0 },
    hoursAsked: [],
    isUp: true,
    mostOpen: 0,
    forecast: {
      ...ahead,
      id,
      name: `service ${id}`,
      fetch: (request) =>
        answer('forecast', async () => {
          const found = await ahead.fetch(request)
          // Issued on the hour, good for an hour.
          const issuedAtEpochH = Math.floor(request.nowEpochH)
          const weather = change(found.weather)
          return {
            ...found,
            weather: { ...weather, provenance: { ...weather.provenance, source: `service ${id}`, issuedAtEpochH } },
            expiresAtEpochH: issuedAtEpochH + 1,
          }
        }),
    },
    observations: {
      ...past,
      id,
      name: `service ${id}`,
      fetch: (request) =>
        answer('observations', async () => {
          service.hoursAsked.push(request.hoursBack)
          return await past.fetch({ ...request, hoursBack: Math.min(STATION_REACH_H, request.hoursBack) })
        }),
    },
  }
  async function answer<T>(kind: 'forecast' | 'observations', give: () => Promise<T>): Promise<T> {
    service.calls[kind]++
    open++
    service.mostOpen = Math.max(service.mostOpen, open)
    await new Promise((resolve) => setImmediate(resolve))
    try {
      if (!service.isUp) throw new SourceUnreachable('does not answer', { source: `service ${id}`, where: 'nowhere' })
      return await give()
    } finally {
      open--
    }
  }
  return service
}
