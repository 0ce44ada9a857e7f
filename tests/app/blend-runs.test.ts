import { describe, expect, it } from 'vitest'
import { blendRuns, inOrder, oneEvery } from '#app/blend-runs.ts'
import type { KeptRun } from '#app/weather-store.ts'
import { fakeService } from '#tests/app/support/fake-sources.ts'
import { trialForecast } from '#tests/support/trial-forecasts.ts'

const { forecast } = trialForecast(2009, 2000, 240, 1)
const run = (sourceId: string, ageH: number, fetchedAtEpochH = forecast.startEpochH): KeptRun => ({
  sourceId,
  fetchedAtEpochH,
  expiresAtEpochH: Number.NaN,
  weather: {
    ...forecast,
    provenance: { ...forecast.provenance, source: sourceId, issuedAtEpochH: forecast.startEpochH - ageH },
  },
  chances: {},
})
const of = (...runs: KeptRun[]) =>
  blendRuns({ cell: '40.05,-88.20', runs, skills: new Map(), seenC: [], hour: forecast.startEpochH })

describe('the runs of a cell', () => {
  it('become one forecast with members; one much older than the newest is left out', () => {
    expect(of(run('a', 2), run('b', 10)).weather.provenance.source).toBe('a and b')
    const { weather } = of(run('a', 2), run('b', 30))
    expect(weather.provenance.source).toBe('a')
    expect(weather.members).toBe(50)
    expect(weather.provenance.spread).toBe('grown')
  })

  it('all old are still better than none, with their age', () => {
    const { weather } = of(run('a', 40))
    expect(forecast.startEpochH - weather.provenance.issuedAtEpochH).toBe(40)
  })

  it('keep their members from hour to hour of one issue', () => {
    const again = of(run('a', 2, forecast.startEpochH + 1))
    expect(again.weather.airTempC).toEqual(of(run('a', 2)).weather.airTempC)
  })
})

it("runs are held against what came one in a stretch, and asked in the farm's order", () => {
  const runs = [0, 1, 5, 6, 7, 13].map((hour) => run('a', 0, hour))
  expect(oneEvery(runs, 6).map(({ fetchedAtEpochH }) => fetchedAtEpochH)).toEqual([0, 6, 13])
  const sources = ['b', 'a'].map((id) => fakeService(id, forecast).forecast)
  expect(inOrder([run('a', 0), run('gone', 0), run('b', 0)], sources).map(({ sourceId }) => sourceId)).toEqual([
    'b',
    'a',
  ])
})
