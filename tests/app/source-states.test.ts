import { expect, test } from 'vitest'
import { statesOf } from '#app/source-states.ts'
import type { SourceTally } from '#app/weather-store.ts'
import { fakeService } from '#tests/app/support/fake-sources.ts'
import { plainWeather } from '#tests/support/plain-weather.ts'

const service = fakeService('a', plainWeather({ startEpochH: 0, hours: 48 }))
const tally: SourceTally = {
  sourceId: 'a',
  kind: 'forecast',
  calls: 40,
  failed: 10,
  lastAskedEpochH: 100,
  lastGoodEpochH: 100,
  lastIssuedEpochH: 98,
  lastFailure: 'answered 503',
  lastFailureEpochH: 90,
}
const stateOf = async (change: Partial<SourceTally>, nowEpochH = 100) => {
  const store = { tallies: async () => [{ ...tally, ...change }] }
  return await statesOf({ forecasts: [service.forecast], observations: [service.observations] }, store, nowEpochH)
}

test('a source is well, failing after a failed call, down after six hours without an answer', async () => {
  const [forecast, observations] = await stateOf({})
  expect(forecast).toMatchObject({ state: 'well', ageH: 2, failedShare: 0.25, lastFailure: 'answered 503' })
  expect(observations!.state).toBe('never-asked')
  expect(observations!.failedShare).toBeNaN()
  expect((await stateOf({ lastAskedEpochH: 101 }, 101))[0]!.state).toBe('failing')
  expect((await stateOf({ lastAskedEpochH: 107 }, 107))[0]!.state).toBe('down')
  expect((await stateOf({ lastGoodEpochH: Number.NaN }))[0]!.state).toBe('down')
})
