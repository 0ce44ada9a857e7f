/** The demo farm and its days, for tests of what is done with them. */

import { type DayMade, dayFromSources } from '#app/morning.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { loadFarm } from '#edges/config/load.ts'
import { readRecordedWeather, recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'

const AHEAD_H = 240

export async function demoFarm(change: Partial<Farm> = {}): Promise<Farm> {
  const { farm } = await loadFarm('config/demo/farm.yaml')
  return { ...farm, ...change }
}

/** @param at ISO 8601 with an offset, within the recorded autumn. */
export async function demoDay(at: string, change: Partial<Farm> = {}): Promise<DayMade & { readonly farm: Farm }> {
  const farm = await demoFarm(change)
  const source = farm.weather.find((found) => found.kind === 'recorded')
  if (!source) throw new Error('The demo farm has no recorded weather')
  const provenance = { source: 'recorded weather', attribution: source.credit, licence: source.licence, remarks: [] }
  const full = readRecordedWeather(source.file, farm.home, provenance)
  const suppliers = { forecasts: [recordedForecast(full, AHEAD_H)], observations: [recordedObservations(full)] }
  const made = await dayFromSources(farm, suppliers, epochHoursOf(Temporal.Instant.from(at)), undefined)
  return { ...made, farm }
}
