import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Warning } from '#app/ports.ts'
import type { KeptYear, WeatherStore } from '#app/weather-store.ts'
import { epochHourOf } from '#core/units/time.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { testDatabases } from '#tests/support/databases.ts'

const CELL = '40.05,-88.20'
const PLACE = { latDeg: 40.05, lonDeg: -88.2, elevationM: 220 }
const start = (year: number) => epochHourOf(Temporal.Instant.from(`${year}-01-01T00:00Z`))

function kept(year: number, sourceId = 'a', tempC = 10, known = 100): KeptYear {
  const hours = start(year + 1) - start(year)
  const arrays = unknownWeatherArrays(1, hours)
  arrays.airTempC.fill(tempC, 0, known)
  const provenance = {
    source: sourceId,
    attribution: `by ${sourceId}`,
    licence: 'free',
    issuedAtEpochH: start(year) + known,
    spread: 'observed' as const,
    remarks: ['a remark'],
  }
  const weather: Weather = { place: PLACE, startEpochH: start(year), hours, members: 1, ...arrays, provenance }
  return { sourceId, year, settledUntilEpochH: start(year) + known, weather }
}

const WARNING = { id: 'one', event: 'Red Flag Warning', headline: 'Ñandú', expiresAtEpochH: 7.25 } as Warning

const databases = testDatabases()

for (const database of databases) {
  describe(`the past on ${database.name}`, () => {
    let where: string
    let store: WeatherStore
    beforeEach(async () => {
      where = await database.fresh()
      store = await openWeatherStore(where)
    })
    afterEach(() => store.close())

    it('comes back as it was, leap years too, after a restart', async () => {
      await store.keepYear(CELL, kept(2020))
      await store.keepYear(CELL, kept(2019))
      await store.close()
      store = await openWeatherStore(where)
      const back = await store.years(CELL, PLACE, 2019, 2020)
      expect(back).toEqual([kept(2019), kept(2020)])
      expect(back.map(({ weather }) => weather.hours)).toEqual([8760, 8784])
    })

    it('is one row a cell, source and year, told without its weather too', async () => {
      await store.keepYear(CELL, kept(2019, 'a', 10, 50))
      await store.keepYear(CELL, kept(2019, 'a', 12, 200))
      await store.keepYear(CELL, kept(2019, 'b'))
      await store.keepYear(CELL, kept(2021, 'b'))
      await store.keepYear('elsewhere', kept(2021, 'c'))
      expect(await store.settledYears(CELL)).toEqual([
        { sourceId: 'a', year: 2019, settledUntilEpochH: start(2019) + 200 },
        { sourceId: 'b', year: 2019, settledUntilEpochH: start(2019) + 100 },
        { sourceId: 'b', year: 2021, settledUntilEpochH: start(2021) + 100 },
      ])
      expect((await store.years(CELL, PLACE, 2019, 2019))[0]!.weather.airTempC[150]).toBe(12)
      expect(await store.years(CELL, PLACE, 2020, 2020)).toEqual([])
    })

    it('stays for good when all else of its age is dropped', async () => {
      await store.keepYear(CELL, kept(2001))
      await store.drop({ runsBeforeEpochH: 1e6, seenBeforeEpochH: 1e6, callsBeforeEpochH: 1e6 })
      expect(await store.settledYears(CELL)).toHaveLength(1)
    })

    it('takes nothing but whole years', async () => {
      const { weather, ...rest } = kept(2019)
      await expect(store.keepYear(CELL, { ...rest, year: 2020, weather })).rejects.toThrow(RangeError)
    })

    it('holds the warnings last read of a cell, as they were said', async () => {
      await store.keepWarnings(CELL, { sourceId: 'w', readAtEpochH: 5.5, warnings: [WARNING] })
      await store.keepWarnings('elsewhere', { sourceId: 'w', readAtEpochH: 5.5, warnings: [] })
      expect(await store.keptWarnings(CELL)).toEqual([{ sourceId: 'w', readAtEpochH: 5.5, warnings: [WARNING] }])
      await store.keepWarnings(CELL, { sourceId: 'w', readAtEpochH: 6, warnings: [] })
      expect(await store.keptWarnings(CELL)).toEqual([{ sourceId: 'w', readAtEpochH: 6, warnings: [] }])
      await store.dropWarnings(6.5)
      expect(await store.keptWarnings(CELL)).toEqual([])
    })
  })
}
