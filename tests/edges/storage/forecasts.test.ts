import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { KeptForecast } from '#app/forecasts-port.ts'
import { type ForecastTables, forecastStore } from '#edges/storage/forecasts.ts'
import { openAt } from '#edges/storage/open.ts'
import { testDatabases } from '#tests/support/databases.ts'

const HOURS = 240
const forecast = (more: Partial<KeptForecast> = {}): KeptForecast => ({
  farmId: 'larkspur',
  partKey: 'mill-forty',
  crop: 'soybean',
  madeOn: Temporal.PlainDate.from('2010-09-20'),
  madeAtEpochH: 356_938.512_3,
  startEpochH: 356_938,
  hours: HOURS,
  moistureWb: Float32Array.from({ length: HOURS * 10 }, (_, i) => 9 + i / 1000),
  ...more,
})

const databases = testDatabases()

for (const source of databases) {
  describe(`kept forecasts on ${source.name}`, () => {
    it('come back to a hundredth of a percent, unknown hours as unknown', async () => {
      const database = await openAt<ForecastTables>(await source.fresh())
      const store = forecastStore(database)
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.oneof(fc.float({ min: 0, max: 95, noNaN: true }), fc.constant(Number.NaN)), {
            minLength: 20,
            maxLength: 20,
          }),
          fc.uuid(),
          async (values, farmId) => {
            const kept = forecast({ farmId, hours: 2, moistureWb: Float32Array.from(values) })
            await store.keepForecasts([kept])
            const [found] = await store.forecasts(farmId)
            expect({ ...found, moistureWb: 0 }).toEqual({ ...kept, moistureWb: 0 })
            for (const [i, value] of found!.moistureWb.entries()) {
              if (Number.isNaN(values[i])) expect(value).toBeNaN()
              else expect(Math.abs(value - values[i]!)).toBeLessThan(0.00501)
            }
          },
        ),
        { numRuns: 30 },
      )
      await database.destroy()
    })

    it('are the first of each part and day, in order of day and part', async () => {
      const database = await openAt<ForecastTables>(await source.fresh())
      const store = forecastStore(database)
      const next = Temporal.PlainDate.from('2010-09-21')
      await store.keepForecasts([forecast({ partKey: 'b', madeOn: next }), forecast({ partKey: 'b' })])
      await store.keepForecasts([forecast({ partKey: 'b', madeAtEpochH: 1 }), forecast({ partKey: 'a', madeOn: next })])
      expect((await store.forecasts('larkspur')).map((f) => [f.madeOn.toString(), f.partKey, f.madeAtEpochH])).toEqual([
        ['2010-09-20', 'b', 356_938.512_3],
        ['2010-09-21', 'a', 356_938.512_3],
        ['2010-09-21', 'b', 356_938.512_3],
      ])
      expect(await store.forecasts('other')).toEqual([])
      const of = async (keys: readonly string[]) => (await store.forecasts('larkspur', 0, keys)).map((f) => f.partKey)
      expect([await of(['a', 'c']), await of(['b']), await of([])]).toEqual([['a'], ['b', 'b'], []])
      expect(await store.forecasts('larkspur', 356_939, ['a'])).toEqual([])
      await store.keepForecasts([])
      await database.destroy()
    })

    it('of a thousand parts are kept at once', async () => {
      const database = await openAt<ForecastTables>(await source.fresh())
      const store = forecastStore(database)
      await store.keepForecasts(Array.from({ length: 1000 }, (_, n) => forecast({ partKey: `part-${n}` })))
      expect(await store.forecasts('larkspur')).toHaveLength(1000)
      await database.destroy()
    })
  })
}
