/** A source of the past over a function of time: it knows every hour up to its lag, and counts what it is asked. */

import { SourceUnreachable } from '#app/failures.ts'
import type { HistoryRequest, HistorySource } from '#app/ports.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

export interface FakeHistory {
  readonly source: HistorySource
  readonly asked: HistoryRequest[]
  /** Years that fail. */
  readonly broken: Set<number>
  isUp: boolean
}

/** Its temperature says which hour it is: no two hours of a month are alike. */
export const historyTempC = (epochH: number): number => (epochH % 700) / 25

export function fakeHistory(id = 'history', lagH = 72, behindH = 0): FakeHistory {
  const fake: FakeHistory = {
    isUp: true,
    asked: [],
    broken: new Set(),
    source: {
      id,
      name: `past of ${id}`,
      attribution: `credit of ${id}`,
      licence: 'free',
      lagH,
      sinceEpochH: 0,
      fetch: async (request) => {
        fake.asked.push(request)
        const { fromEpochH, toEpochH, place, nowEpochH } = request
        const year = Temporal.Instant.fromEpochMilliseconds(fromEpochH * 3_600_000).toZonedDateTimeISO('UTC').year
        if (!fake.isUp || fake.broken.has(year))
          throw new SourceUnreachable('does not answer', { source: id, where: 'nowhere' })
        const hours = toEpochH - fromEpochH
        const arrays = unknownWeatherArrays(1, hours)
        for (let h = 0; h < hours; h++) {
          if (fromEpochH + h >= nowEpochH - lagH - behindH) break
          arrays.airTempC[h] = historyTempC(fromEpochH + h)
          arrays.relHumidity[h] = 0.5
          arrays.rainMm[h] = 0
          arrays.windMs[h] = 3
          arrays.solarWm2[h] = 100
        }
        const provenance = {
          source: `past of ${id}`,
          attribution: `credit of ${id}`,
          licence: 'free',
          issuedAtEpochH: toEpochH,
          spread: 'observed' as const,
          remarks: [],
        }
        const weather: Weather = { place, startEpochH: fromEpochH, hours, members: 1, ...arrays, provenance }
        return { weather, rawHash: `${fromEpochH}`, notes: [] }
      },
    },
  }
  return fake
}
