/** What the season's plans were expected to bring more than the simple rules a manager might go by. */

import { partsOf } from '#core/field/parts.ts'
import { LONGEST_SEASON_DAYS } from '#core/field/season.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import type { SimpleRule } from '#core/planning/optimiser/simple-rules.ts'
import type { PlanStore } from './plan-store.ts'

/**
 * Each day's plan was priced against a day by the rule, all days after reckoned alike: so the days may be added up.
 * Expected when the plan was made; what the weather then did is not in it.
 */
export interface SavedAgainst {
  readonly rule: SimpleRule
  /** Days whose plan was priced against this rule. */
  readonly days: number
  /** Expected money of the plans less that of the rule [money]; below 0 the rule would have brought more. */
  readonly money: number
}

export interface Saved {
  /** First and last day that was priced. */
  readonly from: Temporal.PlainDate
  readonly to: Temporal.PlainDate
  readonly days: number
  /** Least saved first: the best of the rules leads. */
  readonly against: readonly SavedAgainst[]
}

/** Plans are read from the store so many at a time. */
const PAGE = 50

/** @returns nothing where no plan of this season was priced. */
export async function savedFromPlans(
  farm: Farm,
  plans: Pick<PlanStore, 'history'>,
  today: Temporal.PlainDate,
): Promise<Saved | undefined> {
  const since = today.subtract({ days: LONGEST_SEASON_DAYS })
  const records: PlanRecord[] = []
  let before: number | undefined
  for (;;) {
    const page = await plans.history(farm.id, PAGE, before)
    records.push(...page)
    const last = page.at(-1)
    if (!last || page.length < PAGE || Temporal.PlainDate.compare(last.plan.day.date, since) < 0) break
    before = last.publishedAtEpochH
  }
  return savedBy(farm, records)
}

/** @param records in any order; of each day the first plan counts: later ones speak of what is left of the day. */
export function savedBy(farm: Farm, records: readonly PlanRecord[]): Saved | undefined {
  const days = firstOfEachDay(records.filter((record) => ofThisSeason(farm, record)))
  const priced = days.filter(({ plan }) =>
    (plan.against ?? []).some(({ value }) => Number.isFinite(plan.value - value)),
  )
  const [first, last] = [priced[0], priced.at(-1)]
  if (!first || !last) return undefined
  const sums = new Map<SimpleRule, { days: number; money: number }>()
  for (const { plan } of priced) {
    for (const { rule, value } of plan.against ?? []) {
      const money = plan.value - value
      if (!Number.isFinite(money)) continue
      const sum = sums.get(rule) ?? { days: 0, money: 0 }
      sums.set(rule, { days: sum.days + 1, money: sum.money + money })
    }
  }
  return {
    from: first.plan.day.date,
    to: last.plan.day.date,
    days: priced.length,
    against: [...sums].map(([rule, sum]) => ({ rule, ...sum })).sort((a, b) => a.money - b.money),
  }
}

function firstOfEachDay(records: readonly PlanRecord[]): PlanRecord[] {
  const first = new Map<string, PlanRecord>()
  for (const record of records) {
    const key = record.plan.day.date.toString()
    const known = first.get(key)
    if (!known || record.publishedAtEpochH < known.publishedAtEpochH) first.set(key, record)
  }
  return [...first].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, record]) => record)
}

/** Of a day on which a crop that stands now, or stood until it was cut, was in the ground; plans that go nowhere count too. */
function ofThisSeason({ fields }: Farm, { plan }: PlanRecord): boolean {
  const planted = new Map(fields.flatMap((field) => partsOf(field).map(({ key }) => [key, field.plantedOn] as const)))
  const parts = [...plan.visits, ...plan.later]
  return parts.some(({ partKey }) => {
    const on = planted.get(partKey)
    return on !== undefined && Temporal.PlainDate.compare(on, plan.day.date) <= 0
  })
}
