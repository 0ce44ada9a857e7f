/** `week`: the days ahead as text or JSON: when each field is likely cut, and how sure that is. */
import type { Farm } from '#core/farm/farm.ts'
import { standingHa } from '#core/field/standing-area.ts'
import { renderText } from '#core/messages/render-text.ts'
import { weekView } from '#core/planning/optimiser/week-view.ts'
import { zonedAt } from '#core/units/time.ts'
import type { DayMade } from '#work/morning.ts'
import { planInputOf, planWeek } from '#work/plan-week.ts'
import type { Solver } from '#work/solver-port.ts'
import { type Told, toldBy } from '#work/told.ts'
import { weekJson, weekText } from '#work/week-text.ts'

export interface WeekAsked {
  readonly farm: Farm
  readonly made: Pick<DayMade, 'message' | 'day'>
  readonly told: Told
  readonly solver: Solver
}

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
  parts: [],
  choices: [],
  conflict: [],
}

/** Without weather it tells why there is no plan. No clock bounds the solver: the same inputs print the same bytes. */
export async function printWeek({ farm, made, told, solver }: WeekAsked, asJson: boolean): Promise<string> {
  const { message, day } = made
  const { headline } = message
  const head = {
    format: WEEK_FORMAT,
    farm: { id: farm.id, name: farm.name, timeZone: farm.timeZone },
    now: zonedAt(message.nowEpochH, farm.timeZone)
      .round('minute')
      .toString({ smallestUnit: 'minute', timeZoneName: 'never' }),
    reason: headline.kind === 'no-forecast' ? headline.reason : null,
  }
  if (!day) return asJson ? line({ ...head, ...NO_WEEK }) : renderText(message)
  const standing = standingHa(farm, toldBy(told, day.nowEpochH).cuts)
  const plan = await planWeek(planInputOf(day, standing), solver)
  const view = weekView(plan, day.outlooks, standing, farm.timeZone)
  if (!asJson) return weekText(view, plan, farm)
  return line({ ...head, ...(weekJson(view, plan) as object) })
}

/** Digits after the point: sums over the members carry rounding far below this. */
const DIGITS = 6

const line = (body: unknown): string =>
  `${JSON.stringify(body, (_, value) => (typeof value === 'number' ? Number(value.toFixed(DIGITS)) : value))}\n`
