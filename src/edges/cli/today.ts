/** `today`: the day's message as text, or the day as JSON. */
import type { Farm } from '#core/farm/farm.ts'
import { renderText } from '#core/messages/render-text.ts'
import { dayJson, noDayJson } from '#work/day-json.ts'
import type { DayMade } from '#work/morning.ts'

export function printToday(farm: Farm, made: DayMade, asJson: boolean): string {
  if (!asJson) return renderText(made.message)
  const body = made.day ? dayJson(made.day) : noDayJson(farm, made.message)
  return `${JSON.stringify(body)}\n`
}
