/** The weather suppliers that a farm asks for, made from the edges. */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import type { Suppliers } from '#app/find-weather.ts'
import type { ForecastSource, HistorySource, ObservationSource, WarningSource } from '#app/ports.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { RECORDED } from '#core/units/weather.ts'
import { type Environment, EnvironmentError } from '#edges/config/environment.ts'

export interface ChosenSuppliers {
  readonly suppliers: Suppliers
  /** Where the demo's clock starts, hours since the epoch; absent for live weather. */
  readonly startEpochH?: number
  /** Whether the suppliers can be asked for any moment, not only for now. */
  readonly replayable: boolean
}

const RECORDED_AHEAD_H = 240

export async function suppliersOf(farm: Farm, environment: Environment): Promise<ChosenSuppliers> {
  const recorded = farm.weather.find((source) => source.kind === 'recorded')
  if (recorded) {
    const { readRecordedWeather, recordedForecast, recordedObservations, recordedYears } = await import(
      '#edges/sources/recorded/index.ts'
    )
    const { file, years, credit: attribution, licence } = recorded
    const provenance = { source: RECORDED, attribution, licence, remarks: [] }
    const full = readRecordedWeather(file, farm.home, provenance)
    return {
      suppliers: {
        forecasts: [recordedForecast(full, RECORDED_AHEAD_H)],
        observations: [recordedObservations(full)],
        ...(years !== undefined && {
          earlierYears: recordedYears(() => readRecordedWeather(years, farm.home, provenance)),
        }),
      },
      startEpochH: startOf(recorded, farm),
      replayable: true,
    }
  }
  const contact = environment.THRESHDAY_CONTACT
  if (contact === undefined)
    throw new EnvironmentError([
      '  THRESHDAY_CONTACT is not set: live weather services want to know whom to write to. Set it to a mail or web address.',
    ])
  const { HttpClient } = await import('#edges/http/client.ts')
  const { nwsSources } = await import('#edges/sources/nws/index.ts')
  const { metnoForecast } = await import('#edges/sources/metno/index.ts')
  const { openMeteo } = await import('#edges/sources/open-meteo/index.ts')
  const { openMeteoHistory } = await import('#edges/sources/open-meteo/history.ts')
  const { powerHistory } = await import('#edges/sources/power/index.ts')
  mkdirSync(environment.THRESHDAY_DATA, { recursive: true })
  const http = new HttpClient({
    contact,
    clock: systemClock,
    random: Math.random,
    cachePath: join(environment.THRESHDAY_DATA, 'answers.sqlite'),
  })
  const forecasts: ForecastSource[] = []
  const observations: ObservationSource[] = []
  const history: HistorySource[] = []
  const warnings: WarningSource[] = []
  for (const source of farm.weather) {
    if (source.kind === 'national-us') {
      const nws = nwsSources(http)
      forecasts.push(nws.forecast)
      observations.push(nws.observations)
      warnings.push(nws.warnings)
    } else if (source.kind === 'global') forecasts.push(metnoForecast(http))
    else if (source.kind === 'open-aggregator') {
      const apiKey = environment.THRESHDAY_AGGREGATOR_KEY
      const { server: address } = source
      const settings = { ...(apiKey && { apiKey }), ...(address && { address }) }
      forecasts.push(openMeteo(http, settings))
      history.push(openMeteoHistory(http, settings))
    } else if (source.kind === 'global-history') history.push(powerHistory(http))
  }
  const suppliers: Suppliers = { forecasts, observations, history, warningSources: warnings }
  return { suppliers, replayable: false }
}

/** Where the clock of recorded weather starts, hours since the epoch. */
export const startOf = (
  { clock }: Extract<Farm['weather'][number], { readonly kind: 'recorded' }>,
  { timeZone }: Farm,
): number => epochHoursOf(clock.toZonedDateTime(timeZone).toInstant())

const systemClock = {
  nowMs: () => Temporal.Now.instant().epochMilliseconds,
  wait: (ms: number, signal: AbortSignal) => delay(ms, undefined, { signal }),
}
