/** The demo farm with its planner at work: service, book, plans and desk in memory, the clock where a test puts it. */

import { farmFileAddresses } from '#app/addresses.ts'
import { dayPlanner } from '#app/day-planner.ts'
import { seedFields } from '#app/farm-fields.ts'
import { noLinks } from '#app/links.ts'
import type { Day } from '#app/make-day.ts'
import { Outbox } from '#app/outbox.ts'
import { type PlanDesk, planDesk } from '#app/plan-desk.ts'
import type { PlanStore } from '#app/plan-store.ts'
import type { RecordStore } from '#app/records-port.ts'
import { leftOver, type SeasonAhead, seasonOf } from '#app/season-ahead.ts'
import { type Service, startService } from '#app/service.ts'
import type { Solver } from '#app/solver-port.ts'
import { weekWork } from '#app/week-work.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Weather } from '#core/units/weather.ts'
import {
  readRecordedWeather,
  recordedForecast,
  recordedObservations,
  recordedYears,
} from '#edges/sources/recorded/index.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type PlanTables, planStore } from '#edges/storage/plan-store.ts'
import { type RecordTables, recordStore } from '#edges/storage/records.ts'
import { DEMO_NOW, loadDemo } from './demo-day.ts'

const AHEAD_H = 240

export interface DemoPlanning {
  readonly farm: Farm
  readonly service: Service
  readonly records: RecordStore
  readonly plans: PlanStore
  readonly desk: PlanDesk
  setClock(epochH: number): void
}

export interface DemoPlanningChange {
  readonly farm?: (farm: Farm) => Farm
  /** No source of weather answers. */
  readonly noWeather?: boolean
  /** What past years let expect; the demo's own years: `demoSeason`. */
  readonly seasonOf?: (day: Day) => Promise<SeasonAhead | undefined>
}

/** @param solver absent = plans by hand. */
export async function demoPlanning(solver: Solver | undefined, change: DemoPlanningChange = {}): Promise<DemoPlanning> {
  const demo = await loadDemo()
  const farm = change.farm?.(demo.farm) ?? demo.farm
  const database = await openAt<DayTables & OutboxTables & RecordTables & PlanTables>(':memory:')
  const records = recordStore(database)
  const plans = planStore(database)
  await seedFields(farm, records, DEMO_NOW)
  let now = DEMO_NOW
  const clock = () => now
  const carried = outboxStore(database)
  const service = startService({
    farm,
    suppliers: change.noWeather ? { forecasts: [], observations: [] } : recorded(demo.weather),
    store: dayStore(database),
    outboxStore: carried,
    outbox: new Outbox({ store: carried, carriers: [], owner: 'test', clock, random: () => 0.5 }),
    addresses: farmFileAddresses,
    links: noLinks,
    book: records,
    planner: dayPlanner(solver, () => {}),
    plans,
    clock,
    log: () => {},
  })
  const { seasonOf: season } = change
  const desk = planDesk({ service, records, plans, work: weekWork(solver), ...(season && { seasonOf: season }) })
  return {
    farm,
    service,
    records,
    plans,
    desk,
    setClock: (epochH) => {
      now = epochH
    },
  }
}

/** From the fourteen years that come with the demo. */
export async function demoSeason(day: Day): Promise<SeasonAhead | undefined> {
  const source = day.farm.weather.find(({ kind }) => kind === 'recorded')
  if (source?.kind !== 'recorded' || !source.years) throw new Error('The demo has no earlier years')
  const { years } = source
  const credit = { source: 'recorded weather', attribution: '', licence: 'MIT', remarks: [] }
  return await seasonOf(
    day,
    recordedYears(() => readRecordedWeather(years, day.farm.home, credit)),
    leftOver(day),
  )
}

const recorded = (weather: Weather) => ({
  forecasts: [recordedForecast(weather, AHEAD_H)],
  observations: [recordedObservations(weather)],
})
