/** Runs a season day by day for several policies on the same weather, the same knowledge and the same machines. */

import type { Solver } from '#app/solver-port.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { termsFor } from '#core/planning/first-plan.ts'
import { buildProblem } from '#core/planning/optimiser/build-problem.ts'
import { type CrewDay, liveDay } from '#core/planning/optimiser/by-the-hour.ts'
import { usualFitMoistureWb } from '#core/planning/optimiser/coefficients.ts'
import { crewDayOf } from '#core/planning/optimiser/crew-days.ts'
import { ascend } from '#core/planning/optimiser/linear/dual-bound.ts'
import { relaxed } from '#core/planning/optimiser/linear/linear-model.ts'
import { extensiveForm } from '#core/planning/optimiser/linear/two-stage.ts'
import { planModel } from '#core/planning/optimiser/model.ts'
import { MOVE_COST_PER_H } from '#core/planning/optimiser/plan-rules.ts'
import { bestValue } from '#core/planning/optimiser/problem.ts'
import { DAYS_IN_WEEK, worthAfter } from '#core/planning/optimiser/tail.ts'
import { SLIVER_HA } from '#core/planning/plan.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import { inputOf, type Morning, type Policy } from './policies.ts'
import type { Season } from './season.ts'

export interface SeasonResult {
  readonly policy: string
  /** What the harvest brought, moves off, what was left standing valued as cut later [money]. */
  readonly money: number
  readonly leftHa: number
  /** Day on which the last hectare was cut; absent when some was left. */
  readonly doneOn: Temporal.PlainDate | undefined
  readonly roadH: number
}

interface Runner {
  readonly policy: Policy
  readonly leftHa: Map<string, number>
  /** By outfit. */
  readonly at: Map<string, FieldPart>
  money: number
  roadH: number
  doneOn: Temporal.PlainDate | undefined
}

/** Morning planning, local minutes. */
const MORNING_MINUTE = 330

export async function runSeason(season: Season, policies: readonly Policy[]): Promise<SeasonResult[]> {
  const { farm, parts, truth } = season
  const areas = () => new Map(parts.map(({ key, areaHa }) => [key, areaHa]))
  const runners: Runner[] = policies.map((policy) => ({
    policy,
    leftHa: areas(),
    at: new Map(),
    money: 0,
    roadH: 0,
    doneOn: undefined,
  }))
  for (let date = season.firstDay; Temporal.PlainDate.compare(date, season.lastDay) < 0; date = date.add({ days: 1 })) {
    const busy = runners.filter(({ leftHa }) => [...leftHa.values()].some((ha) => ha > SLIVER_HA))
    if (busy.length === 0) break
    const nowEpochH = Math.floor(epochHoursAtMinute(date, MORNING_MINUTE, farm.timeZone))
    const lived = livedDay(season, date, nowEpochH)
    if (!lived.day.fit.some((share) => share > 0)) continue
    const keys = new Set(
      busy.flatMap(({ leftHa }) => [...leftHa].flatMap(([key, ha]) => (ha > SLIVER_HA ? [key] : []))),
    )
    const known = season.outlooksOn(nowEpochH, keys)
    for (const runner of busy) {
      const { sees } = runner.policy
      const seen = sees === 'all' ? truth : sees ? season.outlooksOn(nowEpochH, keys, sees) : known
      const outlooks = seen.filter(({ part }) => runner.leftHa.get(part.key)! > SLIVER_HA)
      const morning: Morning = {
        farm,
        date,
        nowEpochH,
        outlooks,
        standingHa: runner.leftHa,
        at: runner.at,
        matureEpochH: season.matureEpochH,
      }
      const orders = await runner.policy.orders(morning)
      live(runner, lived, orders, date)
    }
  }
  return runners.map((runner) => resultOf(runner, truth, farm))
}

interface LivedDay {
  readonly day: CrewDay
  /** Parts in the order of the day's jobs. */
  readonly parts: readonly FieldPart[]
  readonly outfitIds: readonly string[]
  readonly buyerT: readonly number[]
}

