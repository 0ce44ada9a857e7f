/** ISO 8601 instants and spans as the services write them, to hours since the epoch. Strict: NaN for anything else. */
import { epochHoursOf } from '#core/units/time.ts'

/** Longest span believed: a month. */
const LONGEST_H = 31 * 24
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:\d{2})$/
const DURATION = /^P(?=\d|T\d)(?:(\d+)W)?(?:(\d+)D)?(?:T(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?)?$/

/** @param text with `Z` or an offset; a time without one is not an instant. @returns hours since the epoch or NaN. */
export function epochHoursOfIso(text: string): number {
  if (!INSTANT.test(text)) return Number.NaN
  try {
    return epochHoursOf(Temporal.Instant.from(text))
  } catch {
    return Number.NaN
  }
}

/** @param text such as `P1DT6H`; a day is 24 hours, as in the NWS series, which are in UTC. @returns [h] or NaN. */
export function hoursOfIsoDuration(text: string): number {
  const parts = DURATION.exec(text)
  if (parts === null) return Number.NaN
  const [weeks, days, hours, minutes, seconds] = parts.slice(1).map((part) => Number(part ?? 0))
  return weeks! * 168 + days! * 24 + hours! + minutes! / 60 + seconds! / 3600
}

/** @param text `start/duration`. @returns its two ends, NaN if it is none, of no length, or longer than a month. */
export function spanOfIso(text: string): { fromEpochH: number; toEpochH: number } {
  const [start, duration, ...rest] = text.split('/')
  const fromEpochH = rest.length > 0 ? Number.NaN : epochHoursOfIso(start ?? '')
  const length = hoursOfIsoDuration(duration ?? '')
  return length > 0 && length <= LONGEST_H
    ? { fromEpochH, toEpochH: fromEpochH + length }
    : { fromEpochH: Number.NaN, toEpochH: Number.NaN }
}
