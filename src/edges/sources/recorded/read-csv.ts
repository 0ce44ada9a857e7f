/**
 * Recorded weather in a CSV file, the form of which is our own: UTC hours, SI units, empty cell = not known,
 * lines that start with `#` are remarks. Strict: a wrong cell is an error with its line, never a guess.
 */
import { parse } from 'csv-parse/sync'
import { SourceUnreadable } from '#app/failures.ts'
import {
  type Place,
  type Provenance,
  unknownWeatherArrays,
  type Weather,
  type WeatherVariable,
} from '#core/units/weather.ts'

interface Column {
  readonly variable: WeatherVariable
  readonly low: number
  readonly high: number
  readonly required: boolean
}

/** Bounds: what no station on earth exceeds; they catch a wrong unit or column, not a doubtful reading. */
const COLUMNS: { readonly [name: string]: Column } = {
  air_temp_c: { variable: 'airTempC', low: -90, high: 60, required: true },
  relative_humidity: { variable: 'relHumidity', low: 0, high: 1, required: true },
  rain_mm: { variable: 'rainMm', low: 0, high: 350, required: true },
  wind_m_s: { variable: 'windMs', low: 0, high: 115, required: true },
  gust_m_s: { variable: 'gustMs', low: 0, high: 115, required: false },
  wind_from_deg: { variable: 'windFromDeg', low: 0, high: 360, required: false },
  solar_w_m2: { variable: 'solarWm2', low: 0, high: 1600, required: true },
}
const TIME_COLUMN = 'time_utc'
const UTC_HOUR = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):00(?::00(?:\.0+)?)?(?:Z|\+00:00)$/
const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/
/** Longest series taken in one file [h]: 40 years. */
const MOST_HOURS = 40 * 8766

export interface CsvOrigin {
  readonly place: Place
  readonly provenance: Omit<Provenance, 'spread' | 'issuedAtEpochH'>
  /** How the file is called in an error. */
  readonly fileName: string
}

/** @returns the whole series, hours without a row unknown. */
export function weatherFromCsv(text: string, origin: CsvOrigin): Weather {
  const { provenance, fileName } = origin
  const fail = (line: number, what: string): never => {
    throw new SourceUnreadable(what, {
      source: provenance.source,
      where: `${fileName}, line ${line}`,
      cure: 'Correct the file; leave a cell empty when its value is not known.',
    })
  }
  const lines: number[] = []
  let records: string[][]
  try {
    records = parse(text, {
      bom: true,
      comment: '#',
      comment_no_infix: true,
      trim: true,
      relax_column_count: true,
      skip_empty_lines: true,
      on_record: (record: string[], context) => {
        lines.push(context.lines)
        return record
      },
    })
  } catch (cause) {
    throw new SourceUnreadable('is not a readable CSV file', {
      source: provenance.source,
      where: fileName,
      cure: 'Correct the file.',
      cause,
    })
  }
  const header = records[0] ?? fail(1, 'the file is empty')
  const columns = columnsOf(header, (what) => fail(lines[0]!, what))
  const timeAt = header.indexOf(TIME_COLUMN)

  const epochHours = new Int32Array(records.length - 1)
  for (let row = 1; row < records.length; row++) {
    const record = records[row]!
    if (record.length !== header.length)
      fail(lines[row]!, `has ${record.length} cells where the header names ${header.length}`)
    const epochH = epochHourOfStamp(record[timeAt]!)
    if (Number.isNaN(epochH))
      fail(lines[row]!, `"${record[timeAt]}" is not a full hour in UTC such as 2013-10-01T14:00Z`)
    if (row > 1 && epochH <= epochHours[row - 2]!)
      fail(lines[row]!, `"${record[timeAt]}" does not follow the line before it`)
    epochHours[row - 1] = epochH
  }
  if (epochHours.length === 0) fail(lines[0]!, 'has a header but no hours')
  const startEpochH = epochHours[0]!
  const hours = epochHours[epochHours.length - 1]! - startEpochH + 1
  if (hours > MOST_HOURS) fail(lines[lines.length - 1]!, 'is more than 40 years after the first line')

  const arrays = unknownWeatherArrays(1, hours)
  for (let at = 0; at < header.length; at++) {
    const column = columns[at]
    if (column === undefined) continue
    const target = arrays[column.variable]
    for (let row = 1; row < records.length; row++) {
      const cell = records[row]![at]!
      if (cell === '') continue
      const value = NUMBER.test(cell) ? Number(cell) : Number.NaN
      if (!(value >= column.low && value <= column.high))
        fail(lines[row]!, `${header[at]} "${cell}" is not a number from ${column.low} to ${column.high}`)
      target[epochHours[row - 1]! - startEpochH] = value
    }
  }
  return {
    place: origin.place,
    startEpochH,
    hours,
    members: 1,
    ...arrays,
    provenance: { ...provenance, issuedAtEpochH: startEpochH + hours, spread: 'observed' },
  }
}

/** @returns for each cell of the header its column; nothing for the time. */
function columnsOf(header: readonly string[], fail: (what: string) => never): readonly (Column | undefined)[] {
  const seen = new Set<string>()
  const columns = header.map((name) => {
    if (seen.has(name)) fail(`names the column "${name}" twice`)
    seen.add(name)
    if (name === TIME_COLUMN) return undefined
    return Object.hasOwn(COLUMNS, name)
      ? COLUMNS[name]
      : fail(`"${name}" is not a column we know; known are ${[TIME_COLUMN, ...Object.keys(COLUMNS)].join(', ')}`)
  })
  for (const name of [TIME_COLUMN, ...Object.keys(COLUMNS).filter((key) => COLUMNS[key]!.required)])
    if (!seen.has(name)) fail(`the column "${name}" is missing`)
  return columns
}

/** @returns hours since the epoch, NaN if the stamp is no full UTC hour of the calendar. */
function epochHourOfStamp(stamp: string): number {
  const parts = UTC_HOUR.exec(stamp)
  if (parts === null) return Number.NaN
  const [year, month, day, hour] = [Number(parts[1]), Number(parts[2]), Number(parts[3]), Number(parts[4])]
  if (hour > 23) return Number.NaN
  const ms = Date.UTC(year, month - 1, day, hour)
  const back = new Date(ms)
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === day ? ms / 3_600_000 : Number.NaN
}
