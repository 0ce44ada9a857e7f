/**
 * The season beyond the forecast: weather of past years at the place, carried on from each member of the forecast, as
 * scenarios for dates weeks ahead. No skill is claimed there: the scenarios spread as the years do.
 */
import { fillGaps } from '#core/field/gaps.ts'
import { dewPointC, relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import type { GrainParticle } from '#core/science/grain/standing.ts'
import { type Random, seededRandom } from '#core/units/random.ts'
import { HOURS_PER_DAY, localDateOf } from '#core/units/time.ts'
import { unknownWeatherArrays, WEATHER_VARIABLES, type Weather, type WeatherArrays } from '#core/units/weather.ts'
import { hoursBetween } from '#core/units/weather-hours.ts'
import type { Outlook } from './outlook.ts'

/** A year is taken as if it came a few days earlier or later: more scenarios, and no date that is special [d]. */
const SHIFT_DAYS = 3
/** Hours by which what a member is off from its year at the seam has faded to a third [h]. */
const SEAM_FADES_H = 30
/** A year must know this share of the hours asked of it. */
const KNOWN_SHARE = 0.95
/** Fewer years than this are told to be few. */
const ENOUGH_YEARS = 10
/** A year with a gap in it that stays unknown is a year less, not a hole in the season. */
const NEEDED = ['airTempC', 'relHumidity', 'rainMm', 'windMs'] as const

export interface SeasonWeather {
  /** The forecast, each member followed by a past year. */
  readonly weather: Weather
  /** Past years that cover the season. */
  readonly years: number
}

/**
 * Joins past years to a forecast.
 *
 * @param ahead the forecast, any number of members. @param years observed weather of one member each, or one long record
 *   of many years; parts that do not cover the season are passed over.
 * @param endEpochH one past the last hour wanted.
 * @returns the forecast followed by past years, each member by one of them; undefined where no year covers the season.
 *
 * A year keeps its hour of the day (shifted by whole days) and its joint shape of all variables. At the seam temperature and
 * dew point run on from the member and fade to the year's own within about two days.
 * Checked on 28 autumns, each against the other 27 (tests/core/outlook/season.test.ts).
 */
export function seasonAhead(
  ahead: Weather,
  years: readonly Weather[],
  endEpochH: number,
  seed: number,
): SeasonWeather | undefined {
  const joinEpochH = ahead.startEpochH + ahead.hours
  const extraH = endEpochH - joinEpochH
  if (extraH <= 0) return { weather: ahead, years: 0 }
  const pieces = years.flatMap((record) => piecesOf(record, joinEpochH, extraH))
  if (pieces.length === 0) return undefined
  const hours = ahead.hours + extraH
  const arrays = unknownWeatherArrays(ahead.members, hours)
  const random = seededRandom(seed)
  const order = shuffled(pieces, random)
  for (let member = 0; member < ahead.members; member++) {
    const from = member * ahead.hours
    for (const name of WEATHER_VARIABLES)
      arrays[name].set(ahead[name].subarray(from, from + ahead.hours), member * hours)
    const piece = order[member % order.length]!
    const shiftH = Math.round((2 * random.uniform() - 1) * SHIFT_DAYS) * HOURS_PER_DAY
    carryOn(arrays, member * hours + ahead.hours, piece, SHIFT_DAYS * HOURS_PER_DAY + shiftH, extraH)
  }
  const few = areFew(pieces.length) ? ', too few to show all that can come' : ''
  const remark = `From ${localDateOf(joinEpochH, 'UTC')} on the weather of ${pieces.length} past years${few}.`
  const provenance = { ...ahead.provenance, remarks: [...ahead.provenance.remarks, remark] }
  return { weather: { ...ahead, ...arrays, hours, provenance }, years: pieces.length }
}

export const areFew = (years: number): boolean => years < ENOUGH_YEARS

/** The same season in every year of a record, with room to shift on either side; filled where gaps are short. */
function piecesOf(record: Weather, joinEpochH: number, extraH: number): Weather[] {
  const room = SHIFT_DAYS * HOURS_PER_DAY
  const join = localDateOf(joinEpochH, 'UTC')
  const firstYear = localDateOf(record.startEpochH, 'UTC').year
  const lastYear = localDateOf(record.startEpochH + record.hours, 'UTC').year
  const pieces: Weather[] = []
  // A season may run over the new year: the year before its end counts too.
  for (let year = firstYear - 1; year <= lastYear; year++) {
    const days = join.with({ year }).until(join).days
    if (days <= 0) continue
    // The hour before the seam comes along, to run on from.
    const fromEpochH = joinEpochH - days * HOURS_PER_DAY - room
    const toEpochH = fromEpochH + extraH + 2 * room
    if (fromEpochH <= record.startEpochH || toEpochH > record.startEpochH + record.hours) continue
    const piece = fillGaps(hoursBetween(record, fromEpochH - 1, toEpochH)).weather
    if (NEEDED.every((name) => knownShare(piece[name]) >= KNOWN_SHARE)) pieces.push(piece)
  }
  return pieces
}

const knownShare = (values: Float32Array): number =>
  values.reduce((count, value) => count + (Number.isNaN(value) ? 0 : 1), 0) / values.length

/** @param offsetH hours into the piece, its first hour being the one before the seam. */
function carryOn(arrays: WeatherArrays, at: number, piece: Weather, offsetH: number, extraH: number): void {
  const dewAt = (temp: number, humidity: number) => dewPointC(temp, humidity)
  const before = offsetH
  const warmer = known(arrays.airTempC[at - 1]! - piece.airTempC[before]!)
  const moister = known(
    dewAt(arrays.airTempC[at - 1]!, arrays.relHumidity[at - 1]!) -
      dewAt(piece.airTempC[before]!, piece.relHumidity[before]!),
  )
  for (let k = 0; k < extraH; k++) {
    const p = offsetH + 1 + k
    const left = Math.exp(-(k + 1) / SEAM_FADES_H)
    for (const name of WEATHER_VARIABLES) arrays[name][at + k] = piece[name][p]!
    const tempC = piece.airTempC[p]! + left * warmer
    const dewC = dewAt(piece.airTempC[p]!, piece.relHumidity[p]!) + left * moister
    arrays.airTempC[at + k] = tempC
    arrays.relHumidity[at + k] = Math.min(1, relHumidityFromDewPoint(tempC, Math.min(dewC, tempC)))
  }
}

const known = (value: number): number => (Number.isNaN(value) ? 0 : value)

/** Fisher and Yates 1938, in the form of Durstenfeld 1964. */
function shuffled<T>(items: readonly T[], random: Random): T[] {
  const out = [...items]
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(random.uniform() * (i + 1))
    ;[out[i], out[j]] = [out[j]!, out[i]!]
  }
  return out
}

