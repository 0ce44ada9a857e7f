/** A time as people write it: ISO 8601 with an offset, or the farm's own clock without one. */
import { epochHoursOf } from '#core/units/time.ts'

/**
 * @param text `2010-09-28T14:05-05:00`, `2010-09-28T19:05Z`, or local: `2010-09-28 14:05`.
 * @returns hours since the epoch; NaN where it is no time, and where the local clock shows it never or twice.
 */
export function epochHoursFrom(text: string, timeZone: string): number {
  const trimmed = text.trim()
  try {
    if (/(z|[+-]\d\d(:?\d\d)?)$/i.test(trimmed) && /\d[t ]\d\d:?\d\d/i.test(trimmed)) {
      return epochHoursOf(Temporal.Instant.from(trimmed))
    }
    if (!/\d[t ]\d\d:\d\d/i.test(trimmed)) return Number.NaN
    const local = Temporal.PlainDateTime.from(trimmed.replace(' ', 'T'), { overflow: 'reject' })
    return epochHoursOf(local.toZonedDateTime(timeZone, { disambiguation: 'reject' }).toInstant())
  } catch {
    return Number.NaN
  }
}
