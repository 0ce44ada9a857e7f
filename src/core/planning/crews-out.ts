/** When somebody of the farm works. */
import type { Farm } from '#core/operation/farm.ts'
import { crewSpan } from './optimiser/blocks.ts'

/** From the first crew's start to the last one's end, hours since the epoch; undefined on a day off for all. */
export function crewsOut(farm: Farm, date: Temporal.PlainDate): { startEpochH: number; endEpochH: number } | undefined {
  const spans = farm.outfits.flatMap((outfit) => crewSpan(outfit, date, farm.timeZone) ?? [])
  if (spans.length === 0) return undefined
  return { startEpochH: Math.min(...spans.map(({ from }) => from)), endEpochH: Math.max(...spans.map(({ to }) => to)) }
}
