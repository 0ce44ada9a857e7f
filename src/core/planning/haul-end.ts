/** Until when an outfit can get rid of its grain: the buyer's hours, and what wheels can hold overnight. */

import type { FieldPart } from '#core/field/parts.ts'
import type { Farm, Outfit } from '#core/operation/farm.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { OutfitRate } from './capacity/outfit.ts'
import type { Run } from './plan.ts'

/** When the buyer of a part shuts on a day, hours since the epoch; Infinity when nobody buys it. */
export function buyerShutsAt(part: FieldPart, farm: Farm, date: Temporal.PlainDate): number {
  const buyer = farm.buyers.find(({ id }) => id === part.field.buyerId)
  return buyer ? epochHoursAtMinute(date, buyer.hours.closeMinute, farm.timeZone) : Number.POSITIVE_INFINITY
}

/**
 * After the buyer shuts, cutting goes on until trucks, carts and tanks are full: they stand loaded overnight
 * (common practice, no source). Shut all day is a holdback of the outlook, not of this.
 *
 * @param shutsEpochH see `buyerShutsAt`. @param startEpochH start of the run.
 * @param loadedL what already stands on the wheels from runs before [L]; a run that finds them full can't begin.
 * @returns hours since the epoch.
 */
export function haulEnd(
  outfit: Outfit,
  rate: OutfitRate,
  shutsEpochH: number,
  startEpochH: number,
  loadedL: number,
): number {
  const roomL = holdsL(outfit) - loadedL
  if (roomL <= 0) return startEpochH
  const meanTruckL = sum(outfit.trucks.map(({ capacityL }) => capacityL)) / outfit.trucks.length
  const litresPerH = rate.loadsPerHour * meanTruckL
  if (!(litresPerH > 0)) return Number.POSITIVE_INFINITY
  return Math.max(startEpochH, shutsEpochH) + roomL / litresPerH
}

/** What of a run stays on the wheels because it was cut after the buyer shut [L]. */
export function leftOnWheelsL(run: Run, shutsEpochH: number): number {
  const after = run.endEpochH - Math.max(run.startEpochH, shutsEpochH)
  return after > 0 ? (run.volumeL * after) / (run.endEpochH - run.startEpochH) : 0
}

/** What trucks, carts and tanks of an outfit hold together [L]. */
const holdsL = ({ trucks, carts, combines }: Outfit): number =>
  sum([...trucks, ...carts].map(({ capacityL }) => capacityL)) + sum(combines.map(({ tankL }) => tankL))

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
