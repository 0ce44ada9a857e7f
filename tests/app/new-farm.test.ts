/** A farm that starts in mid-harvest: with a source of the past its fields start as if the service had watched all along. */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Suppliers } from '#app/find-weather.ts'
import type { Day } from '#app/make-day.ts'
import { dayFromSources } from '#app/morning.ts'
import type { HistorySource } from '#app/ports.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { fakeService } from '#tests/app/support/fake-sources.ts'
import { loadDemo } from '#tests/support/demo-day.ts'

const NOW = epochHoursOf(Temporal.Instant.from('2010-09-30T10:30Z'))

/** The recorded summer as a source of the past. */
const historyOf = (full: Weather): HistorySource => ({
  id: 'history',
  name: 'history',
  attribution: '',
  licence: '',
  lagH: 72,
  sinceEpochH: 0,
  fetch: async ({ fromEpochH, toEpochH }) => {
    const hours = toEpochH - fromEpochH
    const arrays = unknownWeatherArrays(1, hours)
    for (const name of WEATHER_VARIABLES)
      for (let h = 0; h < hours; h++) arrays[name][h] = full[name][fromEpochH + h - full.startEpochH] ?? Number.NaN
    return { weather: { ...full, ...arrays, startEpochH: fromEpochH, hours }, rawHash: '', notes: [] }
  },
})

let farm: Farm
let watched: Day
let helped: Day
let alone: Day
beforeAll(async () => {
  const demo = await loadDemo()
  const { weather } = demo
  farm = demo.farm
  const dayOf = async (suppliers: Suppliers) => (await dayFromSources(farm, suppliers, NOW, undefined)).day!
  const forecasts = [recordedForecast(weather, 240)]
  watched = await dayOf({ forecasts, observations: [recordedObservations(weather)] })
  const started = async (history: readonly HistorySource[]) => {
    const { observations } = fakeService('stations', weather)
    const store = await openWeatherStore(':memory:')
    const parts = { store, random: () => 0.5, log: () => undefined }
    const keeper = keepWeather({ ...parts, suppliers: { forecasts, observations: [observations], history } })
    // The same forecast for all three: what differs is the past alone.
    return await dayOf({ ...keeper.suppliers, forecasts })
  }
  helped = await started([historyOf(weather)])
  alone = await started([])
})

const largest = (a: Day, b: Day, of: (day: Day) => readonly number[]) => {
  const [left, right] = [of(a), of(b)]
  expect(left.length).toBe(right.length)
  return Math.max(...left.map((value, i) => Math.abs(value - right[i]!)))
}
const means = (values: Float32Array) => values.reduce((sum, value) => sum + value, 0) / values.length
const moisture = (day: Day) => day.states.map(({ moistureWb }) => means(moistureWb))
const topsoil = (day: Day) => day.states.map(({ depletionMm }) => means(depletionMm))
const ripe = (day: Day) => [...day.maturity.values()].map(({ matureEpochDay }) => matureEpochDay)

describe('a new farm', () => {
  it('with a source of the past knows ripeness, moisture and topsoil as if it had watched', () => {
    if (process.env.SHOW_TABLE)
      for (const [name, of] of Object.entries({ ripe, moisture, topsoil }))
        process.stdout.write(`${name}: ${largest(watched, helped, of)} with, ${largest(watched, alone, of)} without\n`)
    expect(helped.past.hours).toBe(watched.past.hours)
    expect(largest(watched, helped, ripe)).toBeLessThan(0.5)
    expect(largest(watched, helped, moisture)).toBeLessThan(0.1)
    expect(largest(watched, helped, topsoil)).toBeLessThan(0.3)
    expect(helped.plan.runs.map(({ part }) => part.key)).toEqual(watched.plan.runs.map(({ part }) => part.key))
  })

  it('without one is off: the week of the stations does not tell its season', () => {
    expect(alone.past.hours).toBe(7 * 24)
    const said = ({ ahead }: Day) => ahead.provenance.remarks.join()
    expect(said(alone)).toContain('The weather before 2010-09-23 is not known')
    expect(said(alone)).toContain('topsoil is taken as at field capacity')
    for (const whole of [watched, helped]) expect(said(whole)).not.toContain('is not known: ripeness')
    expect(Math.max(largest(watched, alone, ripe), largest(watched, alone, moisture))).toBeGreaterThan(1)
  })
})
