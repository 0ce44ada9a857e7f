/** Every plan that says something new is kept, with the reason why it took the place of the one before. */
import type { Farm } from '#core/operation/farm.ts'
import type { Plannable } from '#core/planning/optimiser/changes.ts'
import {
  type ChangeReason,
  isNews,
  type PlanRecord,
  promisedFor,
  recordPlan,
} from '#core/planning/optimiser/plan-record.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { localDateOf } from '#core/units/time.ts'
import { plannableFromBook } from './decisions.ts'
import type { PlanStore } from './plan-store.ts'
import type { RecordStore } from './records-port.ts'

/** Plans looked through for the one before the planner's. */
const LOOKED_BACK = 50

/**
 * The plan that stood before the planner's decisions: what his next one is held to. So what he takes back leads back, and
 * what he tries costs the same in whatever order he tries it.
 */
export async function beforePlanner(farmId: string, plans: PlanStore): Promise<PlanRecord | undefined> {
  const records = await plans.history(farmId, LOOKED_BACK)
  return records.find(({ reason }) => reason.kind !== 'planner') ?? records.at(-1)
}

/**
 * The farm and its rules as the planner's decisions leave them.
 *
 * @param held plan whose visits of today are left only for a gain.
 */
export async function decidedBy(
  farm: Farm,
  nowEpochH: number,
  held: PlanRecord | undefined,
  book: Pick<RecordStore, 'current'> | undefined,
): Promise<Plannable> {
  const rules = { ...NO_RULES, ...farm.planning, promised: promisedFor(localDateOf(nowEpochH, farm.timeZone), held) }
  return book ? await plannableFromBook(farm, book, nowEpochH, rules) : { farm, rules }
}

/**
 * @param why what led to it, where somebody knows; else the new day, or the weather.
 * @returns the reason it was kept for, or nothing where it says what the last one said.
 */
export async function keepPlan(
  farmId: string,
  week: WeekPlan,
  atEpochH: number,
  { plans, last, why }: { plans: PlanStore; last: PlanRecord | undefined; why: ChangeReason | undefined },
): Promise<ChangeReason | undefined> {
  if (!isNews(week, last)) return undefined
  const reason = why ?? usualReason(week, last)
  await plans.keep(farmId, recordPlan(week, atEpochH, reason, last))
  return reason
}

function usualReason(week: WeekPlan, last: PlanRecord | undefined): ChangeReason {
  if (!last) return { kind: 'first' }
  return { kind: last.plan.day.date.equals(week.day.date) ? 'new-weather' : 'new-morning' }
}
