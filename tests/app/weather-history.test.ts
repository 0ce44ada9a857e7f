import { describe, expect, it } from 'vitest'
import { asker } from '#app/ask-source.ts'
import { gate } from '#app/gate.ts'
import { keepHistory, YEARS_BACK } from '#app/weather-history.ts'
import type { WeatherStore } from '#app/weather-store.ts'
import { epochHoursOf, instantOf } from '#core/units/time.ts'
import type { Place, Weather } from '#core/units/weather.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { type FakeHistory, fakeHistory, historyTempC } from '#tests/app/support/fake-history.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const PLACE: Place = { latDeg: 40, lonDeg: -88, elevationM: 215 }
/** A new farm in the middle of its harvest, its beans planted in May. */
const NOW = at('2026-09-20T10:30Z')
const PLANTED = at('2026-05-02T00:00Z')
const DAY = 24

async function setUp(fakes: readonly FakeHistory[], seen?: Weather, kept?: WeatherStore) {
  const store = kept ?? (await openWeatherStore(':memory:'))
  const keeper = keepHistory({
    sources: fakes.map(({ source }) => source),
    store,
    ask: asker({ store, connections: gate(4), log: () => undefined }),
    random: () => 0.5,
    seen: async (_, from, to) => {
      if (!seen || seen.startEpochH >= to || seen.startEpochH + seen.hours <= from) return undefined
      return seen
    },
  })
  return { store, keeper }
}
const days = ({ asked }: FakeHistory) =>
  asked.map(({ fromEpochH, toEpochH }) =>
    [fromEpochH, toEpochH].map((h) => instantOf(h).toString().slice(0, 13)).join('..'),
  )

describe('the season of a new farm', () => {
  it('is asked for in one question a year, up to what the source has, and comes back whole', async () => {
    const fake = fakeHistory()
    const { keeper } = await setUp([fake])
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    expect(days(fake)).toEqual(['2026-01-01T00..2026-09-17T10'])
    const [past] = await keeper.between(PLACE, PLANTED, Math.floor(NOW))
    expect([past!.startEpochH, past!.hours]).toEqual([PLANTED, Math.floor(NOW) - PLANTED])
    for (let h = 0; h < past!.hours - 3 * DAY; h++) expect(past!.airTempC[h]).toBeCloseTo(historyTempC(PLANTED + h), 1)
    expect(past!.provenance.attribution).toBe('credit of history')
  })

  it('that runs over the new year takes a question for each of the two', async () => {
    const fake = fakeHistory()
    const { keeper } = await setUp([fake])
    await keeper.fillSeason(PLACE, at('2025-10-05T00:00Z'), NOW)
    expect(days(fake)).toEqual(['2026-01-01T00..2026-09-17T10', '2025-01-01T00..2026-01-01T00'])
  })

  it('is not asked for again: not in the same day, not after a restart, not while nothing is missing', async () => {
    const fake = fakeHistory()
    const { keeper, store } = await setUp([fake])
    for (let h = 0; h < 12; h++) await keeper.fillSeason(PLACE, PLANTED, NOW + h)
    expect(fake.asked).toHaveLength(1)
    // Stations saw everything since, and the three days the source did not have.
    const seen = plainWeather({ startEpochH: Math.floor(NOW) - 7 * DAY, hours: 30 * DAY })
    const again = await setUp([fake], seen, store)
    for (let day = 1; day < 20; day++) await again.keeper.fillSeason(PLACE, PLANTED, NOW + day * DAY)
    expect(fake.asked).toHaveLength(1)
  })

  it('with a hole of a fortnight after an outage asks for the hole, and not for what it has', async () => {
    const fake = fakeHistory()
    const seen = plainWeather({ startEpochH: Math.floor(NOW) - 7 * DAY, hours: 9 * DAY })
    const { keeper, store } = await setUp([fake], seen)
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    const later = await setUp([fake], seen, store)
    await later.keeper.fillSeason(PLACE, PLANTED, NOW + 20 * DAY)
    expect(days(fake)).toEqual(['2026-01-01T00..2026-09-17T10', '2026-09-17T10..2026-10-07T10'])
    const [past] = await later.keeper.between(PLACE, PLANTED, Math.floor(NOW) + 20 * DAY)
    for (let h = 0; h < past!.hours - 3 * DAY; h++) expect(past!.airTempC[h]).toBeCloseTo(historyTempC(PLANTED + h), 1)
  })

  it('is asked for nothing where everything was seen live', async () => {
    const fake = fakeHistory()
    const seen = plainWeather({ startEpochH: at('2025-01-01T00:00Z'), hours: 700 * DAY })
    const { keeper } = await setUp([fake], seen)
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    expect(fake.asked).toEqual([])
  })

  it('comes from the next source when the first one fails, which is asked again later and later', async () => {
    const [first, second] = [fakeHistory('first'), fakeHistory('second')]
    first.isUp = false
    const { keeper } = await setUp([first, second])
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    expect([first.asked.length, second.asked.length]).toEqual([1, 1])
    second.isUp = false
    const alone = await setUp([second])
    for (let h = 0; h < 48; h++) await alone.keeper.fillSeason(PLACE, PLANTED, NOW + h)
    // Half an hour, one, two, four, eight, twelve: seven or eight times in two days.
    expect(second.asked.length - 1).toBeGreaterThanOrEqual(6)
    expect(second.asked.length - 1).toBeLessThanOrEqual(9)
  })

  it('what the source is behind with is asked for when it may be there', async () => {
    const fake = fakeHistory('late', 72, 5 * DAY)
    const { keeper } = await setUp([fake])
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    await keeper.fillSeason(PLACE, PLANTED, NOW + 26)
    expect(days(fake)).toEqual(['2026-01-01T00..2026-09-17T10', '2026-09-12T11..2026-09-18T12'])
  })
})

