/**
 * Recorded weather with a clock: what lies before "now" was observed, what lies after it stands in for the forecast.
 * The demo and the replay of past autumns run on it, through the same ports as the live services.
 */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { gunzipSync } from 'node:zlib'
import { earlierYearsFrom } from '#app/earlier-years.ts'
import { SourceUnreadable } from '#app/failures.ts'
import type { EarlierYears, ForecastSource, ObservationSource } from '#app/ports.ts'
import { instantOf } from '#core/units/time.ts'
import { type Place, type Provenance, RECORDED, type Weather, type WeatherToNow } from '#core/units/weather.ts'
import { hoursBetween, sharedHours } from '#core/units/weather-hours.ts'
import { weatherFromCsv } from './read-csv.ts'

/** Who measured it; `issuedAtEpochH` and `spread` follow from the file. */
export type RecordedProvenance = Omit<Provenance, 'spread' | 'issuedAtEpochH'>

/** @param text the CSV itself. @returns the full series, one member, spread `observed`. */
export function recordedWeather(
  text: string,
  place: Place,
  provenance: RecordedProvenance,
  fileName = RECORDED,
): Weather {
  return weatherFromCsv(text, { place, provenance, fileName })
}

/** A packed file may hold so much [bytes]: forty years of hours take less. */
const MOST_UNPACKED = 64e6

/** The same from a file, packed with gzip if its name ends in `.gz`. */
export function readRecordedWeather(path: string, place: Place, provenance: RecordedProvenance): Weather {
  let text: string
  try {
    const bytes = readFileSync(path)
    text = (path.endsWith('.gz') ? gunzipSync(bytes, { maxOutputLength: MOST_UNPACKED }) : bytes).toString('utf8')
  } catch (cause) {
    throw new SourceUnreadable('the file cannot be read', {
      source: provenance.source,
      where: path,
      cure: 'Check the path, that the service may read it, and that it is whole.',
      cause,
    })
  }
  return recordedWeather(text, place, provenance, path)
}

/**
 * Cuts a recorded series at a moment.
 *
 * @param full a series of one member
 * @param nowEpochH now, hours since the epoch; the hour that contains it is the first one ahead
 * @param aheadHours how far the stand-in forecast reaches; it is shorter where the record ends
 * @param pastHours how much of the past is kept; all of it if not given
 * @returns the past (`observed`) and the recorded future (`single`, issued now)
 */
export function splitAt(
  full: Weather,
  nowEpochH: number,
  aheadHours: number,
  pastHours: number = full.hours,
): WeatherToNow {
  const hour = Math.floor(nowEpochH)
  const endEpochH = full.startEpochH + full.hours
  if (!(hour >= full.startEpochH && hour < endEpochH)) {
    throw new SourceUnreadable(`has no weather at ${instantOf(nowEpochH)}`, {
      source: full.provenance.source,
      where: `recorded from ${instantOf(full.startEpochH)} to ${instantOf(endEpochH)}`,
      cure: 'Choose a moment inside the record.',
    })
  }
  const past = hoursBetween(full, Math.max(full.startEpochH, hour - pastHours), hour)
  const ahead = hoursBetween(full, hour, Math.min(endEpochH, hour + aheadHours))
  return {
    past: { ...past, provenance: { ...full.provenance, issuedAtEpochH: Math.floor(nowEpochH), spread: 'observed' } },
    ahead: {
      ...ahead,
      provenance: {
        ...full.provenance,
        issuedAtEpochH: nowEpochH,
        spread: 'single',
        remarks: [...full.provenance.remarks, 'Recorded weather stands in for the forecast.'],
      },
    },
  }
}

/** The recorded future as a forecast source. */
export function recordedForecast(full: Weather, aheadHours: number): ForecastSource {
  return {
    ...credit(full),
    fetch: async ({ nowEpochH }) => {
      const { ahead } = splitAt(full, nowEpochH, aheadHours)
      return { weather: ahead, chances: {}, rawHash: hashOf(ahead), notes: [] }
    },
  }
}

/** The recorded past as an observation source. */
export function recordedObservations(full: Weather): ObservationSource {
  return {
    ...credit(full),
    fetch: async ({ nowEpochH, hoursBack }) => {
      const { past } = splitAt(full, nowEpochH, 0, hoursBack)
      const station = { id: 'recorded', name: full.provenance.source, place: full.place, distanceKm: 0 }
      return { weather: past, station, rawHash: hashOf(past), notes: [] }
    },
  }
}

/**
 * Earlier years of a record, as far as they were over at the time of asking.
 *
 * @param read gives the record, which may be long: it is read when first asked for.
 */
export function recordedYears(read: () => Weather): EarlierYears {
  let record: Weather | undefined
  const between = async (_: Place, fromEpochH: number, toEpochH: number): Promise<Weather | undefined> => {
    record ??= read()
    return sharedHours(record, fromEpochH, toEpochH)
  }
  return earlierYearsFrom(between)
}

function credit(full: Weather) {
  const { source, attribution, licence } = full.provenance
  return { id: 'recorded', name: source, attribution, licence }
}

function hashOf(weather: Weather): string {
  const hash = createHash('sha256').update(`${weather.startEpochH}`)
  for (const values of [weather.airTempC, weather.relHumidity, weather.rainMm, weather.windMs, weather.solarWm2])
    hash.update(new Uint8Array(values.buffer, values.byteOffset, values.byteLength))
  return hash.digest('hex')
}
