/** Readings of the last hours that hardly can be so, as alerts want them. */
import type { WatchedMeter } from '#core/messages/alerts/watch-input.ts'
import { partName } from '#core/messages/names.ts'
import type { DayMade } from './morning.ts'

/** Older doubts have been on the page for long enough [h]. */
const FRESH_H = 12

export function doubtfulMeters({ day }: DayMade, nowEpochH: number): WatchedMeter[] {
  if (!day) return []
  return day.belief.doubtful
    .filter(({ reading }) => nowEpochH - reading.atEpochH <= FRESH_H)
    .map(({ reading, wildChance, expectedWb }) => {
      const part = day.outlooks.find(({ part: { key } }) => key === reading.partKey)?.part
      return {
        id: reading.id,
        partName: part ? partName(part) : reading.partKey,
        readWb: reading.moistureWb,
        expectedWb,
        wildChance,
      }
    })
}
