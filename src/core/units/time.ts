/**
 * Time: whole hours since the Unix epoch inside arrays, `Temporal` at the faces. A farm has one time zone.
 * Hour `h` of a series covers the span from its stamp up to, not including, the next one.
 */
export const HOURS_PER_DAY = 24
export const MINUTES_PER_HOUR = 60
export const MINUTES_PER_DAY = 1440
const MS_PER_HOUR = 3_600_000

/** @returns hours since the epoch [h], with fraction. */
export const epochHoursOf = (instant: Temporal.Instant): number => instant.epochMilliseconds / MS_PER_HOUR

/** @returns the hour that contains the instant, as whole hours since the epoch. */
export const epochHourOf = (instant: Temporal.Instant): number => Math.floor(epochHoursOf(instant))

export const instantOf = (epochHours: number): Temporal.Instant =>
  Temporal.Instant.fromEpochMilliseconds(Math.round(epochHours * MS_PER_HOUR))

export const zonedAt = (epochHours: number, timeZone: string): Temporal.ZonedDateTime =>
  instantOf(epochHours).toZonedDateTimeISO(timeZone)

/** The civil date at the farm that contains the given hour. */
export const localDateOf = (epochHours: number, timeZone: string): Temporal.PlainDate =>
  zonedAt(epochHours, timeZone).toPlainDate()

/** First and one-past-last hour of a civil day: 23, 24 or 25 hours long. Zones off the full hour are rounded up. */
export function hoursOfLocalDay(
  date: Temporal.PlainDate,
  timeZone: string,
): { startEpochH: number; endEpochH: number } {
  const start = date.toZonedDateTime({ timeZone })
  const end = date.add({ days: 1 }).toZonedDateTime({ timeZone })
  return {
    startEpochH: Math.ceil(epochHoursOf(start.toInstant())),
    endEpochH: Math.ceil(epochHoursOf(end.toInstant())),
  }
}

/** First and one-past-last hour of a calendar year in UTC. */
export function hoursOfYear(year: number): { startEpochH: number; endEpochH: number } {
  const start = (of: number) =>
    epochHourOf(Temporal.PlainDate.from({ year: of, month: 1, day: 1 }).toZonedDateTime('UTC').toInstant())
  return { startEpochH: start(year), endEpochH: start(year + 1) }
}

/**
 * A minute of the clock on the wall, on a day of any length.
 *
 * @param minute minutes after midnight as the clock shows them [min]; 1,440 is the midnight that ends the day.
 * @returns hours since the epoch. A minute that the clock skips is taken as long after the last one before it.
 */
export function epochHoursAtMinute(date: Temporal.PlainDate, minute: number, timeZone: string): number {
  const wall = date.toPlainDateTime().add({ minutes: minute })
  return epochHoursOf(wall.toZonedDateTime(timeZone).toInstant())
}
