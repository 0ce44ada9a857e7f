/**
 * How well a source has lately matched what was seen at a place: mean error and mean square error of temperature, dew
 * point and wind, by lead and by day or night. A running mean with a short memory, so it follows the season.
 */
import { extraterrestrialWm2 } from '#core/science/air/radiation.ts'
import { dewPointC } from '#core/science/air/vapour.ts'
import { errorGrowth } from '#core/science/spread/error-growth.ts'
import type { Weather } from '#core/units/weather.ts'

export const LEARNT = ['airTempC', 'dewPointC', 'logWind'] as const
export type Learnt = (typeof LEARNT)[number]

export interface Tally {
  /** Hours compared, held at the length of the memory. */
  readonly count: number
  /** Mean of forecast less observed. */
  readonly bias: number
  /** Mean square of forecast less observed. */
  readonly meanSquare: number
}

/** One tally per class: index = lead class * 2 + (1 by day, 0 by night). */
export type SourceSkill = { readonly [V in Learnt]: readonly Tally[] }

/** Ends of the lead classes [h]. */
export const LEAD_CLASS_ENDS_H = [12, 36, 84, 156, 264] as const
const CLASSES = LEAD_CLASS_ENDS_H.length * 2

/** Comparisons within the memory: about ten days of hours, each seen by some runs. Choice, no source. */
const MEMORY = 720
/** A bias is believed by half after so many comparisons: errors of one spell of weather are alike. Choice, no source. */
const HALF_BELIEVED = 120
/** Largest corrections: beyond these something else is wrong [deg C, deg C, ln]. */
const MOST_CORRECTION: { readonly [V in Learnt]: number } = { airTempC: 3, dewPointC: 3, logWind: 0.45 }
/** Keeps calm hours from ruling the logarithm of wind [m/s]. */
const WIND_OFFSET_MS = 0.5

const NOTHING: Tally = { count: 0, bias: 0, meanSquare: 0 }

export const emptySkill = (): SourceSkill => ({
  airTempC: new Array<Tally>(CLASSES).fill(NOTHING),
  dewPointC: new Array<Tally>(CLASSES).fill(NOTHING),
  logWind: new Array<Tally>(CLASSES).fill(NOTHING),
})

/** @returns index of the tally for a lead and hour; the last class also serves beyond its end. */
export function classOf(leadH: number, isDay: boolean): number {
  const found = LEAD_CLASS_ENDS_H.findIndex((end) => leadH < end)
  return (found < 0 ? LEAD_CLASS_ENDS_H.length - 1 : found) * 2 + (isDay ? 1 : 0)
}

/** Whether the sun stands above the horizon for a part of the hour. */
export const isDayAt = ({ place }: Weather, epochH: number): boolean =>
  extraterrestrialWm2(place.latDeg, place.lonDeg, epochH) > 0

/** What is compared, of one hour of one member. */
export function learntAt(weather: Weather, i: number): { readonly [V in Learnt]: number } {
  return {
    airTempC: weather.airTempC[i]!,
    dewPointC: dewPointC(weather.airTempC[i]!, weather.relHumidity[i]!),
    logWind: Math.log(weather.windMs[i]! + WIND_OFFSET_MS),
  }
}

export const windOfLog = (logWind: number): number => Math.max(0, Math.exp(logWind) - WIND_OFFSET_MS)

/**
 * Holds one forecast against what was seen since.
 *
 * @param forecast one member. @param seen one member. @param fromEpochH and @param toEpochH the hours not yet compared.
 * @returns the skill after it; hours unknown in either are passed over.
 */
export function learn(
  skill: SourceSkill,
  forecast: Weather,
  seen: Weather,
  fromEpochH: number,
  toEpochH: number,
): SourceSkill {
  const next = { airTempC: [...skill.airTempC], dewPointC: [...skill.dewPointC], logWind: [...skill.logWind] }
  const from = Math.max(fromEpochH, forecast.startEpochH, seen.startEpochH)
  const to = Math.min(toEpochH, forecast.startEpochH + forecast.hours, seen.startEpochH + seen.hours)
  for (let epochH = from; epochH < to; epochH++) {
    const said = learntAt(forecast, epochH - forecast.startEpochH)
    const came = learntAt(seen, epochH - seen.startEpochH)
    const leadH = epochH + 0.5 - forecast.provenance.issuedAtEpochH
    const k = classOf(leadH, isDayAt(seen, epochH))
    for (const variable of LEARNT) {
      const error = said[variable] - came[variable]
      if (!Number.isNaN(error)) next[variable][k] = tallied(next[variable][k]!, error)
    }
  }
  return next
}

function tallied({ count, bias, meanSquare }: Tally, error: number): Tally {
  const share = 1 / Math.min(count + 1, MEMORY)
  return {
    count: Math.min(count + 1, MEMORY),
    bias: bias + share * (error - bias),
    meanSquare: meanSquare + share * (error * error - meanSquare),
  }
}

const believed = (count: number): number => count / (count + HALF_BELIEVED)

/** @returns what to take off the forecast: the learnt bias, drawn to 0 while little is known, held within bounds. */
export function correction(skill: SourceSkill, variable: Learnt, k: number): number {
  const { count, bias } = skill[variable][k]!
  const most = MOST_CORRECTION[variable]
  return Math.min(most, Math.max(-most, bias * believed(count)))
}

/** @returns expected square error of the corrected forecast: the usual growth of error, drawn to what was seen. */
export function expectedSquare(skill: SourceSkill, variable: Learnt, k: number, leadH: number): number {
  const { count, meanSquare } = skill[variable][k]!
  const left = Math.max(0, meanSquare - correction(skill, variable, k) ** 2)
  const share = believed(count)
  return (1 - share) * usualSquare(variable, leadH) + share * left
}

/** Square error that is usual at a lead. */
export function usualSquare(variable: Learnt, leadH: number): number {
  const growth = errorGrowth(leadH / 24)
  switch (variable) {
    case 'airTempC':
      return growth.airTempLocalC ** 2 + growth.airTempGrownC ** 2
    case 'dewPointC':
      return growth.dewPointLocalC ** 2 + growth.dewPointGrownC ** 2
    case 'logWind':
      return growth.logWindLocal ** 2 + growth.logWindGrown ** 2
  }
}
