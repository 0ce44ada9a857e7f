/**
 * Weeks beyond what the outlook sees, so that a plan knows how much there is still to do. Hours are those of the outlook's
 * own days, grain is as it usually is when fit, and loses what a ripe crop loses.
 */
import type { Outlook } from '#core/outlook/outlook.ts'
import { equilibriumMoistureWb } from '#core/science/grain/equilibrium.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import { addStandingLoss, standingLossPerDay } from '#core/science/loss/standing.ts'
import type { PaymentTerms } from '#core/science/money/terms.ts'
import { valuePerHa } from '#core/science/money/value.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'

export const DAYS_IN_WEEK = 7
export const TAIL_WEEKS = 5

/** A crop that stood ripe for a while and was wetted a few times (a choice of ours): what it loses a day from then on. */
const RIPE_DAYS = 10
const WET_DRY_CYCLES = 2
/** Slowest drying that is counted on [points/d], and the last days from which it is read [d] (common practice, no source). */
const LEAST_DRYING_WB = 0.3
const DRYING_DAYS = 3
/**
 * Air of the fall hours in which ripe grain is cut, set so that beans settle at 11.3 %: the mean of 112 truckloads weighed
 * in Nebraska, 5 of them below 9 %, then 14, 28, 27, 29 and 9 by the point (Pryor, Jasa & Zoubek 2016, UNL CropWatch).
 */
const FALL_AIR_C = 12
const FALL_HUMIDITY = 0.61
/** Hours of a fall day in which a ripe crop is fit on average, wet days counted, where the outlook shows none (no source) [h]. */
export const USUAL_FIT_H = 4

/** Days after the outlook's end until a part is ripe to cut; 0 when it is by then [d]. */
export function daysToRipe(outlook: Outlook): number {
  const afternoons = lastAfternoons(outlook)
  const over = afternoons[0]! - outlook.part.field.band.highWb
  return over > 0 ? over / dryingPace(afternoons) : 0
}

/** Lowest median moisture of each of the last days, last day first [% wet basis]. */
function lastAfternoons({ medianWb, hours }: Outlook): number[] {
  return Array.from({ length: DRYING_DAYS + 1 }, (_, back) => {
    const to = hours - back * HOURS_PER_DAY
    const day = Array.from(medianWb.subarray(Math.max(0, to - HOURS_PER_DAY), Math.max(0, to)))
    return Math.min(...day.filter((wb) => !Number.isNaN(wb)))
  })
}

function dryingPace(afternoons: readonly number[]): number {
  const pace = (afternoons.at(-1)! - afternoons[0]!) / DRYING_DAYS
  return Math.max(LEAST_DRYING_WB, Number.isFinite(pace) ? pace : 0)
}

/**
 * Moisture at which a part is likely to be cut so many days after the outlook's end [% wet basis]: it dries on at the pace
 * of its last days, down to what ripe grain has in the fall. What is that dry already keeps the mean of its fit hours.
 */
export function moistureAfter(outlook: Outlook, usualFitWb: number, days: number): number {
  const afternoons = lastAfternoons(outlook)
  const driest = afternoons[0]!
  const settled = equilibriumMoistureWb(outlook.part.field.crop, FALL_AIR_C, FALL_HUMIDITY)
  if (!(driest > settled)) return usualFitWb
  const ripe = Math.min(usualFitWb, outlook.part.field.band.highWb)
  return Math.min(ripe, Math.max(settled, driest - dryingPace(afternoons) * days))
}

/** Mean money for a hectare cut so many days after the outlook's end [money/ha]. */
export function worthAfter(
  outlook: Outlook,
  terms: PaymentTerms,
  courses: readonly number[],
  usualFitWb: number,
  days: number,
): number {
  const moistureWb = moistureAfter(outlook, usualFitWb, days)
  const { hours, standingLoss, part } = outlook
  const { crop, usualYieldTHa } = part.field
  const ripeFor = Math.max(0, days - daysToRipe(outlook))
  const pace = standingLossPerDay(crop, moistureWb, RIPE_DAYS, WET_DRY_CYCLES)
  const { refuseAboveWb: _, ...willing } = terms
  let sum = 0
  for (const course of courses) {
    const lost = standingLoss[course * hours + hours - 1]!
    sum += valuePerHa({
      usualYieldTHa,
      terms: willing,
      moistureWb,
      standingLoss: addStandingLoss(crop, lost, pace, ripeFor * HOURS_PER_DAY),
      headerLoss: headerLossFraction(crop, moistureWb),
    })
  }
  return sum / courses.length
}
