/** Every reader of service bodies with a real body for it, and ways to break bodies at random. */
import assert from 'node:assert/strict'
import fc from 'fast-check'
import { SourceFailure } from '#app/failures.ts'
import { epochHoursOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { BodyFault, jsonOf } from '#edges/http/body.ts'
import { locationforecastSchema } from '#edges/sources/metno/schema.ts'
import { weatherFromLocationforecast } from '#edges/sources/metno/to-weather.ts'
import { accepted, FORECAST_NEED, type Need } from '#edges/sources/need.ts'
import { weatherFromHourly } from '#edges/sources/nws/hourly.ts'
import { weatherFromObservations } from '#edges/sources/nws/observations.ts'
import { alertsSchema, gridpointSchema, hourlySchema, observationsSchema } from '#edges/sources/nws/schema.ts'
import { weatherFromGridpoint } from '#edges/sources/nws/to-weather.ts'
import { warningsInForce } from '#edges/sources/nws/warnings.ts'
import { hourlyAnswerSchema } from '#edges/sources/open-meteo/schema.ts'
import { pastFromHourlyAnswer, weatherFromHourlyAnswer } from '#edges/sources/open-meteo/to-weather.ts'
import { powerAnswerSchema } from '#edges/sources/power/schema.ts'
import { weatherFromPower } from '#edges/sources/power/to-weather.ts'
import { checked, type ForecastParts } from '#edges/sources/reading.ts'
import { screened } from '#edges/sources/screen.ts'
import { bodyOf } from './bodies.ts'
import { hourlyAnswer } from './open-meteo.ts'
import { outOfRange } from './out-of-range.ts'
import { goodBody, monthAgo, NEBRASKA_NOW } from './world.ts'

/** Bodies too short to be of use are read all the same. */
const NOTHING: Need = { variables: [], share: 0, hours: 1 }
const TOLD = { source: 'Service', where: 'https://example.org/' }
const PLACE = { latDeg: 41.2, lonDeg: -96.6, elevationM: 368 }
const at = (text: string) => epochHoursOf(Temporal.Instant.from(text))
const TAE_NOW = at('2022-02-04T03:20Z')
const MET_NOW = at('2020-07-20T11:44:31Z')
const ENSEMBLE_NOW = at('2026-10-03T00:10Z')

const PAST = { startEpochH: monthAgo().fromEpochH, hours: monthAgo().toEpochH - monthAgo().fromEpochH }

export interface Reader {
  readonly body: unknown
  /** Reads as the source does; throws one of our failures, or what a test must not let pass. */
  readonly read: (json: unknown) => void
}

export const READERS: { readonly [name: string]: Reader } = {
  'gridded forecast, Florida': {
    body: bodyOf('nws/gridpoint_TAE_2022.json'),
    read: (json) => accept(weatherFromGridpoint(checked(gridpointSchema, json, TOLD), PLACE, TAE_NOW, TOLD)),
  },
  'gridded forecast, Nebraska': {
    body: goodBody('/gridpoints/OAX/59,58'),
    read: (json) => accept(weatherFromGridpoint(checked(gridpointSchema, json, TOLD), PLACE, NEBRASKA_NOW, TOLD)),
  },
  'text forecast, Nebraska': {
    body: goodBody('/gridpoints/OAX/59,58/forecast/hourly'),
    read: (json) => {
      return accept(weatherFromHourly(checked(hourlySchema, json, TOLD), PLACE, NEBRASKA_NOW, TOLD), NOTHING)
    },
  },
  'text forecast of two periods': {
    body: bodyOf('nws/hourly_TAE_two_periods.json'),
    read: (json) => {
      const now = at('2019-10-15T00:13Z')
      return accept(weatherFromHourly(checked(hourlySchema, json, TOLD), PLACE, now, TOLD), NOTHING)
    },
  },
  'station reports': {
    body: goodBody('/stations/KAHQ/observations'),
    read: (json) => {
      const reports = checked(observationsSchema, json, TOLD).features.map(({ properties }) => properties)
      expectPossible(screened(weatherFromObservations(reports, PLACE, NEBRASKA_NOW, 48, TOLD), 'observed'))
    },
  },
  warnings: {
    body: goodBody('/alerts/active'),
    read: (json) => {
      const alerts = checked(alertsSchema, json, TOLD).features.map(({ properties }) => properties)
      for (const { expiresAtEpochH, sentAtEpochH } of warningsInForce(alerts, NEBRASKA_NOW, TOLD))
        assert.ok(Number.isFinite(expiresAtEpochH + sentAtEpochH))
    },
  },
  'MET Norway': {
    body: (bodyOf('metno/compact_new_york_2020.json') as { data: unknown }).data,
    read: (json) =>
      accept(weatherFromLocationforecast(checked(locationforecastSchema, json, TOLD), PLACE, MET_NOW, TOLD)),
  },
  'recorded ensemble': {
    body: bodyOf('open-meteo/ensemble_two_hours_2026.json'),
    read: (json) => {
      const answer = checked(hourlyAnswerSchema, json, TOLD)
      return accept(weatherFromHourlyAnswer(answer, PLACE, ENSEMBLE_NOW, 'ensemble', TOLD), NOTHING)
    },
  },
  'hourly answer': {
    body: hourlyAnswer(Math.floor(ENSEMBLE_NOW), 72, 1),
    read: (json) => {
      const answer = checked(hourlyAnswerSchema, json, TOLD)
      return accept(weatherFromHourlyAnswer(answer, PLACE, ENSEMBLE_NOW, 'single', TOLD))
    },
  },
  'archive of Open-Meteo': {
    body: goodBody('/om/archive'),
    read: (json) => {
      const answer = checked(hourlyAnswerSchema, json, TOLD)
      expectPossible(screened(pastFromHourlyAnswer(answer, PLACE, PAST, TOLD), 'forecast'))
    },
  },
  'NASA POWER': {
    body: goodBody('/power/point'),
    read: (json) =>
      expectPossible(screened(weatherFromPower(checked(powerAnswerSchema, json, TOLD), PLACE, PAST, TOLD), 'forecast')),
  },
}

/** As the sources do it: screened, refused when thin. */
function accept(parts: ForecastParts, need: Need = FORECAST_NEED): void {
  const { weather, chances } = accepted(parts, need, TOLD.where)
  expectPossible(weather)
  for (const values of [chances.popPct, chances.thunderPct])
    assert.ok(values?.every((pct) => Number.isNaN(pct) || (pct >= 0 && pct <= 100)) ?? true)
  for (const values of Object.values(chances)) assert.equal(values.length, weather.hours)
}

function expectPossible(weather: Weather): void {
  assert.deepEqual(outOfRange(weather), [])
  assert.equal(weather.airTempC.length, weather.hours * weather.members)
  assert.ok(weather.hours <= 16 * 24)
}

/** Every place in a body: [container, key]. */
function placesIn(part: unknown, found: [{ [key: string]: unknown }, string][] = []): typeof found {
  if (typeof part !== 'object' || part === null) return found
  for (const [key, inner] of Object.entries(part)) {
    found.push([part as { [key: string]: unknown }, key])
    placesIn(inner, found)
  }
  return found
}

const STRANGE: readonly unknown[] = [
  null,
  0,
  -1,
  1e308,
  -9999,
  0.5,
  1e6,
  '',
  'NaN',
  'wmoUnit:degF',
  'wmoUnit:K',
  '2022-02-04T03:00:00+00:00/PT1H',
  '2022-02-04T03:00:00+00:00/P30D',
  '1970-01-01T00:00:00+00:00/PT1H',
  '9999-12-31T23:00:00Z',
  '2026-10-03T00:00',
  '999 to 1000 mph',
  '__proto__',
  true,
  [],
  {},
  [1, null, 'x'],
  [[[]]],
]

const change = fc.record({
  where: fc.nat(),
  how: fc.constantFrom('replace', 'delete', 'repeat', 'scale', 'reverse' as const),
  value: fc.oneof(fc.constantFrom(...STRANGE), fc.double(), fc.string(), fc.jsonValue()),
})

/** The text of a body, cut off or scribbled on. */
export const scribbled = (whole: string): fc.Arbitrary<string> =>
  fc
    .record({
      from: fc.nat(whole.length),
      length: fc.nat(12),
      ink: fc.string({ maxLength: 8 }),
      cut: fc.boolean(),
    })
    .map(({ from, length, ink, cut }) =>
      cut ? whole.slice(0, from) : whole.slice(0, from) + ink + whole.slice(from + length),
    )

/** The text of a body with some values changed, gone, doubled, scaled or turned round. */
export const reshaped = (whole: string): fc.Arbitrary<string> =>
  fc.array(change, { minLength: 1, maxLength: 6 }).map((changes) => {
    const copy: unknown = JSON.parse(whole)
    const places = placesIn(copy)
    for (const { where, how, value } of changes) {
      const [container, key] = places[where % places.length]!
      const held = container[key]
      if (how === 'delete') delete container[key]
      else if (how === 'replace') container[key] = value
      else if (how === 'scale') container[key] = typeof held === 'number' ? held * 1000 : value
      else if (how === 'repeat') container[key] = Array.isArray(held) ? [...held, ...held] : value
      else container[key] = Array.isArray(held) ? held.toReversed() : value
    }
    return JSON.stringify(copy)
  })

/** @returns whether it was refused; anything but one of our failures goes up. */
export function isRefused({ read }: Reader, text: string): boolean {
  try {
    read(jsonOf(text))
    return false
  } catch (error) {
    if (error instanceof SourceFailure || error instanceof BodyFault) return true
    throw error
  }
}
