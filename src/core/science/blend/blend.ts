/**
 * One forecast from several: temperature, dew point and wind as a mean of the sources, each corrected by what it has lately
 * been off at this place and weighed by the error expected at its lead, age counted in. Rain, sunlight, gusts and chances
 * come from one source, the leader, so that wet hours stay moist and dark; where it has none the next one helps out.
 * If one of the sources has members, they are kept and moved as a whole so that their middle is the blend.
 */
import { relHumidityFromDewPoint } from '#core/science/air/vapour.ts'
import type { SaidChances } from '#core/science/spread/chances.ts'
import type { ErrorScale } from '#core/science/spread/grow-members.ts'
import { unknownWeatherArrays, type Weather, type WeatherArrays, type WeatherVariable } from '#core/units/weather.ts'
import {
  classOf,
  correction,
  expectedSquare,
  isDayAt,
  LEARNT,
  type Learnt,
  learntAt,
  type SourceSkill,
  usualSquare,
  windOfLog,
} from './skill.ts'

export interface Candidate {
  readonly id: string
  readonly weather: Weather
  readonly chances: SaidChances
  readonly skill: SourceSkill
}

export interface Blended {
  readonly weather: Weather
  readonly chances: SaidChances
  /** Expected error of the blend against the usual one, mean of the coming two days. */
  readonly errorScale: ErrorScale
  /** Share of each source in the temperature of the coming two days. */
  readonly shares: readonly { readonly id: string; readonly share: number }[]
}

/** The leader is the first in the farm's order, unless another was issued so much later [h]. */
const MUCH_FRESHER_H = 9
/** A source that ends before the others is faded out over its last hours, so that no step is left [h]. */
const FADE_H = 12
const TOLD_H = 48
const FROM_LEADER: readonly WeatherVariable[] = ['rainMm', 'solarWm2', 'gustMs', 'windFromDeg']

/**
 * @param candidates in the farm's order, at least one. @param startEpochH first hour of the blend.
 * @returns from that hour to the last one that any candidate knows; one member, or those of the first candidate with members.
 */
export function blend(candidates: readonly Candidate[], startEpochH: number): Blended {
  const leader = leaderOf(candidates)
  const order = [leader, ...candidates.filter((candidate) => candidate !== leader)]
  const endEpochH = Math.max(...order.map(({ weather }) => weather.startEpochH + weather.hours))
  const hours = Math.max(0, endEpochH - startEpochH)
  const means = order.map((candidate) => ({ ...candidate, weather: middleOf(candidate.weather) }))
  const single = unknownWeatherArrays(1, hours)
  const tally = new Map<Learnt, { expected: number; usual: number; hours: number }>(
    LEARNT.map((variable) => [variable, { expected: 0, usual: 0, hours: 0 }]),
  )
  const shares = new Float64Array(order.length)

  for (let h = 0; h < hours; h++) {
    const epochH = startEpochH + h
    const isDay = isDayAt(leader.weather, epochH)
    const blended = { airTempC: Number.NaN, dewPointC: Number.NaN, logWind: Number.NaN }
    for (const variable of LEARNT) {
      let sum = 0
      let weights = 0
      let expected = 0
      const mine = new Float64Array(order.length)
      for (const [s, { weather, skill }] of means.entries()) {
        const i = epochH - weather.startEpochH
        if (i < 0 || i >= weather.hours) continue
        const leadH = epochH + 0.5 - weather.provenance.issuedAtEpochH
        const k = classOf(leadH, isDay)
        const value = learntAt(weather, i)[variable] - correction(skill, variable, k)
        if (Number.isNaN(value)) continue
        const square = expectedSquare(skill, variable, k, leadH)
        const left = weather.hours - i
        const isLast = weather.startEpochH + weather.hours === endEpochH
        const weight = (isLast ? 1 : Math.min(1, left / FADE_H)) / Math.max(square, 1e-6)
        sum += weight * value
        expected += weight * square
        weights += weight
        mine[s] = weight
      }
      if (weights === 0) continue
      blended[variable] = sum / weights
      if (h >= TOLD_H) continue
      const told = tally.get(variable)!
      told.expected += expected / weights
      told.usual += usualSquare(variable, epochH + 0.5 - leader.weather.provenance.issuedAtEpochH)
      told.hours++
      if (variable === 'airTempC') for (const s of shares.keys()) shares[s]! += mine[s]! / weights
    }
    single.airTempC[h] = blended.airTempC
    single.relHumidity[h] = Math.min(
      1,
      relHumidityFromDewPoint(blended.airTempC, Math.min(blended.dewPointC, blended.airTempC)),
    )
    single.windMs[h] = windOfLog(blended.logWind)
    for (const variable of FROM_LEADER) single[variable][h] = firstKnown(means, variable, epochH)
    if (single.gustMs[h]! < single.windMs[h]!) single.gustMs[h] = single.windMs[h]!
  }

  const told = shares.reduce((sum, share) => sum + share, 0)
  const scaleOf = (variable: Learnt) => {
    const { expected, usual, hours: counted } = tally.get(variable)!
    return counted === 0 ? 1 : Math.sqrt(expected / usual)
  }
  const weather: Weather = { ...leader.weather, ...single, startEpochH, hours, members: 1 }
  const withMembers = order.find((candidate) => candidate.weather.members > 1)
  return {
    weather: withMembers ? moved(withMembers.weather, weather) : weather,
    chances: chancesFrom(order, startEpochH, hours),
    errorScale: { airTempC: scaleOf('airTempC'), dewPointC: scaleOf('dewPointC'), windMs: scaleOf('logWind') },
    shares: order.map(({ id }, s) => ({ id, share: told > 0 ? shares[s]! / told : Number.NaN })),
  }
}

