import { beforeAll, describe, expect, it } from 'vitest'
import { SourceUnreachable } from '#app/failures.ts'
import { cellOf } from '#app/weather-cell.ts'
import { keepWeather } from '#app/weather-keeper.ts'
import type { WeatherStore } from '#app/weather-store.ts'
import { correction } from '#core/science/blend/skill.ts'
import type { Place, Weather } from '#core/units/weather.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { type FakeHistory, fakeHistory, historyTempC } from '#tests/app/support/fake-history.ts'
import { type FakeService, fakeService } from '#tests/app/support/fake-sources.ts'
import { loadDemo } from '#tests/support/demo-day.ts'

let recorded: Weather
let place: Place
beforeAll(async () => {
  const demo = await loadDemo()
  recorded = demo.weather
  place = demo.farm.home
})

const START = Temporal.Instant.from('2010-09-20T09:30Z').epochMilliseconds / 3_600_000

async function setUp(services: readonly FakeService[], store?: WeatherStore, histories: readonly FakeHistory[] = []) {
  const kept = store ?? (await openWeatherStore(':memory:'))
  const keeper = keepWeather({
    suppliers: {
      forecasts: services.map(({ forecast }) => forecast),
      observations: services.map(({ observations }) => observations),
      history: histories.map(({ source }) => source),
    },
    store: kept,
    random: () => 0.5,
    log: () => undefined,
  })
  const forecast = (nowEpochH: number, at: Place = place) =>
    keeper.suppliers.forecasts[0]!.fetch({ place: at, nowEpochH })
  const past = (nowEpochH: number, hoursBack = 100 * 24) =>
    keeper.suppliers.observations[0]!.fetch({ place, nowEpochH, hoursBack })
  return { keeper, store: kept, forecast, past }
}

const warmer =
  (by: number) =>
  (weather: Weather): Weather => ({
    ...weather,
    airTempC: weather.airTempC.map((tempC) => tempC + by),
  })

describe('asking', () => {
  it('is done once a cell, however many ask at the same time, and again only when there may be news', async () => {
    const service = fakeService('a', recorded)
    const { forecast } = await setUp([service])
    const near = { ...place, latDeg: place.latDeg + 0.003, lonDeg: place.lonDeg - 0.003 }
    expect(cellOf(near)).toBe(cellOf(place))
    await Promise.all(Array.from({ length: 200 }, (_, n) => forecast(START, n % 2 ? place : near)))
    expect(service.calls.forecast).toBe(1)
    await forecast(START + 0.25)
    expect(service.calls.forecast).toBe(1)
    await forecast(START + 1)
    expect(service.calls.forecast).toBe(2)
  })

  it('keeps to four open connections over many cells', async () => {
    const service = fakeService('a', recorded)
    const { forecast } = await setUp([service])
    await Promise.all(
      Array.from({ length: 40 }, (_, n) => forecast(START, { ...place, latDeg: place.latDeg + n * 0.05 })),
    )
    expect(service.calls.forecast).toBe(40)
    expect(service.mostOpen).toBeLessThanOrEqual(4)
  })

  it('after a failure comes soon, then later each time', async () => {
    const service = fakeService('a', recorded)
    service.isUp = false
    const { forecast } = await setUp([service])
    const asked: number[] = []
    for (let minute = 0; minute < 360; minute++) {
      const before = service.calls.forecast
      await expect(forecast(START + minute / 60)).rejects.toThrow(SourceUnreachable)
      if (service.calls.forecast > before) asked.push(minute)
    }
    const waits = asked.slice(1).map((minute, n) => minute - asked[n]!)
    expect(waits[0]).toBeLessThan(10)
    expect(waits.at(-1)).toBeGreaterThan(45)
    expect(waits.at(-1)).toBeLessThanOrEqual(75)
  })

  it('is not repeated after a restart while what is kept is still good', async () => {
    const service = fakeService('a', recorded)
    const first = await setUp([service])
    await first.forecast(START)
    const second = await setUp([service], first.store)
    const { weather } = await second.forecast(START + 0.25)
    expect(service.calls.forecast).toBe(1)
    expect(weather.members).toBe(50)
  })
})

