import { expect, it } from 'vitest'
import { readRecordedWeather } from '#edges/sources/recorded/index.ts'
import { demoFarm } from '#tests/app/support/demo.ts'
import { season } from './season.ts'

/** Four days around a dry, windy one; the whole season is `season-run.ts`. */
it('a few days of real weather bring few alerts, no flapping, and every fire stop at once', async () => {
  const farm = await demoFarm()
  const source = farm.weather.find((found) => found.kind === 'recorded')
  if (!source) throw new Error('The demo farm has no recorded weather')
  const provenance = { source: 'recorded weather', attribution: source.credit, licence: source.licence, remarks: [] }
  const figures = await season({
    farm,
    weather: readRecordedWeather(source.file, farm.home, provenance),
    from: Temporal.PlainDate.from('2010-09-03'),
    days: 4,
    stepH: 1,
    doneShare: 0.25,
    mostShiftH: 4,
  })
  expect(figures).toMatchObject({ looks: 96, flaps: 0, stopsMissed: 0 })
  expect(figures.median).toBeLessThanOrEqual(2)
  expect(figures.p95).toBeLessThanOrEqual(6)
  // The trial must bite: these days hold at least one stop.
  expect(figures.stopLooks).toBeGreaterThan(0)
  expect(figures.starts['fire-stop']).toBeGreaterThan(0)
}, 180_000)
