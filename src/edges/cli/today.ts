/** `today`: the day's message as text, or the day as JSON. */

import { dayText } from '#app/day-json.ts'
import type { DayMade } from '#app/morning.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'

export const printToday = (farm: Farm, made: DayMade, asJson: boolean): string =>
  asJson ? `${dayText(farm, made)}\n` : renderText(made.message)