function leaderOf(candidates: readonly Candidate[]): Candidate {
  const first = candidates[0]
  if (!first) throw new RangeError('blend needs at least one candidate')
  const issued = ({ weather }: Candidate) => weather.provenance.issuedAtEpochH
  const freshest = candidates.reduce((best, candidate) => (issued(candidate) > issued(best) ? candidate : best))
  return issued(freshest) > issued(first) + MUCH_FRESHER_H ? freshest : first
}

/** The mean of the members; the direction is that of the first. */
export function middleOf(weather: Weather): Weather {
  const { members, hours } = weather
  if (members === 1) return weather
  const arrays = unknownWeatherArrays(1, hours)
  for (const variable of ['airTempC', 'relHumidity', 'rainMm', 'windMs', 'gustMs', 'solarWm2'] as const) {
    for (let h = 0; h < hours; h++) {
      let sum = 0
      for (let m = 0; m < members; m++) sum += weather[variable][m * hours + h]!
      arrays[variable][h] = sum / members
    }
  }
  arrays.windFromDeg.set(weather.windFromDeg.subarray(0, hours))
  return { ...weather, ...arrays, members: 1 }
}

function firstKnown(
  candidates: readonly { readonly weather: Weather }[],
  variable: WeatherVariable,
  epochH: number,
): number {
  for (const { weather } of candidates) {
    const i = epochH - weather.startEpochH
    if (i < 0 || i >= weather.hours) continue
    const value = weather[variable][i]!
    if (!Number.isNaN(value)) return value
  }
  return Number.NaN
}

/** Most that members are moved: more is no correction but another forecast. */
const MOST_MOVED_C = 5
const MOST_WIND_FACTOR = 1.8

/** Members moved so that their middle is the target, hour by hour; rain, sunlight and direction stay their own. */
function moved(source: Weather, target: Weather): Weather {
  const { members } = source
  const { hours, startEpochH } = target
  const arrays = unknownWeatherArrays(members, hours)
  const middle = middleOf(source)
  for (let h = 0; h < hours; h++) {
    const i = startEpochH + h - source.startEpochH
    if (i < 0 || i >= source.hours) continue
    const from = learntAt(middle, i)
    const to = learntAt(target, h)
    const warmer = held(to.airTempC - from.airTempC, MOST_MOVED_C)
    const moister = held(to.dewPointC - from.dewPointC, MOST_MOVED_C)
    const ratio = target.windMs[h]! / middle.windMs[i]!
    const windier = Number.isNaN(ratio) ? 1 : Math.min(MOST_WIND_FACTOR, Math.max(1 / MOST_WIND_FACTOR, ratio))
    for (let m = 0; m < members; m++) {
      moveHour(source, m * source.hours + i, arrays, m * hours + h, { warmer, moister, windier })
    }
  }
  const ends = Math.min(hours, source.startEpochH + source.hours - startEpochH)
  return cutTo({ ...target, ...arrays, members, provenance: { ...target.provenance, spread: 'ensemble' } }, ends)
}

function moveHour(
  source: Weather,
  i: number,
  arrays: WeatherArrays,
  at: number,
  by: { readonly warmer: number; readonly moister: number; readonly windier: number },
): void {
  const { airTempC, dewPointC } = learntAt(source, i)
  const tempC = airTempC + by.warmer
  arrays.airTempC[at] = tempC
  arrays.relHumidity[at] = Math.min(1, relHumidityFromDewPoint(tempC, Math.min(dewPointC + by.moister, tempC)))
  arrays.windMs[at] = source.windMs[i]! * by.windier
  arrays.gustMs[at] = source.gustMs[i]! * by.windier
  arrays.rainMm[at] = source.rainMm[i]!
  arrays.windFromDeg[at] = source.windFromDeg[i]!
  arrays.solarWm2[at] = source.solarWm2[i]!
}

/** An unknown difference moves nothing. */
const held = (by: number, most: number): number => (Number.isNaN(by) ? 0 : Math.min(most, Math.max(-most, by)))

function cutTo(weather: Weather, hours: number): Weather {
  if (hours === weather.hours) return weather
  const arrays = unknownWeatherArrays(weather.members, hours)
  for (const name of Object.keys(arrays) as WeatherVariable[])
    for (let m = 0; m < weather.members; m++)
      arrays[name].set(weather[name].subarray(m * weather.hours, m * weather.hours + hours), m * hours)
  return { ...weather, ...arrays, hours }
}

const RAIN_CHANCES = ['popPct', 'popBlockH', 'rainMinMm', 'rainMaxMm'] as const

/**
 * Chances of rain from the first source in order that gives them. Said ranges of temperature and wind belong to their own
 * source's middle; they are kept only where the blend is that one source.
 */
function chancesFrom(order: readonly Candidate[], startEpochH: number, hours: number): SaidChances {
  const rain = order.find(({ chances }) => chances.popPct?.some((value) => !Number.isNaN(value)))
  const shifted = (candidate: Candidate, names: readonly (keyof SaidChances)[]) => {
    const out: { -readonly [C in keyof SaidChances]: SaidChances[C] } = {}
    for (const name of names) {
      const values = candidate.chances[name]
      if (!values) continue
      out[name] = Float32Array.from(
        { length: hours },
        (_, h) => values[startEpochH + h - candidate.weather.startEpochH] ?? Number.NaN,
      )
    }
    return out
  }
  const only = order.length === 1 ? shifted(order[0]!, ['airTempP10C', 'airTempP90C', 'windP10Ms', 'windP90Ms']) : {}
  return { ...only, ...(rain ? shifted(rain, RAIN_CHANCES) : {}) }
}