export interface LikelyDates {
  /** Share of the courses in which the day comes before the outlook ends, 0-1. */
  readonly chance: number
  /** One in ten courses has it by then, half, nine in ten; undefined = not before the end. */
  readonly early: Temporal.PlainDate | undefined
  readonly middle: Temporal.PlainDate | undefined
  readonly late: Temporal.PlainDate | undefined
}

/** Fit hours that make a day worth starting on: what a move and a warm-up leave of half a day. Choice, no source [h]. */
const WORKING_DAY_H = 4

/**
 * When a part will likely be fit: over the courses of its outlook, the first local day with four fit hours.
 *
 * @param fromEpochH hours before this do not count, such as those that a forecast covers; all count unless told.
 */
export function likelyDates(
  outlook: Outlook,
  timeZone: string,
  fromEpochH: number = Number.NEGATIVE_INFINITY,
): LikelyDates {
  const { courses, hours, startEpochH, holdbackBits } = outlook
  const dates = Array.from({ length: hours }, (_, h) => localDateOf(startEpochH + h, timeZone))
  const dayOf = new Int32Array(hours)
  for (let h = 1; h < hours; h++) dayOf[h] = dayOf[h - 1]! + (dates[h]!.equals(dates[h - 1]!) ? 0 : 1)
  const from = Math.max(0, Math.ceil(fromEpochH) - startEpochH)
  const firstHours: number[] = []
  for (let course = 0; course < courses; course++) {
    let day = -1
    let fit = 0
    for (let h = from; h < hours; h++) {
      if (dayOf[h] !== day) {
        day = dayOf[h]!
        fit = 0
      }
      if (holdbackBits[course * hours + h] !== 0) continue
      if (++fit < WORKING_DAY_H) continue
      firstHours.push(h)
      break
    }
  }
  return datesOf(firstHours, courses, (h) => dates[h]!)
}

/** When a part ripens, or did: over its particles. */
export function likelyRipe(particles: readonly Pick<GrainParticle, 'matureEpochH'>[], timeZone: string): LikelyDates {
  const known = particles.map(({ matureEpochH }) => matureEpochH).filter((epochH) => !Number.isNaN(epochH))
  return datesOf(known, particles.length, (epochH) => localDateOf(epochH, timeZone))
}

/** @param came one figure for each course in which it came, in order of time once sorted. */
function datesOf(came: number[], courses: number, dateOf: (value: number) => Temporal.PlainDate): LikelyDates {
  came.sort((a, b) => a - b)
  const at = (share: number) => {
    const value = came[Math.ceil(share * courses) - 1]
    return value === undefined ? undefined : dateOf(value)
  }
  return { chance: came.length / courses, early: at(0.1), middle: at(0.5), late: at(0.9) }
}
