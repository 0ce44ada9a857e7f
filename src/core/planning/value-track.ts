/** What a hectare brings if it is cut today, tomorrow, or at the first chance after: the price of waiting. */
import type { Outlook } from '#core/outlook/outlook.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import type { PaymentTerms } from '#core/science/money/terms.ts'
import { valuePerHa } from '#core/science/money/value.ts'
import { hoursOfLocalDay, localDateOf } from '#core/units/time.ts'

export interface ValueTrack {
  /** Expected value if the part is cut at its first fit day from day `d` on [money/ha]; day 0 is today. */
  readonly fromDay: readonly number[]
  /** Share of courses with at least one fit hour on day `d`. */
  readonly fitDayChance: readonly number[]
  /** Expected standing loss by then [share of yield]. */
  readonly lossFromDay: readonly number[]
  /** Grain no wetter than the buyer's standard on the first day with a fit hour. */
  readonly dryEnough: boolean
}

/** Days of waiting over which the loss is averaged: about one round of the fields (common practice, no source). */
const WAIT_DAYS = 5

/**
 * What one more day of waiting costs on average over the coming round [money/ha/d]; below 0 when it pays, as for grain
 * that still has to dry. For grain already as dry as the buyer wants, a gain hoped for from rain that wets it again does
 * not count: it then costs at least what falls to the ground.
 */
export function atRiskPerHaDay(track: ValueTrack): number {
  const last = Math.min(WAIT_DAYS, track.fromDay.length - 1)
  const now = track.fromDay[0]!
  if (last < 1) return 0
  const waiting = (now - track.fromDay[last]!) / last
  if (!track.dryEnough) return waiting
  return Math.max(waiting, (now * (track.lossFromDay[last]! - track.lossFromDay[0]!)) / last)
}

export function trackValue(outlook: Outlook, terms: PaymentTerms, timeZone: string, days: number): ValueTrack {
  const { courses, hours, moistureWb, standingLoss, holdbackBits, startEpochH, part } = outlook
  const bounds = dayBounds(startEpochH, hours, timeZone, days)
  const fromDay = new Array<number>(bounds.length).fill(0)
  const fitDayChance = new Array<number>(bounds.length).fill(0)
  const lossFromDay = new Array<number>(bounds.length).fill(0)
  let firstMoistures = 0
  const worth = (i: number, willing: PaymentTerms) =>
    valuePerHa({
      usualYieldTHa: part.field.usualYieldTHa,
      terms: willing,
      moistureWb: moistureWb[i]!,
      standingLoss: standingLoss[i]!,
      headerLoss: headerLossFraction(part.field.crop, moistureWb[i]!),
    })
  const { refuseAboveWb: _, ...neverRefused } = terms
  for (let c = 0; c < courses; c++) {
    // Never fit in the whole horizon: cut wet at the end of what is known and pay for it.
    let nextHour = hours - 1
    while (nextHour > 0 && Number.isNaN(moistureWb[c * hours + nextHour]!)) nextHour--
    let next = worth(c * hours + nextHour, neverRefused)
    for (let d = bounds.length - 1; d >= 0; d--) {
      const { from, to } = bounds[d]!
      const values: number[] = []
      let firstFit = -1
      for (let h = from; h < to; h++) {
        const i = c * hours + h
        if (holdbackBits[i] !== 0) continue
        values.push(worth(i, terms))
        if (firstFit < 0) firstFit = h
      }
      if (values.length > 0) {
        next = betterHalf(values)
        nextHour = firstFit
        fitDayChance[d]! += 1 / courses
      }
      fromDay[d]! += next / courses
      lossFromDay[d]! += standingLoss[c * hours + nextHour]! / courses
    }
    firstMoistures += moistureWb[c * hours + nextHour]! / courses
  }
  return { fromDay, fitDayChance, lossFromDay, dryEnough: firstMoistures <= terms.standardMoistureWb }
}

/** Mean of the better half of a day's fit hours: a crew picks its hours, but not only the best one. */
function betterHalf(values: number[]): number {
  const half = values.sort((a, b) => b - a).slice(0, Math.ceil(values.length / 2))
  return half.reduce((sum, value) => sum + value, 0) / half.length
}

/** First and one-past-last index of each local day in the series. */
function dayBounds(startEpochH: number, hours: number, timeZone: string, days: number): { from: number; to: number }[] {
  const bounds: { from: number; to: number }[] = []
  let date = localDateOf(startEpochH, timeZone)
  for (let d = 0; d < days; d++) {
    const day = hoursOfLocalDay(date, timeZone)
    const from = Math.max(0, day.startEpochH - startEpochH)
    const to = Math.min(hours, day.endEpochH - startEpochH)
    if (to <= from) break
    bounds.push({ from, to })
    date = date.add({ days: 1 })
  }
  return bounds
}