/** The true day for all parts, whoever has cut what. */
function livedDay({ farm, truth, matureEpochH }: Season, date: Temporal.PlainDate, nowEpochH: number): LivedDay {
  const morning: Morning = {
    farm,
    date,
    nowEpochH,
    outlooks: truth,
    standingHa: new Map(),
    at: new Map(),
    matureEpochH,
  }
  const input = { ...inputOf(morning), days: 1, members: 1, tailWeeks: 0 }
  const farmProblem = buildProblem(input)
  return {
    day: crewDayOf(input, farmProblem, 0),
    parts: farmProblem.outlooks.map(({ part }) => part),
    outfitIds: farmProblem.outfits.map(({ id }) => id),
    buyerT: farmProblem.problem.buyers.map(({ dailyT }) => dailyT),
  }
}

function live(
  runner: Runner,
  { day, parts, outfitIds, buyerT }: LivedDay,
  orders: ReadonlyMap<string, readonly string[]>,
  date: Temporal.PlainDate,
): void {
  const jobOf = new Map(parts.map(({ key }, j) => [key, j]))
  const jobs = parts.length
  const own: CrewDay = {
    ...day,
    crews: day.crews.map((crew, c) => {
      const from = runner.at.get(outfitIds[c]!)
      const row = from ? jobOf.get(from.key)! * jobs : -1
      return row < 0 ? crew : { ...crew, firstMoveH: day.moveH.subarray(row, row + jobs) }
    }),
  }
  const lists = outfitIds.map((id) => (orders.get(id) ?? []).flatMap((key) => jobOf.get(key) ?? []))
  const stock = {
    leftHa: Float64Array.from(parts, ({ key }) => runner.leftHa.get(key)!),
    buyerT: Float64Array.from(buyerT),
  }
  let cutHa = 0
  const { at, roadH } = liveDay(own, lists, stock, ({ ha, worthPerHa }) => {
    runner.money += ha * worthPerHa
    cutHa += ha
  })
  for (const [j, { key }] of parts.entries()) runner.leftHa.set(key, stock.leftHa[j]!)
  for (const [c, job] of at.entries()) if (job >= 0) runner.at.set(outfitIds[c]!, parts[job]!)
  runner.money -= roadH * MOVE_COST_PER_H
  runner.roadH += roadH
  if (cutHa > SLIVER_HA) runner.doneOn = date
}

function resultOf(runner: Runner, truth: readonly Outlook[], farm: Season['farm']): SeasonResult {
  let leftHa = 0
  let money = runner.money
  for (const outlook of truth) {
    const ha = runner.leftHa.get(outlook.part.key)!
    leftHa += ha
    const terms = termsFor(outlook.part, farm)!
    money += ha * worthAfter(outlook, terms, [0], usualFitMoistureWb(outlook, [0]), DAYS_IN_WEEK)
  }
  const done = leftHa <= SLIVER_HA * truth.length
  return { policy: runner.policy.name, money, leftHa, doneOn: done ? runner.doneOn : undefined, roadH: runner.roadH }
}

/** No plan with these machines could bring more, whole fields and moves left aside: the linear model of the true season [money]. */
export async function seasonBound(season: Season, solver: Solver | undefined): Promise<number> {
  const { farm, firstDay, truth, matureEpochH } = season
  const nowEpochH = Math.floor(epochHoursAtMinute(firstDay, MORNING_MINUTE, farm.timeZone))
  const none = new Map<string, never>()
  const morning: Morning = {
    farm,
    date: firstDay,
    nowEpochH,
    outlooks: truth,
    standingHa: none,
    at: none,
    matureEpochH,
  }
  const { problem } = buildProblem({ ...inputOf(morning), days: 100, members: 1, tailWeeks: 0 })
  const { model } = extensiveForm(planModel(problem).stages)
  const least = solver ? (await solver.solve(relaxed(model))).bound : ascend(model, 2000).bound
  return bestValue(problem) - least
}
