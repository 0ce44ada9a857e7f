/** Sources that say quite different things: the odd one out is left aside, and that is told. */
import type { Weather } from '#core/units/weather.ts'

export interface Judged {
  readonly id: string
  readonly weather: Weather
}

/** Mean difference of temperature over the coming two days beyond which two sources cannot both be right [deg C]. */
const FAR_APART_C = 6
const COMPARED_H = 48
/** Fewer common hours than this say nothing [h]. */
const ENOUGH_HOURS = 6

/**
 * @param sources in the farm's order, hour by hour; the mean of the members is compared. @param nowEpochH the first hour.
 * @param seenC temperatures measured in the last hours, if any, newest last: of two that disagree, the one nearer to them stays.
 * @returns ids to leave aside: never all of them.
 */
export function oddOnesOut(sources: readonly Judged[], nowEpochH: number, seenC: readonly number[]): string[] {
  if (sources.length < 2) return []
  const means = sources.map(({ weather }) => meanTemps(weather, nowEpochH))
  const far = (a: number, b: number) => apart(means[a]!, means[b]!) > FAR_APART_C
  const against = sources.map((_, a) => sources.filter((_, b) => b !== a && far(a, b)).length)
  if (sources.length > 2) {
    return sources
      .filter((_, a) => against[a]! > (sources.length - 1) / 2)
      .map(({ id }) => id)
      .slice(0, sources.length - 1)
  }
  if (!far(0, 1)) return []
  const seen = seenC.filter((value) => !Number.isNaN(value)).at(-1)
  if (seen === undefined) return [sources[1]!.id]
  const off = means.map((temps) => Math.abs(temps[0]! - seen))
  return [sources[off[1]! < off[0]! ? 0 : 1]!.id]
}

function meanTemps({ startEpochH, hours, members, airTempC }: Weather, nowEpochH: number): number[] {
  return Array.from({ length: COMPARED_H }, (_, k) => {
    const h = nowEpochH + k - startEpochH
    if (h < 0 || h >= hours) return Number.NaN
    let sum = 0
    for (let m = 0; m < members; m++) sum += airTempC[m * hours + h]!
    return sum / members
  })
}

function apart(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  let count = 0
  for (const [k, value] of a.entries()) {
    const difference = Math.abs(value - b[k]!)
    if (Number.isNaN(difference)) continue
    sum += difference
    count++
  }
  return count < ENOUGH_HOURS ? 0 : sum / count
}
