/** What alerts look at beside the day itself: readings that hardly can be so, and official warnings. */
import type { WatchedMeter, WatchedWarning } from '#core/messages/alerts/watch-input.ts'
import { partName } from '#core/messages/names.ts'
import type { Sidelights } from './alerts.ts'
import type { DayMade } from './morning.ts'

/** Older doubts have been on the page for long enough [h]. */
const FRESH_H = 12

export const sidelightsOf = (made: DayMade, nowEpochH: number): Sidelights => ({
  meters: doubtfulMeters(made, nowEpochH),
  warnings: warningsOf(made),
})

function doubtfulMeters({ day }: DayMade, nowEpochH: number): WatchedMeter[] {
  if (!day) return []
  return day.belief.doubtful
    .filter(({ reading }) => nowEpochH - reading.atEpochH <= FRESH_H)
    .map(({ reading, wildChance, expectedWb }) => {
      const part = day.partOutlooks.find(({ part: { key } }) => key === reading.partKey)?.part
      return {
        id: reading.id,
        partName: part ? partName(part) : reading.partKey,
        readWb: reading.moistureWb,
        expectedWb,
        wildChance,
      }
    })
}

/** Not known while an issuer could not be asked: a warning then neither starts nor ends. */
function warningsOf({ message }: DayMade): WatchedWarning[] | undefined {
  const { quoted, unread } = message.official
  if (unread) return undefined
  return quoted.map(({ event, headline, issuer, fromEpochH, untilEpochH }) => ({
    event,
    headline,
    issuer,
    fromEpochH,
    untilEpochH,
  }))
}
