/**
 * Hourly answers, of one model run or of an ensemble, to weather. The only place where their units and stamps are known.
 *
 * Temperature, humidity, wind and direction are given for the instant of the stamp: an hour's mean is the middle of
 * the two stamps around it. Rain, gusts and sunlight are given for the hour BEFORE the stamp: they are moved back.
 */

import { SourceTooThin, SourceUnreadable } from '#app/failures.ts'
import {
  type Place,
  unknownWeatherArrays,
  type Weather,
  type WeatherArrays,
  type WeatherVariable,
} from '#core/units/weather.ts'
import { epochHoursOfIso } from '#edges/sources/iso-time.ts'
import type { ForecastParts, Told } from '#edges/sources/reading.ts'
import type { Grid } from '#edges/sources/spans.ts'
import { alongSteps, directionAlongSteps, type Steps } from '#edges/sources/steps.ts'
import { intoOurs, type Quantity, same } from '#edges/sources/units.ts'
import { OPEN_METEO_CREDIT } from './credit.ts'
import type { HourlyAnswer } from './schema.ts'

interface Series {
  readonly name: string
  readonly quantity: Quantity
  readonly stamp: 'instant' | 'direction' | 'hour before'
}

const SERIES: { readonly [V in WeatherVariable]: Series } = {
  airTempC: { name: 'temperature_2m', quantity: 'temperature', stamp: 'instant' },
  relHumidity: { name: 'relative_humidity_2m', quantity: 'share', stamp: 'instant' },
  rainMm: { name: 'precipitation', quantity: 'rain', stamp: 'hour before' },
  windMs: { name: 'wind_speed_10m', quantity: 'speed', stamp: 'instant' },
  gustMs: { name: 'wind_gusts_10m', quantity: 'speed', stamp: 'hour before' },
  windFromDeg: { name: 'wind_direction_10m', quantity: 'direction', stamp: 'direction' },
  solarWm2: { name: 'shortwave_radiation', quantity: 'irradiance', stamp: 'hour before' },
}
const CHANCE: Series = { name: 'precipitation_probability', quantity: 'percent', stamp: 'hour before' }

/** Names to ask for. */
export const ENSEMBLE_VARIABLES = Object.values(SERIES).map(({ name }) => name)
export const FORECAST_VARIABLES = [...ENSEMBLE_VARIABLES, CHANCE.name]

const MEMBER = /^temperature_2m(?:_member(\d+))?$/
const MOST_MEMBERS = 200
const MOST_HOURS = 16 * 24
/** Gaps between stamps up to this are bridged [h]: some ensembles come three- or six-hourly. */
const LONGEST_STEP_H = 6

/** @returns the forecast from the hour that contains now, not yet screened; the control run is the first member. */
export function weatherFromHourlyAnswer(
  answer: HourlyAnswer,
  place: Place,
  nowEpochH: number,
  kind: 'single' | 'ensemble',
  told: Told,
): ForecastParts {
  const { hourly, utc_offset_seconds: offsetS } = answer
  const stamps = stampsOf(hourly.time, offsetS, told)
  const startEpochH = Math.floor(nowEpochH)
  const hours = Math.min(MOST_HOURS, stamps.at(-1)! - startEpochH)
  if (hours < 1) throw new SourceTooThin('temperature', 0, told)
  const grid = { startEpochH, hours }
  const suffixes = kind === 'single' ? [''] : membersOf(Object.keys(hourly), told)
  const read = readerOf(answer, stamps, grid, told)
  const arrays = readAll(read, suffixes, hours)
  const popPct = new Float32Array(hours).fill(Number.NaN)
  const hasChances = kind === 'single' && read(CHANCE, '', popPct)
  return {
    weather: {
      place,
      ...grid,
      members: suffixes.length,
      ...arrays,
      provenance: {
        source: OPEN_METEO_CREDIT.name,
        attribution: OPEN_METEO_CREDIT.attribution,
        licence: OPEN_METEO_CREDIT.licence,
        issuedAtEpochH: nowEpochH,
        spread: kind,
        remarks: ['The supplier does not say when it was issued; the time of asking is shown.'],
      },
    },
    chances: hasChances ? { popPct, popBlockH: new Float32Array(hours).fill(1) } : {},
  }
}

