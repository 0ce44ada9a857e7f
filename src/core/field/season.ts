/** What belongs to the crop that stands now: the book goes back over years, the field is planted anew each season. */
import type { Farm, Field } from '#core/operation/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { partsOf } from './parts.ts'

/** No crop stands longer from planting to its cut; winter wheat comes nearest (common practice, no source) [d]. */
export const LONGEST_SEASON_DAYS = 320

/**
 * Start of the crop's season: midnight of its planting day, hours since the epoch. Universal time serves: nobody measures
 * or cuts a crop on the day it is planted.
 */
export const seasonStart = (field: Field): number => epochHoursOf(field.plantedOn.toZonedDateTime('UTC').toInstant())

/** @returns those of the parts' present crop; what is told of a part that the farm does not have is left out. */
export function ofThisSeason<T extends { readonly partKey: string; readonly atEpochH: number }>(
  farm: Farm,
  told: readonly T[],
): T[] {
  const starts = new Map(farm.fields.flatMap((field) => partsOf(field).map(({ key }) => [key, seasonStart(field)])))
  return told.filter(({ partKey, atEpochH }) => atEpochH >= (starts.get(partKey) ?? Number.POSITIVE_INFINITY))
}
