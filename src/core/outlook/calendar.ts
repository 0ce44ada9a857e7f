/** What the clock alone decides, hour by hour: weekday, light, and whether a crew is out. */
import type { Outfit } from '#core/operation/farm.ts'
import { daylightOf } from '#core/science/sun/daylight.ts'
import { localDateOf, zonedAt } from '#core/units/time.ts'
import type { Place } from '#core/units/weather.ts'
import { HOLDBACK_BIT } from './holdback.ts'

export interface Calendar {
  /** ISO weekday, 1 = Monday, by hour. */
  readonly weekday: Uint8Array
  /** Crew off, and dark where nobody works anyway, by hour. */
  readonly holdbackBits: Uint16Array
}

/**
 * A crew that is out may work under lights; darkness holds back only where no crew is out.
 * An hour counts as worked when its middle lies in an outfit's crew hours.
 */
export function calendarOf(
  startEpochH: number,
  hours: number,
  timeZone: string,
  place: Place,
  outfits: readonly Outfit[],
): Calendar {
  const weekday = new Uint8Array(hours)
  const holdbackBits = new Uint16Array(hours)
  const lit = new Map<string, { from: number; to: number }>()
  for (let h = 0; h < hours; h++) {
    const middle = startEpochH + h + 0.5
    const local = zonedAt(middle, timeZone)
    const minute = local.hour * 60 + local.minute
    weekday[h] = local.dayOfWeek
    const working = outfits.some(
      ({ crewHours, daysOff }) =>
        !daysOff.includes(local.dayOfWeek) && minute >= crewHours.startMinute && minute < crewHours.endMinute,
    )
    if (working) continue
    const date = localDateOf(middle, timeZone)
    const key = date.toString()
    let span = lit.get(key)
    if (!span) {
      span = lightOf(place, date, timeZone)
      lit.set(key, span)
    }
    const dark = middle < span.from || middle > span.to
    holdbackBits[h] = HOLDBACK_BIT['crew-off'] | (dark ? HOLDBACK_BIT.dark : 0)
  }
  return { weekday, holdbackBits }
}

function lightOf(place: Place, date: Temporal.PlainDate, timeZone: string): { from: number; to: number } {
  const { civilDawnEpochH, civilDuskEpochH, always } = daylightOf(place, date, timeZone)
  if (always === 'down') return { from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY }
  return {
    from: Number.isNaN(civilDawnEpochH) ? Number.NEGATIVE_INFINITY : civilDawnEpochH,
    to: Number.isNaN(civilDuskEpochH) ? Number.POSITIVE_INFINITY : civilDuskEpochH,
  }
}
