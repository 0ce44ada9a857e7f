/** Highest and lowest temperature of each local day, for the growth models. */
import { localDateOf, zonedAt } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'

export interface DailyExtremes {
  readonly dailyStart: Temporal.PlainDate
  readonly dailyMaxC: Float32Array
  readonly dailyMinC: Float32Array
}

/** A day counts as known from this many known hours on: both extremes are then likely seen [h]. */
const ENOUGH_HOURS = 20

/** @param weathers stretches of one place, in order of time; the first member of each is used. */
export function dailyExtremes(weathers: readonly Weather[], timeZone: string): DailyExtremes {
  const first = weathers[0]
  const last = weathers.at(-1)
  if (!first || !last) throw new RangeError('dailyExtremes needs at least one stretch of weather')
  const dailyStart = localDateOf(first.startEpochH, timeZone)
  const days = dailyStart.until(localDateOf(last.startEpochH + last.hours - 1, timeZone)).days + 1
  const dailyMaxC = new Float32Array(days).fill(Number.NEGATIVE_INFINITY)
  const dailyMinC = new Float32Array(days).fill(Number.POSITIVE_INFINITY)
  const known = new Uint8Array(days)
  let day = 0
  let nextMidnight = Number.NEGATIVE_INFINITY
  for (const weather of weathers) {
    for (let h = 0; h < weather.hours; h++) {
      const epochH = weather.startEpochH + h
      if (epochH >= nextMidnight) {
        day = dailyStart.until(localDateOf(epochH, timeZone)).days
        nextMidnight = Math.ceil(zonedAt(epochH, timeZone).add({ days: 1 }).startOfDay().epochMilliseconds / 3_600_000)
      }
      const tempC = weather.airTempC[h]!
      if (Number.isNaN(tempC)) continue
      known[day]!++
      dailyMaxC[day] = Math.max(dailyMaxC[day]!, tempC)
      dailyMinC[day] = Math.min(dailyMinC[day]!, tempC)
    }
  }
  for (let d = 0; d < days; d++) {
    if (known[d]! >= ENOUGH_HOURS) continue
    dailyMaxC[d] = Number.NaN
    dailyMinC[d] = Number.NaN
  }
  return { dailyStart, dailyMaxC, dailyMinC }
}
