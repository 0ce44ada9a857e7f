/** `today`: the day's message as text, or the day as JSON. */
import { renderText } from '#core/messages/render-text.ts'
import { dayJson } from '#work/day-json.ts'
import type { DayMade } from '#work/morning.ts'

export function printToday(made: DayMade, asJson: boolean): string {
  if (!asJson) return renderText(made.message)
  const body = made.day ? dayJson(made.day) : { headline: made.message.headline }
  return `${JSON.stringify(body)}\n`
}
