/**
 * Hours stay in line through the nights on which clocks change: 2026 by the tz database, zones east and west, zones
 * half an hour off, one that changes by half an hour, one that never changes.
 */
import { describe, expect, it } from 'vitest'
import { SourceUnreadable } from '#app/failures.ts'
import { epochHoursOf, hoursOfLocalDay, instantOf, localDateOf, zonedAt } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { weatherFromLocationforecast } from '#edges/sources/metno/to-weather.ts'
import { weatherFromHourly } from '#edges/sources/nws/hourly.ts'
import { weatherFromGridpoint } from '#edges/sources/nws/to-weather.ts'
import { type HourlyAnswer, hourlyAnswerSchema } from '#edges/sources/open-meteo/schema.ts'
import { weatherFromHourlyAnswer } from '#edges/sources/open-meteo/to-weather.ts'

const TOLD = { source: 'Service', where: 'https://example.org/' }
const PLACE = { latDeg: 40, lonDeg: -90, elevationM: 200 }
const HOURS = 60

/** Date of the change and the civil hours of that day (tz database 2025b): read off the law of each place. */
const CHANGES = [
  ['America/Chicago', '2026-03-08', 23],
  ['America/Chicago', '2026-11-01', 25],
  ['America/St_Johns', '2026-03-08', 23],
  ['America/St_Johns', '2026-11-01', 25],
  ['Europe/Berlin', '2026-03-29', 23],
  ['Europe/Berlin', '2026-10-25', 25],
  ['Australia/Adelaide', '2026-10-04', 23],
  ['Australia/Adelaide', '2026-04-05', 25],
  ['Australia/Lord_Howe', '2026-10-04', 23.5],
  ['Australia/Lord_Howe', '2026-04-05', 24.5],
  ['Pacific/Auckland', '2026-09-27', 23],
  ['Pacific/Auckland', '2026-04-05', 25],
  ['Asia/Kolkata', '2026-03-29', 24],
] as const

/** Another value for each hour; in a straight line, so that the middle of an hour is halfway to the next. */
const slope = (epochH: number, startEpochH: number): number => 5 + 0.25 * (epochH - startEpochH)

