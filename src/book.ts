/** The farm's book as the commands use it: opened, seeded from the farm file, with the moment. */
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { type FieldChange, farmFromBook, seedFields } from '#app/farm-fields.ts'
import type { ForecastStore } from '#app/forecasts-port.ts'
import type { PlanStore } from '#app/plan-store.ts'
import type { Book } from '#app/records.ts'
import type { RecordStore } from '#app/records-port.ts'
import type { WeatherStore } from '#app/weather-store.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Environment } from '#edges/config/environment.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { startOf } from './suppliers.ts'

export interface OpenBook extends Book {
  readonly forecasts: ForecastStore
  readonly plans: PlanStore
  close(): Promise<void>
}

/** @param file the farm as read from its file. @param log told what the file changed. */
export async function openBook(file: Farm, environment: Environment, log: (line: string) => void): Promise<OpenBook> {
  mkdirSync(environment.THRESHDAY_DATA, { recursive: true })
  const database = await openAt<RecordTables & ForecastTables & PlanTables>(databaseIn(environment))
  const store = recordStore(database)
  const nowEpochH = nowAt(file)
  for (const line of await readFarmFile(file, store, nowEpochH)) log(line)
  return {
    farm: await farmFromBook(file, store),
    store,
    nowEpochH,
    forecasts: forecastStore(database),
    plans: planStore(database),
    close: () => database.destroy(),
  }
}

/** What the service has kept of the weather is at hand for the commands too. */
export async function weatherStoreIn(environment: Environment): Promise<WeatherStore> {
  mkdirSync(environment.THRESHDAY_DATA, { recursive: true })
  return await openWeatherStore(databaseIn(environment))
}

/** Takes over what changed in the farm file. @returns what that was, line by line. */
export async function readFarmFile(file: Farm, store: RecordStore, nowEpochH: number): Promise<string[]> {
  const changes = await seedFields(file, store, nowEpochH)
  // The first reading of a file adds all of it: that is no news.
  return changes.every(({ kind }) => kind === 'added') ? [] : changes.map(sayChange)
}

/** Address of the one database for all that a farm keeps: a server, or a file in the data folder. */
export const databaseIn = ({ THRESHDAY_DATABASE: server, THRESHDAY_DATA: folder }: Environment): string =>
  server ?? join(folder, 'threshday.sqlite')

/** Whether anything can have been kept yet: a server is asked, a file must be there. */
export const hasDatabase = (environment: Environment): boolean =>
  environment.THRESHDAY_DATABASE !== undefined || existsSync(databaseIn(environment))

/** Now, or where the demo's clock starts. */
function nowAt(farm: Farm): number {
  const recorded = farm.weather.find((source) => source.kind === 'recorded')
  return recorded ? startOf(recorded, farm) : epochHoursOf(Temporal.Now.instant())
}

export function sayChange(change: FieldChange): string {
  switch (change.kind) {
    case 'added':
      return `${change.field}: new in the farm file`
    case 'gone':
      return `${change.field}: no longer in the farm file, left out from now on; what was told of it is kept`
    case 'changed':
      return `${change.field}: ${change.what} changed as in the farm file`
    case 'differs':
      return `${change.field}: ${change.what} was changed both in the farm file and since; what was told since stands`
  }
}
