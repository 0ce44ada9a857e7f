/** `week`: the days ahead as text or JSON: when each field is likely cut, and how sure that is. */

import { timeIn } from '#app/day-json.ts'
import type { DayMade } from '#app/morning.ts'
import { type SeasonAhead, tailsOf } from '#app/season-ahead.ts'
import { weekJson, weekText } from '#app/week-text.ts'
import { renderText } from '#core/messages/render-text.ts'
import type { Farm } from '#core/operation/farm.ts'
import { weekView } from '#core/planning/optimiser/week-view.ts'

/** Names the shape told in docs/week-json.md. */
const WEEK_FORMAT = 'threshday-week/1'

/** What the shape holds without weather to plan by. */
const NO_WEEK = {
  from: null,
  to: null,
  status: null,
  value: null,
  loss: null,
  leastLoss: null,
  gap: null,
  season: null,
  parts: [],
  choices: [],
  conflict: [],
}

/** Without weather it tells why there is no plan. */
export function printWeek(
  farm: Farm,
  { message, day }: Pick<DayMade, 'message' | 'day'>,
  season: SeasonAhead | undefined,
  asJson: boolean,
): string {
  const { headline } = message
  const head = {
    format: WEEK_FORMAT,
    farm: { id: farm.id, name: farm.name, timeZone: farm.timeZone },
    now: timeIn(message.nowEpochH, farm.timeZone),
    reason: headline.kind === 'no-forecast' ? headline.reason : null,
  }
  if (!day?.planned) return asJson ? line({ ...head, ...NO_WEEK }) : renderText(message)
  const { week, input } = day.planned
  const view = weekView(week, day.outlooks, input.standingHa, farm.timeZone, tailsOf(season))
  if (!asJson) return weekText(view, week, farm, season)
  return line({ ...head, ...(weekJson(view, week, season) as object) })
}

/** Digits after the point: sums over the members carry rounding far below this. */
const DIGITS = 6

const line = (body: unknown): string =>
  `${JSON.stringify(body, (_, value) => (typeof value === 'number' ? Number(value.toFixed(DIGITS)) : value))}\n`
