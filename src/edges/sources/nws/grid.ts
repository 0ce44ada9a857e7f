/** From a place to its forecast grid: asked once per place, and again when the grid was moved. */

import { SourceRefused } from '#app/failures.ts'
import type { WeatherRequest } from '#app/ports.ts'
import type { HttpClient } from '#edges/http/client.ts'
import { checked } from '#edges/sources/reading.ts'
import { NWS_CREDIT } from './credit.ts'
import { type NwsPoints, pointsSchema } from './schema.ts'

const NOT_FOUND = 404

export class NwsGrid {
  readonly #http: HttpClient
  readonly #base: URL
  readonly #known = new Map<string, NwsPoints>()

  constructor(http: HttpClient, base: URL) {
    this.#http = http
    this.#base = base
  }

  /** Runs the work with the path of the place's grid point; once more if the service no longer knows that grid. */
  async at<T>(request: WeatherRequest, work: (gridPath: string) => Promise<T>): Promise<T> {
    const key = pointOf(request)
    const known = this.#known.get(key)
    try {
      return await work(pathOf(known ?? (await this.#ask(request, false))))
    } catch (cause) {
      const moved = cause instanceof SourceRefused && cause.status === NOT_FOUND && cause.where.includes('/gridpoints/')
      if (!moved) throw cause
      this.#known.delete(key)
      return await work(pathOf(await this.#ask(request, true)))
    }
  }

  async #ask(request: WeatherRequest, fresh: boolean): Promise<NwsPoints> {
    const key = pointOf(request)
    const url = new URL(`points/${key}`, this.#base)
    const { value } = await this.#http.getJson({
      url,
      source: NWS_CREDIT.name,
      accept: 'application/geo+json',
      signal: request.signal,
      fresh,
      read: (json) => checked(pointsSchema, json, { source: NWS_CREDIT.name, where: url.href }).properties,
    })
    this.#known.set(key, value)
    return value
  }
}

/** The service refuses more than four decimals, and trailing zeros: 41.5000 is asked for as 41.5. */
export function pointOf({ place }: WeatherRequest): string {
  const short = (deg: number) => Number(deg.toFixed(4)).toString()
  return `${short(place.latDeg)},${short(place.lonDeg)}`
}

const pathOf = ({ gridId, gridX, gridY }: NwsPoints): string => `gridpoints/${gridId}/${gridX},${gridY}`
