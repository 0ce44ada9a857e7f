/** The demo farm as a service in memory, its clock standing still at the recorded morning. */
import { fileURLToPath } from 'node:url'
import type { Suppliers } from '#app/find-weather.ts'
import { type DayMade, dayBefore, dayFromSources } from '#app/morning.ts'
import type { Service } from '#app/service.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { loadFarm } from '#edges/config/load.ts'
import { readRecordedWeather, recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'

export const DEMO_FARM = fileURLToPath(new URL('../../../../config/demo/farm.yaml', import.meta.url))
const AHEAD_H = 240

export interface DemoChange {
  readonly farm?: (farm: Farm) => Farm
  /** Hours after the demo's start. */
  readonly laterH?: number
  /** Every asking for weather fails. */
  readonly noWeather?: boolean
}

let unchanged: Promise<Service> | undefined

/** The demo, or a changed one; the unchanged one is made once for all that ask. */
export function demoService(change?: DemoChange): Promise<Service> {
  if (change) return changedDemo(change)
  unchanged ??= changedDemo({})
  return unchanged
}

/** The demo farm, and the recorded weather that its file names. */
export async function demoFarmOf(change?: DemoChange['farm']) {
  const { farm: read } = await loadFarm(DEMO_FARM)
  const farm = change?.(read) ?? read
  const source = farm.weather.find((found) => found.kind === 'recorded')
  if (!source) throw new Error('The demo farm has no recorded weather')
  return { farm, source }
}

async function changedDemo(change: DemoChange): Promise<Service> {
  const { farm, source } = await demoFarmOf(change.farm)
  const full = readRecordedWeather(source.file, farm.home, {
    source: 'recorded weather',
    attribution: source.credit,
    licence: source.licence,
    remarks: [],
  })
  const suppliers: Suppliers = change.noWeather
    ? { forecasts: [], observations: [] }
    : { forecasts: [recordedForecast(full, AHEAD_H)], observations: [recordedObservations(full)] }
  const now = epochHoursOf(source.clock.toZonedDateTime(farm.timeZone).toInstant()) + (change.laterH ?? 0)
  let made: Promise<DayMade> | undefined
  return {
    farm,
    current: () => {
      made ??= dayFromSources(farm, suppliers, now, dayBefore(farm, suppliers, now))
      return made
    },
    tick: () => Promise.resolve(),
    changed: () => {
      made = undefined
    },
    clock: () => now,
  }
}
