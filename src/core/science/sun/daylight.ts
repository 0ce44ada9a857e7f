/**
 * Where the sun stands, and when it rises and sets, through the `suncalc` package (formulas of Meeus J. 1998,
 * Astronomical Algorithms, 2nd ed., chapters 15, 16 and 25).
 */
import { getPosition, getTimes } from 'suncalc'
import { epochHoursOf } from '#core/units/time.ts'
import type { Place } from '#core/units/weather.ts'

const MS_PER_HOUR = 3_600_000

export interface Daylight {
  /** Upper edge of the sun at the level horizon, hours since the epoch [h]; NaN when it does not rise. */
  readonly sunriseEpochH: number
  readonly sunsetEpochH: number
  /** Sun 6 degrees below the horizon [h]; NaN when it does not pass there. */
  readonly civilDawnEpochH: number
  readonly civilDuskEpochH: number
  /** The sun stays up, or stays down, all day. */
  readonly always: 'up' | 'down' | 'no'
}

// biome-ignore lint/style/noRestrictedGlobals: suncalc takes and gives Date; made from the argument, never from a clock
const dateAt = (epochHours: number) => new Date(epochHours * MS_PER_HOUR)

const epochHoursAt = (date: { valueOf(): number } | null): number =>
  date === null ? Number.NaN : date.valueOf() / MS_PER_HOUR

/**
 * Sunrise, sunset and civil twilight of one day at a place.
 *
 * @param place latitude [deg], -90 to 90; longitude, east positive [deg], -180 to 180. Height is not used: USNO
 *   tables are for a level horizon.
 * @param date civil date at the farm.
 * @param timeZone IANA name of the farm's zone.
 * @returns hours since the epoch, with fraction [h].
 *
 * Sun's centre 0.833 deg below the horizon at rise and set, 6 deg at civil twilight, as USNO defines them. Hills,
 * trees and unusual air move what is seen by minutes; within about 5 deg of the polar circles events near the turn of
 * the season are uncertain. All NaN and `always: 'no'` for a place out of range.
 * Checked: tests/truth/almanac.ts, USNO whole minutes within 28 s to 60 deg latitude; polar day and night at 70 deg N.
 */
export function daylightOf(
  place: Pick<Place, 'latDeg' | 'lonDeg'>,
  date: Temporal.PlainDate,
  timeZone: string,
): Daylight {
  const inRange = Math.abs(place.latDeg) <= 90 && Math.abs(place.lonDeg) <= 180
  const noon = date.toZonedDateTime({ timeZone, plainTime: '12:00' }).toInstant()
  const times = getTimes(dateAt(epochHoursOf(noon)), inRange ? place.latDeg : Number.NaN, place.lonDeg)
  return {
    sunriseEpochH: epochHoursAt(times.sunrise),
    sunsetEpochH: epochHoursAt(times.sunset),
    civilDawnEpochH: epochHoursAt(times.dawn),
    civilDuskEpochH: epochHoursAt(times.dusk),
    always: times.alwaysUp ? 'up' : times.alwaysDown ? 'down' : 'no',
  }
}

export interface SunPosition {
  /** Height of the sun above the level horizon as seen, with refraction [deg]. */
  readonly altitudeDeg: number
  /** Direction of the sun, clockwise from north [deg], 0 to 360. */
  readonly azimuthDeg: number
}

/**
 * Where the sun stands.
 *
 * @param latDeg latitude [deg], -90 to 90.
 * @param lonDeg longitude, east positive [deg], -180 to 180.
 * @param epochHours hours since the Unix epoch, with fraction [h].
 * @returns [deg].
 *
 * Meeus chapters 16 and 25. Refraction is for sea-level air; below the horizon the altitude carries the horizon's 0.48
 * deg of refraction. NaN outside the range.
 * Checked: NREL solar position example at Golden, within 0.005 deg.
 */
export function sunPosition(latDeg: number, lonDeg: number, epochHours: number): SunPosition {
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180)) return { altitudeDeg: Number.NaN, azimuthDeg: Number.NaN }
  const { altitude, azimuth } = getPosition(dateAt(epochHours), latDeg, lonDeg)
  return { altitudeDeg: altitude, azimuthDeg: azimuth }
}