describe('earlier years', () => {
  it('come one at a time, the newest first, each asked for once and kept over a restart', async () => {
    const fake = fakeHistory()
    const { keeper, store } = await setUp([fake])
    await keeper.oneEarlierYear(PLACE, NOW)
    expect(days(fake)).toEqual(['2025-01-01T00..2026-01-01T00'])
    await keeper.oneEarlierYear(PLACE, NOW + 0.01)
    expect(fake.asked).toHaveLength(1)
    for (let n = 1; n < 200; n++) await keeper.oneEarlierYear(PLACE, NOW + n / 4)
    expect(fake.asked).toHaveLength(YEARS_BACK)
    expect(days(fake).at(-1)).toBe('2006-01-01T00..2007-01-01T00')
    const again = await setUp([fake], undefined, store)
    for (let n = 0; n < 10; n++) await again.keeper.oneEarlierYear(PLACE, NOW + 60 + n)
    expect(fake.asked).toHaveLength(YEARS_BACK)
  })

  it('one that cannot be had does not bar the others', async () => {
    const fake = fakeHistory()
    fake.broken.add(2024)
    const { keeper, store } = await setUp([fake])
    for (let n = 0; n < 24 * 10; n++) await keeper.oneEarlierYear(PLACE, NOW + n)
    const years = (await store.settledYears('40.00,-88.00')).map(({ year }) => year)
    expect(years).toHaveLength(YEARS_BACK - 1)
    expect(years).not.toContain(2024)
    // It is not asked for all the time either.
    expect(fake.asked.length - years.length).toBeLessThan(30)
  })

  it('of places that share a cell are shared', async () => {
    const fake = fakeHistory()
    const { keeper } = await setUp([fake])
    await keeper.fillSeason(PLACE, PLANTED, NOW)
    await keeper.fillSeason({ ...PLACE, latDeg: PLACE.latDeg + 0.01 }, PLANTED, NOW)
    expect(fake.asked).toHaveLength(1)
  })
})
