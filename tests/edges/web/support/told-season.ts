/** The demo in the midst of its harvest: cuts, loads, readings and decisions told, forecasts kept, the week planned. */

import { dayPlanner } from '#app/day-planner.ts'
import { decide } from '#app/decisions.ts'
import { seedFields } from '#app/farm-fields.ts'
import type { ForecastStore } from '#app/forecasts-port.ts'
import { forecastsOf } from '#app/kept-forecasts.ts'
import { decidedBy } from '#app/kept-plans.ts'
import { type DayMade, dayFromSources } from '#app/morning.ts'
import { takeCut, takeReading } from '#app/records.ts'
import type { RecordStore } from '#app/records-port.ts'
import type { Service } from '#app/service.ts'
import { toldInBook } from '#app/told.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { readRecordedWeather, recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { demoFarmOf } from './demo-service.ts'

const AHEAD_H = 240
const HA_PER_ACRE = 0.40468564224
const at = (text: string): number => epochHoursOf(Temporal.Instant.from(`${text}:00-05:00`))
const NOW = at('2010-10-02T06:00')
const MORNINGS = ['2010-09-28T05:30', '2010-09-29T05:30', '2010-09-30T05:30', '2010-10-01T05:30']

/** Field, end of the cut, acres, bushels on the scale where weighed, moisture where measured. */
const CUTS: readonly (readonly [string, string, number, (number | undefined)?, number?])[] = [
  ['Mill Forty', '2010-09-29T18:00', 39, 2110, 11.4],
  ['Twin Elms', '2010-09-30T13:40', 60, 3080, 12.1],
  ['Twin Elms', '2010-09-30T17:10', 56, 2840, 10.2],
  ['Dry Slough', '2010-10-01T15:00', 90, 4500, 13.6],
  ['Dry Slough', '2010-10-01T19:30', 110, undefined, 11.2],
  ['Lone Oak', '2010-10-01T20:30', 20],
]
const READINGS: readonly (readonly [string, string, number])[] = [
  ['Creek Bottom', '2010-09-29T15:00', 14.2],
  ['Creek Bottom', '2010-10-01T14:00', 12.6],
  ['Creek Bottom/The slump', '2010-10-01T14:20', 17.5],
  ['Dry Slough', '2010-10-01T15:00', 13.3],
]

export interface ToldSeason {
  readonly service: Service
  readonly records: RecordStore
  readonly forecasts: ForecastStore
}

export async function toldSeason(): Promise<ToldSeason> {
  const { farm, source } = await demoFarmOf()
  const database = await openAt<RecordTables & ForecastTables>(':memory:')
  const [records, forecasts] = [recordStore(database), forecastStore(database)]
  const provenance = { source: 'recorded weather', attribution: source.credit, licence: source.licence, remarks: [] }
  const full = readRecordedWeather(source.file, farm.home, provenance)
  const suppliers = { forecasts: [recordedForecast(full, AHEAD_H)], observations: [recordedObservations(full)] }
  await seedFields(farm, records, at(MORNINGS[0]!))
  const book = { farm, store: records, nowEpochH: NOW }

  for (const morning of MORNINGS) {
    const { day } = await dayFromSources(farm, suppliers, at(morning), undefined)
    await forecasts.keepForecasts(forecastsOf(day!))
  }
  for (const [field, time, acres, bushels, moistureWb] of CUTS) {
    // Bushels of beans as weighed, 60 lb (USDA standard test weight).
    const massT = bushels === undefined ? undefined : (bushels * 60 * 0.45359237) / 1000
    kept(await takeCut(book, { field, by: 'bert-quill', at: at(time), areaHa: acres * HA_PER_ACRE, massT, moistureWb }))
  }
  for (const [where, time, moistureWb] of READINGS) {
    const [field, patch] = where.split('/')
    const instrument = { kind: 'hand' } as const
    kept(await takeReading(book, { field: field!, patch, by: 'bert-quill', at: at(time), moistureWb, instrument }))
  }
  const date = (day: number) => Temporal.PlainDate.from({ year: 2010, month: 10, day })
  const keepOff = { partKey: 'creek-bottom', from: date(2), to: date(3) }
  kept(await decide(book, { kind: 'keep-off', keepOff }, 'wim-tallow'))
  const pin = { partKey: 'creek-bottom', date: date(5) }
  kept(await decide(book, { kind: 'pin', pin }, 'wim-tallow'))

  const planner = dayPlanner(undefined, () => {}, { trials: 60, explain: false })
  let made: Promise<DayMade> | undefined
  const make = async (): Promise<DayMade> => {
    const known = await toldInBook(farm, records, NOW, forecasts)
    const decided = await decidedBy(known.farm, NOW, undefined, records)
    const planning = { planner, rules: decided.rules }
    return await dayFromSources(decided.farm, suppliers, NOW, undefined, undefined, known.told, planning)
  }
  return {
    service: {
      farm,
      current: () => {
        made ??= make()
        return made
      },
      tick: () => Promise.resolve(),
      changed: () => {
        made = undefined
      },
      clock: () => NOW,
    },
    records,
    forecasts,
  }
}

function kept(answer: { readonly kind: string }): void {
  if (answer.kind !== 'kept') throw new Error(JSON.stringify(answer))
}
