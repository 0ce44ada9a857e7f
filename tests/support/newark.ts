/**
 * One real autumn at three airports near New York with true hourly rain. Source and licence:
 * tests/fixtures/newark/NOTICE.md. In SI units; NaN where an hour is missing.
 */
import { readFileSync } from 'node:fs'
import { gunzipSync } from 'node:zlib'
import { epochHourOf } from '#core/units/time.ts'
import { unknownWeatherArrays, type Weather } from '#core/units/weather.ts'

export const AIRPORTS = ['EWR', 'JFK', 'LGA'] as const
export type Airport = (typeof AIRPORTS)[number]

const PLACES = {
  EWR: { latDeg: 40.69, lonDeg: -74.17, elevationM: 5 },
  JFK: { latDeg: 40.64, lonDeg: -73.78, elevationM: 4 },
  LGA: { latDeg: 40.78, lonDeg: -73.88, elevationM: 6 },
} as const
const FIXTURE = new URL('../fixtures/newark/hourly-aug-nov-2013.csv.gz', import.meta.url)
const START_EPOCH_H = epochHourOf(Temporal.Instant.from('2013-08-01T04:00:00Z'))
const HOURS = 122 * 24

export interface AirportAutumn {
  readonly weather: Weather
  readonly dewPointC: Float32Array
}

const numberOf = (cell: string | undefined): number => (cell?.trim() ? Number(cell) : Number.NaN)

export function airportAutumn(airport: Airport): AirportAutumn {
  const arrays = unknownWeatherArrays(1, HOURS)
  const dewPointC = new Float32Array(HOURS).fill(Number.NaN)
  for (const line of gunzipSync(readFileSync(FIXTURE)).toString('utf8').trim().split('\n').slice(1)) {
    const [station, time, tempF, dewF, humidityPct, from, windMph, gustMph, rainIn] = line.split(',')
    if (station !== airport) continue
    const h = epochHourOf(Temporal.Instant.from(time!)) - START_EPOCH_H
    if (h < 0 || h >= HOURS) continue
    arrays.airTempC[h] = (numberOf(tempF) - 32) / 1.8
    dewPointC[h] = (numberOf(dewF) - 32) / 1.8
    arrays.relHumidity[h] = numberOf(humidityPct) / 100
    arrays.windMs[h] = numberOf(windMph) * 0.44704
    arrays.gustMs[h] = numberOf(gustMph) * 0.44704
    arrays.windFromDeg[h] = numberOf(from)
    arrays.rainMm[h] = numberOf(rainIn) * 25.4
  }
  const weather: Weather = {
    place: PLACES[airport],
    startEpochH: START_EPOCH_H,
    hours: HOURS,
    members: 1,
    ...arrays,
    provenance: {
      source: `nycflights13 ${airport}`,
      attribution: 'US National Weather Service, R package nycflights13',
      licence: 'CC0',
      issuedAtEpochH: START_EPOCH_H + HOURS,
      spread: 'observed',
      remarks: [],
    },
  }
  return { weather, dewPointC }
}
