/** `today`: the day's message as text, or the day as JSON. */

import { dayJson, noDayJson } from '#app/day-json.ts'
import type { DayMade } from '#app/morning.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'

export function printToday(farm: Farm, made: DayMade, asJson: boolean): string {
  if (!asJson) return renderText(made.message)
  const body = made.day ? dayJson(made.day) : noDayJson(farm, made.message)
  return `${JSON.stringify(body)}\n`
}
