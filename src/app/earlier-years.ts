/** A stretch of the year as it was in each earlier year, from what is kept of the place. */
import { epochHourOf, HOURS_PER_DAY, instantOf } from '#core/units/time.ts'
import type { Place, Weather } from '#core/units/weather.ts'
import type { EarlierYears } from './ports.ts'

/** Days on either side: a year may be taken as if it came a little earlier or later. */
const ROOM_DAYS = 5

/** @param between what is known of a stretch; undefined where nothing is. */
export function earlierYearsFrom(
  between: (place: Place, fromEpochH: number, toEpochH: number) => Promise<Weather | undefined>,
): EarlierYears {
  return async ({ place, fromEpochH, toEpochH, nowEpochH, years }) => {
    const found: Weather[] = []
    for (let back = 1; back <= years; back++) {
      const from = yearsEarlier(fromEpochH, back) - ROOM_DAYS * HOURS_PER_DAY
      const to = Math.min(yearsEarlier(toEpochH, back) + ROOM_DAYS * HOURS_PER_DAY, Math.floor(nowEpochH))
      const weather = to > from ? await between(place, from, to) : undefined
      if (weather && weather.hours > 0) found.push(weather)
    }
    return found
  }
}

/** The same hour of the same day so many years earlier, in UTC. */
const yearsEarlier = (epochH: number, years: number): number =>
  epochHourOf(instantOf(epochH).toZonedDateTimeISO('UTC').subtract({ years }).toInstant())