describe('the past', () => {
  it('is asked for once and then only what is new, and comes back whole', async () => {
    const service = fakeService('a', recorded)
    const { past, forecast } = await setUp([service])
    for (let hours = 0; hours < 72; hours += 3) {
      await forecast(START + hours)
      await past(START + hours)
    }
    const [first, ...later] = service.hoursAsked
    expect(first).toBe(100 * 24)
    for (const hours of later) expect(hours).toBeLessThanOrEqual(10)
    const { weather } = await past(START + 72)
    // A week of stations before the start, then everything since: longer than any service keeps.
    expect(weather.hours).toBe(7 * 24 + 72)
    const offset = weather.startEpochH - recorded.startEpochH
    for (let h = 0; h < weather.hours; h++) expect(weather.airTempC[h]).toBe(recorded.airTempC[offset + h])
  })

  it('joins the forecast without a seam, by the forecast as it passed where stations are silent', async () => {
    const service = fakeService('a', recorded)
    const silent: FakeService = {
      ...service,
      observations: {
        ...service.observations,
        fetch: async (request) => {
          const found = await service.observations.fetch(request)
          return { ...found, weather: { ...found.weather, solarWm2: found.weather.solarWm2.map(() => Number.NaN) } }
        },
      },
    }
    const { past, forecast } = await setUp([silent])
    for (let hours = 0; hours <= 24; hours++) {
      await forecast(START + hours)
      await past(START + hours)
    }
    const { weather } = await past(START + 24)
    const { weather: ahead } = await forecast(START + 24)
    expect(weather.startEpochH + weather.hours).toBe(Math.floor(START + 24))
    expect(ahead.startEpochH).toBeLessThanOrEqual(Math.floor(START + 24))
    const offset = weather.startEpochH - recorded.startEpochH
    for (let h = weather.hours - 24; h < weather.hours; h++)
      expect(weather.solarWm2[h]).toBeCloseTo(recorded.solarWm2[offset + h]!, 3)
    expect(weather.provenance.remarks.join()).toMatch(/24 h of the past from the forecast as it passed/)
  })
})

describe('several sources', () => {
  it('are blended, named and credited together', async () => {
    const { forecast } = await setUp([fakeService('a', recorded), fakeService('b', recorded, warmer(2))])
    const { weather } = await forecast(START)
    expect(weather.provenance.source).toBe('service a and service b')
    const h = Math.floor(START) + 24 - weather.startEpochH
    // Member 0 is the middle but for its rain.
    const real = recorded.airTempC[Math.floor(START) + 24 - recorded.startEpochH]!
    expect(weather.airTempC[h]! - real).toBeGreaterThan(0.2)
    expect(weather.airTempC[h]! - real).toBeLessThan(1.8)
  })

  it('one that says something quite different is left aside, and that is told', async () => {
    const services = [
      fakeService('a', recorded, warmer(15)),
      fakeService('b', recorded),
      fakeService('c', recorded, warmer(0.5)),
    ]
    const { forecast } = await setUp(services)
    const { weather } = await forecast(START)
    expect(weather.provenance.source).toBe('service b and service c')
    expect(weather.provenance.remarks.join()).toContain('Left aside')
    expect(weather.provenance.remarks.join()).toContain('a')
  })

  it('one that runs warm is found out against the stations and corrected', async () => {
    const service = fakeService('warm', recorded, warmer(2.5))
    const { forecast, past, store } = await setUp([service])
    for (let hours = 0; hours <= 14 * 24; hours += 3) {
      await forecast(START + hours)
      await past(START + hours)
    }
    const { skill } = (await store.skills(cellOf(place))).get('warm')!
    for (const isDay of [0, 1]) expect(correction(skill, 'airTempC', 2 + isDay)).toBeGreaterThan(1)
    const now = START + 14 * 24
    const { weather } = await forecast(now)
    let error = 0
    for (let h = 12; h < 36; h++) {
      const real = recorded.airTempC[Math.floor(now) + h - recorded.startEpochH]!
      error += (weather.airTempC[Math.floor(now) + h - weather.startEpochH]! - real) / 24
    }
    expect(Math.abs(error)).toBeLessThan(1.5)
  })
})

