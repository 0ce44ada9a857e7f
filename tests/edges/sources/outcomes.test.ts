/**
 * Every source of forecasts under every fault, as the farm sees it: the next source takes over, or the last good weather
 * serves with its age, or no weather is found and the reason is told. Never weather from the answer at fault.
 */
import { afterEach, describe, expect, it } from 'vitest'
import { findWeather } from '#app/find-weather.ts'
import type { ForecastSource } from '#app/ports.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import type { WeatherStore } from '#app/weather-store.ts'
import { WEATHER_VARIABLES, type Weather } from '#core/units/weather.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { OF_TRANSPORT, OF_WEATHER } from './support/fault-list.ts'
import { FORECASTS, type MockedWorld, mockedWorld, NEW_YORK } from './support/msw-world.ts'
import { outOfRange } from './support/out-of-range.ts'
import { nebraska } from './support/world.ts'

const AGE_LIMIT_H = 24
const open: { stop: () => Promise<void> }[] = []
afterEach(async () => {
  for (const one of open.splice(0)) await one.stop()
})

describe.each(Object.entries(FORECASTS))('%s', (name, asked) => {
  const { place, nowEpochH: start } = name === 'MET Norway' ? NEW_YORK : nebraska()

  async function setUp() {
    const world: MockedWorld = await mockedWorld({ retries: 0 })
    const store: WeatherStore = await openWeatherStore(':memory:')
    open.push(world, { stop: () => store.close() })
    const told: string[] = []
    const credit = { attribution: '', licence: '' }
    const first: ForecastSource = {
      ...credit,
      id: 'first',
      name: 'first',
      fetch: ({ nowEpochH }) => asked.fetch(world.client, nowEpochH - start),
    }
    const second: ForecastSource = {
      ...credit,
      id: 'second',
      name: 'second',
      fetch: async ({ nowEpochH }) => {
        const startEpochH = Math.floor(nowEpochH)
        const plain = plainWeather({ startEpochH, hours: 120 })
        const provenance = { ...plain.provenance, source: 'second', issuedAtEpochH: nowEpochH }
        return { weather: { ...plain, place, provenance }, chances: {}, rawHash: `${startEpochH}`, notes: [] }
      },
    }
    const find = async (forecasts: readonly ForecastSource[], nowEpochH: number) => {
      const suppliers = { forecasts, observations: [] }
      const keeper = keepWeather({ suppliers, store, random: () => 0.5, log: (line) => told.push(line) })
      return await findWeather(keeper.suppliers, { place, nowEpochH, ageLimitH: AGE_LIMIT_H, hoursBack: 24 })
    }
    return { world, first, second, find, told }
  }

  /** The hours that two forecasts share, member by member. */
  function expectSameHours(later: Weather, earlier: Weather) {
    const shift = later.startEpochH - earlier.startEpochH
    expect(later.members).toBe(earlier.members)
    for (const variable of WEATHER_VARIABLES)
      for (let m = 0; m < later.members; m++)
        for (let h = 0; h < Math.min(later.hours, earlier.hours - shift); h++) {
          const [now, was] = [later[variable][m * later.hours + h], earlier[variable][m * earlier.hours + h + shift]]
          if (!Object.is(now, was)) throw new Error(`${variable} of member ${m} in hour ${h}: ${now} for ${was}`)
        }
  }

  it.each([...OF_TRANSPORT, ...OF_WEATHER])('under %s', async (_, answer) => {
    const { world, first, second, find, told } = await setUp()
    const good = await find([first], start)
    if (good.kind !== 'found') throw new Error(good.reason)
    world.spoil(asked.address, answer)

    // What was good a while ago serves, as it was, with its age.
    const later = await find([first], start + 3)
    expect(later.kind).toBe('found')
    if (later.kind !== 'found') return
    const ageH = start + 3 - later.weather.ahead.provenance.issuedAtEpochH
    expect(ageH).toBeGreaterThanOrEqual(3 - 1e-6)
    expect(later.weather.ahead.provenance.issuedAtEpochH).toBe(good.weather.ahead.provenance.issuedAtEpochH)
    expectSameHours(later.weather.ahead, good.weather.ahead)
    expect(told).toHaveLength(1)

    // Beyond the limit of age it does not, and that is the reason.
    const tooLate = await find([first], start + 30)
    expect(tooLate).toMatchObject({ kind: 'none', reason: expect.stringContaining('over the limit of 24 h') })

    // With another source at hand that one takes over.
    const other = await find([first, second], start + 30)
    if (other.kind !== 'found') throw new Error(other.reason)
    expect(other.weather.ahead.provenance.source).toBe('second')
    expect(outOfRange(other.weather.ahead)).toEqual([])
  })

  it('under any fault at the very first asking finds no weather, and says why', async () => {
    for (const [fault, answer] of [...OF_TRANSPORT, ...OF_WEATHER]) {
      const { world, first, find, told } = await setUp()
      world.spoil(asked.address, answer)
      const found = await find([first], start)
      expect(found, fault).toMatchObject({ kind: 'none', reason: 'no weather source answered' })
      expect(told.join(), fault).toMatch(/\w+: .+\(.+\)\. .+/)
      for (const one of open.splice(0)) await one.stop()
    }
  })
})