/** @returns the past hours of the grid, not yet screened, unknown where the answer has none. */
export function pastFromHourlyAnswer(answer: HourlyAnswer, place: Place, grid: Grid, told: Told): Weather {
  const stamps = stampsOf(answer.hourly.time, answer.utc_offset_seconds, told)
  const arrays = readAll(readerOf(answer, stamps, grid, told), [''], grid.hours)
  const { name: source, attribution, licence } = OPEN_METEO_CREDIT
  const issuedAtEpochH = grid.startEpochH + grid.hours
  return {
    place,
    ...grid,
    members: 1,
    ...arrays,
    provenance: { source, attribution, licence, issuedAtEpochH, spread: 'observed', remarks: [] },
  }
}

/** Reads one series into its hours; says whether it holds anything. */
type ReadSeries = (series: Series, suffix: string, into: Float32Array) => boolean

function readerOf(
  { hourly, hourly_units: units }: HourlyAnswer,
  stamps: readonly number[],
  grid: Grid,
  told: Told,
): ReadSeries {
  const known = { atEpochH: new Float64Array(stamps.length), value: new Float64Array(stamps.length) }
  return ({ name, quantity, stamp }, suffix, into) => {
    const steps = stepsOf(seriesOf(hourly, name + suffix, told), stamps, known)
    if (steps.value.length === 0) return false
    convertAll(steps.value, intoOurs(quantity, units[name + suffix], name, told))
    if (stamp === 'instant') alongSteps(steps, grid, LONGEST_STEP_H, into)
    else if (stamp === 'direction') directionAlongSteps(steps, grid, LONGEST_STEP_H, into)
    else for (let i = 0; i < steps.value.length; i++) into[steps.atEpochH[i]! - 1 - grid.startEpochH] = steps.value[i]!
    return true
  }
}

function readAll(read: ReadSeries, suffixes: readonly string[], hours: number): WeatherArrays {
  const arrays = unknownWeatherArrays(suffixes.length, hours)
  for (const [variable, series] of Object.entries(SERIES) as [WeatherVariable, Series][])
    suffixes.forEach((suffix, member) => {
      read(series, suffix, arrays[variable].subarray(member * hours, (member + 1) * hours))
    })
  return arrays
}

/** Stamps carry no offset; they are local by the one offset that the whole answer names, which is 0 as asked for. */
function stampsOf(time: readonly string[], offsetS: number, told: Told): readonly number[] {
  let last = Number.NEGATIVE_INFINITY
  return time.map((text) => {
    const stamp = epochHoursOfIso(`${text}Z`) - offsetS / 3600
    if (!Number.isInteger(stamp) || stamp <= last)
      throw new SourceUnreadable(`the stamp "${text.slice(0, 40)}" is no full hour or out of order`, told)
    last = stamp
    return stamp
  })
}

function membersOf(names: readonly string[], told: Told): readonly string[] {
  const suffixes = names
    .filter((name) => MEMBER.test(name))
    .map((name) => name.slice(SERIES.airTempC.name.length))
    .sort()
  if (suffixes.length < 2 || suffixes.length > MOST_MEMBERS)
    throw new SourceUnreadable(`is no ensemble: it has ${suffixes.length} members`, told)
  return suffixes
}

function seriesOf(hourly: HourlyAnswer['hourly'], name: string, told: Told): readonly (number | null)[] {
  const values = Object.hasOwn(hourly, name) ? (hourly[name] as readonly (number | null)[]) : undefined
  if (values === undefined) return []
  if (values.length !== hourly.time.length)
    throw new SourceUnreadable(`${name} has ${values.length} values for ${hourly.time.length} stamps`, told)
  return values
}

/** What is known of a series, in columns that are used again for the next one. */
function stepsOf(values: readonly (number | null)[], stamps: readonly number[], columns: Steps): Steps {
  let count = 0
  for (let at = 0; at < values.length; at++) {
    const value = values[at]!
    if (value === null) continue
    columns.atEpochH[count] = stamps[at]!
    columns.value[count] = value
    count++
  }
  return { atEpochH: columns.atEpochH.subarray(0, count), value: columns.value.subarray(0, count) }
}

function convertAll(values: Float64Array, convert: (value: number) => number): void {
  if (convert === same) return
  for (let i = 0; i < values.length; i++) values[i] = convert(values[i]!)
}