describe.each(CHANGES)('%s on %s', (timeZone, day, hours) => {
  const date = Temporal.PlainDate.from(day)
  const midnight = epochHoursOf(date.toZonedDateTime({ timeZone }).toInstant())
  const start = Math.floor(midnight) - 12
  const epochHours = Array.from({ length: HOURS }, (_, h) => start + h)
  const utc = (epochH: number) => instantOf(epochH).toString()
  /** With the offset of the farm, which is another one after the change. */
  const local = (epochH: number) => zonedAt(epochH, timeZone).toString({ timeZoneName: 'never' })
  const expectHours = ({ startEpochH, airTempC }: Weather, value: (epochH: number) => number, upTo = HOURS) => {
    expect(startEpochH).toBe(start)
    for (let h = 0; h < upTo; h++) expect(airTempC[h]).toBeCloseTo(value(start + h), 4)
  }

  it(`has ${hours} h, and its whole hours lie in it`, () => {
    expect(epochHoursOf(date.add({ days: 1 }).toZonedDateTime({ timeZone }).toInstant()) - midnight).toBe(hours)
    const { startEpochH, endEpochH } = hoursOfLocalDay(date, timeZone)
    for (let hour = startEpochH; hour < endEpochH; hour++) expect(localDateOf(hour, timeZone).toString()).toBe(day)
    expect(localDateOf(startEpochH - 1, timeZone).equals(date)).toBe(false)
    expect(localDateOf(endEpochH, timeZone).equals(date)).toBe(false)
    expect(endEpochH - startEpochH).toBeGreaterThanOrEqual(Math.floor(hours))
    expect(endEpochH - startEpochH).toBeLessThanOrEqual(Math.ceil(hours))
  })

  it.each([
    ['UTC', utc],
    ['local time', local],
  ])('the gridded series in %s', (_, written) => {
    const layer = (uom: string, value: (epochH: number) => number) => ({
      uom,
      values: epochHours.map((epochH) => ({ validTime: `${written(epochH)}/PT1H`, value: value(epochH) })),
    })
    const body = {
      properties: {
        updateTime: utc(start),
        temperature: layer('wmoUnit:degC', (epochH) => slope(epochH, start)),
        windSpeed: layer('wmoUnit:km_h-1', () => 10),
        quantitativePrecipitation: layer('wmoUnit:mm', (epochH) => epochH - start),
      },
    }
    const { weather } = weatherFromGridpoint(body, PLACE, start + 0.2, TOLD)
    expectHours(weather, (epochH) => slope(epochH, start))
    for (let h = 0; h < HOURS; h++) expect(weather.rainMm[h]).toBeCloseTo(h, 4)
  })

  it('the text forecast in local time', () => {
    const periods = epochHours.map((epochH) => ({
      startTime: local(epochH),
      temperature: slope(epochH, start),
      temperatureUnit: 'C',
      relativeHumidity: { unitCode: 'wmoUnit:percent', value: 50 },
      windSpeed: '10 km/h',
      windDirection: 'S',
    }))
    const { weather } = weatherFromHourly({ properties: { updateTime: utc(start), periods } }, PLACE, start + 0.2, TOLD)
    expectHours(weather, (epochH) => slope(epochH, start))
  })

  it('the text forecast is refused where its periods begin inside an hour', () => {
    const periods = epochHours.map((epochH) => ({
      startTime: local(epochH + 0.5),
      temperature: 10,
      temperatureUnit: 'C',
      windSpeed: '10 km/h',
    }))
    const body = { properties: { updateTime: utc(start), periods } }
    expect(() => weatherFromHourly(body, PLACE, start + 0.2, TOLD)).toThrow(/no full hour/)
  })

  it('steps at instants', () => {
    const body = {
      properties: {
        meta: { updated_at: utc(start), units: { air_temperature: 'celsius' } },
        timeseries: epochHours.map((epochH) => ({
          time: utc(epochH),
          data: { instant: { details: { air_temperature: slope(epochH, start) } } },
        })),
      },
    }
    const { weather } = weatherFromLocationforecast(body, PLACE, start + 0.2, TOLD)
    expectHours(weather, (epochH) => slope(epochH + 0.5, start), HOURS - 1)
  })

  const answer = (offsetS: number): HourlyAnswer =>
    hourlyAnswerSchema.parse({
      utc_offset_seconds: offsetS,
      hourly_units: { temperature_2m: '°C', precipitation: 'mm' },
      hourly: {
        time: epochHours.map((epochH) =>
          instantOf(epochH + offsetS / 3600)
            .toString()
            .slice(0, 16),
        ),
        temperature_2m: epochHours.map((epochH) => slope(epochH, start)),
        precipitation: epochHours.map((epochH) => epochH - start),
      },
    })

  it('stamps without an offset, in GMT as asked for', () => {
    const { weather } = weatherFromHourlyAnswer(answer(0), PLACE, start + 0.2, 'single', TOLD)
    expectHours(weather, (epochH) => slope(epochH + 0.5, start), HOURS - 1)
    // Rain of the hour before the stamp.
    for (let h = 0; h < HOURS - 1; h++) expect(weather.rainMm[h]).toBeCloseTo(h + 1, 4)
  })

  it('stamps by one offset for the whole answer: read by it, refused where they fall off the full hour', () => {
    const offsetS = zonedAt(start, timeZone).offsetNanoseconds / 1e9
    const text = answer(offsetS)
    // The service rounds nothing: a half-hour zone's stamps are full hours of that zone.
    if (offsetS % 3600 !== 0) text.hourly.time = text.hourly.time.map((stamp) => stamp.replace(/:30$/, ':00'))
    const read = () => weatherFromHourlyAnswer(text, PLACE, start + 0.2, 'single', TOLD)
    if (offsetS % 3600 !== 0) expect(read).toThrow(SourceUnreadable)
    else expectHours(read().weather, (epochH) => slope(epochH + 0.5, start), HOURS - 1)
  })
})