describe('what is kept', () => {
  it('of earlier seasons can be had for the season ahead', async () => {
    const { keeper, past } = await setUp([fakeService('a', recorded)])
    await past(START)
    const hour = Math.floor(START)
    expect((await keeper.seen(place, hour - 48, hour - 24))!.hours).toBe(24)
    expect(await keeper.seen({ ...place, latDeg: place.latDeg + 1 }, hour - 48, hour - 24)).toBeUndefined()
  })

  it('is dropped when it is too old to be of use, the season seen is not', async () => {
    const { keeper, forecast, past, store } = await setUp([fakeService('a', recorded)])
    await forecast(START)
    await past(START)
    await keeper.tidy(START + 40 * 24)
    expect(await store.newestRuns(cellOf(place))).toEqual([])
    expect(await store.tallies(0)).toEqual([])
    const hour = Math.floor(START)
    expect((await store.seen(cellOf(place), 'station', place, hour - 24, hour))!.airTempC[5]).not.toBeNaN()
  })
})

describe('a new farm in mid-harvest', () => {
  const day = (text: string) => Temporal.Instant.from(text).epochMilliseconds / 3_600_000
  const PLANTED = day('2010-05-02T00:00Z')

  it('gets its season from a source of the past, the last week from stations, joined without a gap', async () => {
    const service = fakeService('a', recorded)
    const fake = fakeHistory()
    const { past, forecast } = await setUp([service], undefined, [fake])
    await forecast(START)
    const { weather } = await past(START, Math.floor(START) - PLANTED)
    expect([weather.startEpochH, weather.hours]).toEqual([PLANTED, Math.floor(START) - PLANTED])
    const stationsFrom = weather.hours - 7 * 24
    for (let h = 0; h < weather.hours; h++) {
      const at = weather.startEpochH + h
      const real = recorded.airTempC[at - recorded.startEpochH]
      if (h < stationsFrom) expect(weather.airTempC[h]).toBeCloseTo(historyTempC(at), 1)
      else expect(weather.airTempC[h]).toBe(real)
      expect(weather.rainMm[h]).not.toBeNaN()
    }
    const { weather: ahead } = await forecast(START)
    expect(ahead.startEpochH).toBeLessThanOrEqual(weather.startEpochH + weather.hours)
    expect(weather.provenance.attribution).toContain('credit of history')
    expect(weather.provenance.remarks.join()).toMatch(/\d+ h of the past from past of history/)
  })

  it('has its season even while the stations are silent, and is told who is down', async () => {
    const service = fakeService('a', recorded)
    const fake = fakeHistory()
    const { past, keeper } = await setUp([service], undefined, [fake])
    service.isUp = false
    const { weather } = await past(START, Math.floor(START) - PLANTED)
    expect(weather.startEpochH).toBe(PLANTED)
    const states = await keeper.states(START)
    expect(states.map(({ kind, state }) => `${kind} ${state}`)).toEqual([
      'forecast never-asked',
      'observations down',
      'history well',
    ])
  })

  it('without a source of the past has the week of the stations, and what it lacks is named', async () => {
    const { past, keeper } = await setUp([fakeService('a', recorded)])
    const { weather } = await past(START, Math.floor(START) - PLANTED)
    expect(weather.hours).toBe(7 * 24)
    expect(keeper.lacks).toEqual(['history', 'warnings'])
    expect((await setUp([fakeService('a', recorded)], undefined, [fakeHistory()])).keeper.lacks).toEqual(['warnings'])
  })

  it('hands out each earlier year for the season ahead, with days on either side, none of it later than now', async () => {
    const fake = fakeHistory()
    const { past, keeper } = await setUp([fakeService('a', recorded)], undefined, [fake])
    for (let n = 0; n < 8; n++) await past(START + n)
    const now = START + 8
    const from = Math.floor(now) + 240
    const years = await keeper.suppliers.earlierYears!({
      place,
      nowEpochH: now,
      fromEpochH: from,
      toEpochH: from + 60 * 24,
      years: 20,
    })
    const kept = new Set(fake.asked.map(({ fromEpochH }) => fromEpochH)).size
    expect(years.length).toBe(kept - 1)
    for (const [n, year] of years.entries()) {
      const back = Temporal.Instant.fromEpochMilliseconds(from * 3_600_000)
        .toZonedDateTimeISO('UTC')
        .subtract({ years: n + 1 })
      expect(year.startEpochH).toBe(back.epochMilliseconds / 3_600_000 - 5 * 24)
      expect(year.hours).toBe(70 * 24)
      expect(year.startEpochH + year.hours).toBeLessThanOrEqual(now)
    }
  })
})
