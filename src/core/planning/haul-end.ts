/** Until when an outfit can get rid of its grain: the buyer's hours, and what wheels can hold overnight. */
import type { Farm, Outfit } from '#core/farm/farm.ts'
import type { FieldPart } from '#core/field/parts.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'
import type { OutfitRate } from './capacity/outfit.ts'

const MINUTES_PER_HOUR = 60

/**
 * After the buyer shuts, cutting goes on until trucks, carts and tanks are full: they stand loaded overnight
 * (common practice, no source). Shut all day is a holdback of the outlook, not of this.
 *
 * @returns a function of outfit, part and rate giving the hour since the epoch.
 */
export function haulEndOn(farm: Farm, date: Temporal.PlainDate) {
  const midnight = hoursOfLocalDay(date, farm.timeZone).startEpochH
  return (outfit: Outfit, part: FieldPart, rate: OutfitRate): number => {
    const buyer = farm.buyers.find(({ id }) => id === part.field.buyerId)
    const meanTruckL = mean(outfit.trucks.map(({ capacityL }) => capacityL))
    const litresPerH = rate.loadsPerHour * meanTruckL
    if (!buyer || !(litresPerH > 0)) return Number.POSITIVE_INFINITY
    const onWheelsL = sum([...outfit.trucks, ...outfit.carts].map(({ capacityL }) => capacityL))
    const inTanksL = sum(outfit.combines.map(({ tankL }) => tankL))
    return midnight + buyer.hours.closeMinute / MINUTES_PER_HOUR + (onWheelsL + inTanksL) / litresPerH
  }
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
const mean = (values: readonly number[]): number => sum(values) / values.length
