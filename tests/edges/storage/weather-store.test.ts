import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { KeptRun, WeatherStore } from '#app/weather-store.ts'
import { emptySkill, learn } from '#core/science/blend/skill.ts'
import { growMembers } from '#core/science/spread/grow-members.ts'
import { WEATHER_VARIABLES } from '#core/units/weather.ts'
import { openWeatherStore } from '#edges/storage/weather-store.ts'
import { testDatabases } from '#tests/support/databases.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'
import { trialForecast } from '#tests/support/trial-forecasts.ts'

const { forecast } = trialForecast(2009, 2000, 120, 1)
const CELL = '40.05,-88.20'

const run = (sourceId: string, fetchedAtEpochH: number, more: Partial<KeptRun> = {}): KeptRun => ({
  sourceId,
  fetchedAtEpochH,
  expiresAtEpochH: fetchedAtEpochH + 1,
  weather: forecast,
  chances: { popPct: new Float32Array(120).fill(30), popBlockH: new Float32Array(120).fill(6) },
  ...more,
})

const databases = testDatabases()

for (const database of databases) {
  describe(`weather on ${database.name}`, () => {
    let where: string
    let store: WeatherStore
    beforeEach(async () => {
      where = await database.fresh()
      store = await openWeatherStore(where)
    })
    afterEach(() => store.close())

    it('a run comes back as it was, after a restart too', async () => {
      const ensemble = growMembers(forecast, { members: 5, seed: 1, usualRainDayShare: 0.3, ageH: 0 })
      await store.keepRun(CELL, run('a', 500.25))
      await store.keepRun(CELL, run('ens', 500.5, { weather: ensemble, chances: {}, expiresAtEpochH: Number.NaN }))
      await store.close()
      store = await openWeatherStore(where)
      const runs = await store.newestRuns(CELL)
      const [a, ens] = ['a', 'ens'].map((id) => runs.find(({ sourceId }) => sourceId === id)!)
      expect(a).toEqual(run('a', 500.25))
      for (const name of WEATHER_VARIABLES) expect(ens!.weather[name]).toEqual(ensemble[name])
      expect(ens!.weather.members).toBe(5)
      expect(ens!.expiresAtEpochH).toBeNaN()
    })

    it('the newest run of each source is found, of this cell only', async () => {
      for (const at of [10, 30, 20]) await store.keepRun(CELL, run('a', at))
      await store.keepRun(CELL, run('b', 5))
      await store.keepRun('elsewhere', run('a', 99))
      const runs = await store.newestRuns(CELL)
      expect(runs.map(({ sourceId, fetchedAtEpochH }) => [sourceId, fetchedAtEpochH]).sort()).toEqual([
        ['a', 30],
        ['b', 5],
      ])
      expect((await store.runsSince(CELL, 'a', 15)).map(({ fetchedAtEpochH }) => fetchedAtEpochH)).toEqual([20, 30])
    })

    it('hours seen add up; unknown hours never wipe out known ones', async () => {
      const first = plainWeather({ startEpochH: 100, hours: 30, set: { airTempC: 11 } })
      const second = plainWeather({
        startEpochH: 120,
        hours: 30,
        set: { airTempC: (_, h) => (h < 5 ? Number.NaN : 22), solarWm2: Number.NaN },
      })
      await store.keepSeen(CELL, 'station', first)
      await store.keepSeen(CELL, 'station', second)
      const seen = (await store.seen(CELL, 'station', first.place, 95, 155))!
      expect([94, 99, 100, 124, 125, 129, 130, 149, 150].map((h) => seen.airTempC[h - 95])).toEqual([
        undefined,
        Number.NaN,
        11,
        11,
        22,
        22,
        22,
        22,
        Number.NaN,
      ])
      expect(seen.solarWm2[129 - 95]).toBe(300)
      expect(seen.solarWm2[140 - 95]).toBeNaN()
      expect(await store.seen(CELL, 'analysis', first.place, 95, 155)).toBeUndefined()
    })

    it('skill is kept by source', async () => {
      const skill = learn(emptySkill(), forecast, forecast, forecast.startEpochH, forecast.startEpochH + 50)
      await store.keepSkill(CELL, 'a', { skill, learntUntilEpochH: 77 })
      await store.keepSkill(CELL, 'a', { skill, learntUntilEpochH: 78 })
      expect(await store.skills(CELL)).toEqual(new Map([['a', { skill, learntUntilEpochH: 78 }]]))
    })

    it('calls are counted, the last failure told', async () => {
      await store.noteCall({ sourceId: 'a', kind: 'forecast', atEpochH: 10, issuedAtEpochH: 8.5 })
      await store.noteCall({ sourceId: 'a', kind: 'forecast', atEpochH: 11, failure: 'answered 503' })
      await store.noteCall({ sourceId: 'a', kind: 'observations', atEpochH: 11.5 })
      await store.noteCall({ sourceId: 'a', kind: 'forecast', atEpochH: 12, issuedAtEpochH: 11 })
      const [forecasts] = (await store.tallies(0)).filter(({ kind }) => kind === 'forecast')
      expect(forecasts).toEqual({
        sourceId: 'a',
        kind: 'forecast',
        calls: 3,
        failed: 1,
        lastAskedEpochH: 12,
        lastGoodEpochH: 12,
        lastIssuedEpochH: 11,
        lastFailure: 'answered 503',
        lastFailureEpochH: 11,
      })
    })

    it('what is too old is dropped, the rest stays', async () => {
      await store.keepRun(CELL, run('a', 10))
      await store.keepRun(CELL, run('a', 500))
      await store.keepSeen(CELL, 'station', plainWeather({ startEpochH: 24, hours: 240 }))
      await store.noteCall({ sourceId: 'a', kind: 'forecast', atEpochH: 10 })
      await store.drop({ runsBeforeEpochH: 100, seenBeforeEpochH: 120, callsBeforeEpochH: 100 })
      expect(await store.runsSince(CELL, 'a', 0)).toHaveLength(1)
      const seen = (await store.seen(CELL, 'station', forecast.place, 0, 264))!
      expect(seen.airTempC[119]).toBeNaN()
      expect(seen.airTempC[120]).toBe(20)
      expect(await store.tallies(0)).toEqual([])
    })
  })
}
