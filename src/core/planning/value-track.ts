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
}

/** Days of waiting over which the loss is averaged: about one round of the fields (common practice, no source). */
const WAIT_DAYS = 3

/** @returns what one more day of waiting costs on average over the coming round [money/ha/d]; below 0 when it pays. */
export const atRiskPerHaDay = (track: ValueTrack): number => {
  const later = track.fromDay[Math.min(WAIT_DAYS, track.fromDay.length - 1)]!
  return (track.fromDay[0]! - later) / WAIT_DAYS
}

export function trackValue(outlook: Outlook, terms: PaymentTerms, timeZone: string, days: number): ValueTrack {
  const { courses, hours, moistureWb, standingLoss, holdbackBits, startEpochH, part } = outlook
  const bounds = dayBounds(startEpochH, hours, timeZone, days)
  const fromDay = new Array<number>(bounds.length).fill(0)
  const fitDayChance = new Array<number>(bounds.length).fill(0)
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
    // Never fit in the whole horizon: cut wet at the end and pay for it.
    let next = worth(c * hours + hours - 1, neverRefused)
    for (let d = bounds.length - 1; d >= 0; d--) {
      const { from, to } = bounds[d]!
      let sum = 0
      let fit = 0
      for (let h = from; h < to; h++) {
        const i = c * hours + h
        if (holdbackBits[i] !== 0) continue
        sum += worth(i, terms)
        fit++
      }
      if (fit > 0) {
        next = sum / fit
        fitDayChance[d]! += 1 / courses
      }
      fromDay[d]! += next / courses
    }
  }
  return { fromDay, fitDayChance }
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
