/**
 * Weeks beyond what the outlook sees, so that a plan knows how much there is still to do: what grain is worth then. It is as
 * it usually is when fit, and loses what a ripe crop loses.
 */
import type { Outlook } from '#core/outlook/outlook.ts'
import type { CropName } from '#core/science/crop.ts'
import { equilibriumMoistureWb } from '#core/science/grain/equilibrium.ts'
import { headerLossFraction } from '#core/science/loss/header.ts'
import { addStandingLoss, standingLossPerDay } from '#core/science/loss/standing.ts'
import type { PaymentTerms } from '#core/science/money/terms.ts'
import { valuePerHa } from '#core/science/money/value.ts'
import { HOURS_PER_DAY } from '#core/units/time.ts'

export const DAYS_IN_WEEK = 7
export const TAIL_WEEKS = 5

/**
 * How ripe soybeans fare on the even autumns from 1996 to 2022 at Champaign, Illinois: days from one wetting to the next
 * [d], and how much drier they would have to be all the time to lose as much as they do in dry hours and damp ones together
 * [points]. The odd autumns: 7.1, and the same within 0.05.
 */
const DAYS_PER_WETTING = 7.4
const STANDS_DRIER_WB = 0.55
/** No crop is taken to have stood longer [d]. */
const OLDEST_DAYS = 100
/** Slowest drying that is counted on [points/d], and the last days from which it is read [d] (common practice, no source). */
const LEAST_DRYING_WB = 0.3
const DRYING_DAYS = 3
/**
 * Air of the fall hours in which ripe grain is cut, set so that beans settle at 11.3 %: the mean of 112 truckloads weighed
 * in Nebraska, 5 of them below 9 %, then 14, 28, 27, 29 and 9 by the point (Pryor, Jasa & Zoubek 2016, UNL CropWatch).
 */
const FALL_AIR_C = 12
const FALL_HUMIDITY = 0.61

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
  const { refuseAboveWb: _, ...willing } = terms
  const lost = courses.reduce((sum, course) => sum + standingLoss[course * hours + hours - 1]!, 0) / courses.length
  return valuePerHa({
    usualYieldTHa,
    terms: willing,
    moistureWb,
    standingLoss: lossAfter(crop, lost, moistureWb, ripeFor),
    headerLoss: headerLossFraction(crop, moistureWb),
  })
}

/** What has fallen after so many days more, the longer it stands the faster: how old it is shows in what it has lost [0-1]. */
export function lossAfter(crop: CropName, lostSoFar: number, moistureWb: number, days: number): number {
  const pace = (age: number) => standingLossPerDay(crop, moistureWb - STANDS_DRIER_WB, age, age / DAYS_PER_WETTING)
  let age = 0
  for (let lost = 0; lost < lostSoFar && age < OLDEST_DAYS; age++) {
    lost = addStandingLoss(crop, lost, pace(age + 0.5), HOURS_PER_DAY)
  }
  let lost = lostSoFar
  for (let day = 0; day < days; day++) {
    lost = addStandingLoss(crop, lost, pace(age + day + 0.5), HOURS_PER_DAY * Math.min(1, days - day))
  }
  return lost
}
