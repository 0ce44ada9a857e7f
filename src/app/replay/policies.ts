/** Who decides, each morning, in which order an outfit goes to the parts. All live the day by the same rules afterwards. */

import { planWeek } from '#app/plan-week.ts'
import type { Solver } from '#app/solver-port.ts'
import type { FieldPart } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { firstPlan } from '#core/planning/first-plan.ts'
import { moveHours } from '#core/planning/moving.ts'
import type { FarmPlanInput } from '#core/planning/optimiser/build-problem.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import { yardOf } from '#core/planning/optimiser/simple-rules.ts'
import { medianAt } from '#core/planning/run.ts'
import { epochHoursAtMinute } from '#core/units/time.ts'
import type { Sight } from './season.ts'

export interface Morning {
  readonly farm: Farm
  readonly date: Temporal.PlainDate
  readonly nowEpochH: number
  /** What is known of the parts still standing. */
  readonly outlooks: readonly Outlook[]
  /** By part key [ha]. */
  readonly standingHa: ReadonlyMap<string, number>
  /** Where each outfit stands, by its id. */
  readonly at: ReadonlyMap<string, FieldPart>
  /** When each part is expected to be mature, by key, hours since the epoch. */
  readonly matureEpochH: ReadonlyMap<string, number>
}

/** Part keys in their order, by outfit id. */
export type Orders = ReadonlyMap<string, readonly string[]>

export interface Policy {
  readonly name: string
  /** One of the rules that a farm can follow by head. */
  readonly simple: boolean
  /** What it sees of the truth; absent = what could be known. */
  readonly sees?: Sight | 'all'
  readonly orders: (morning: Morning) => Orders | Promise<Orders>
}

export const SIMPLE_POLICIES: readonly Policy[] = [
  sameForAll(
    'ripest first',
    ({ matureEpochH }) =>
      ({ part }) =>
        matureEpochH.get(part.key)!,
  ),
  sameForAll('driest first', ({ date, farm }) => {
    const afternoon = epochHoursAtMinute(date, 15 * 60, farm.timeZone)
    return (outlook) => medianAt(outlook, afternoon)
  }),
  {
    name: 'nearest first',
    simple: true,
    orders: ({ farm, outlooks, at }) =>
      new Map(
        farm.outfits.map(({ id }) => {
          const from = at.get(id) ?? yardOf(farm)
          return [id, keysBy(outlooks, ({ part }) => moveHours(from, part))]
        }),
      ),
  },
  sameForAll(
    'fixed order',
    ({ farm }) =>
      ({ part }) =>
        farm.fields.findIndex(({ id }) => id === part.field.id),
  ),
  {
    name: 'greedy by dollars',
    simple: true,
    orders: (morning) => {
      const plan = firstPlan(inputOf(morning))
      const ranked = plan.ranking.map(({ part }) => part.key)
      return new Map(
        morning.farm.outfits.map(({ id }) => {
          const runs = plan.runs.filter(({ outfitId }) => outfitId === id).map(({ part }) => part.key)
          return [id, [...new Set([...runs, ...ranked])]]
        }),
      )
    },
  },
]

function sameForAll(name: string, rankIn: (morning: Morning) => (outlook: Outlook) => number): Policy {
  return {
    name,
    simple: true,
    orders: (morning) => {
      const keys = keysBy(morning.outlooks, rankIn(morning))
      return new Map(morning.farm.outfits.map(({ id }) => [id, keys]))
    },
  }
}

const keysBy = (outlooks: readonly Outlook[], rank: (outlook: Outlook) => number): string[] =>
  outlooks
    .map((outlook, place) => ({ key: outlook.part.key, rank: rank(outlook), place }))
    .sort((a, b) => a.rank - b.rank || a.place - b.place)
    .map(({ key }) => key)

const MEMBERS = 25
const DAYS = 10
const WHOLE_SEASON_DAYS = 100
/** Gap at which the solver stops: a season asks it every morning, and the lists are searched for after it. */
const SEASON_GAP = 0.01

/** This planner: its visits, then its backups. */
export const plannerPolicy = (solver: Solver | undefined): Policy => ({
  name: 'this planner',
  simple: false,
  orders: (morning) => planned(morning, solver, MEMBERS, DAYS, undefined),
})

/** The same planner with one thing known that it could not know: what remains of its loss shows what that is worth. */
export const seeingPolicies = (solver: Solver | undefined): readonly Policy[] => [
  { ...plannerPolicy(solver), name: 'and the true state of the fields', sees: { weather: false, state: true } },
  { ...plannerPolicy(solver), name: 'and the true weather of ten days', sees: { weather: true, state: false } },
  { ...plannerPolicy(solver), name: 'and both', sees: { weather: true, state: true } },
]

/** The same planner with the true weather and state of every part before it, to the end of the season. */
export const foresightPolicy = (solver: Solver | undefined): Policy => ({
  name: 'perfect foresight',
  simple: false,
  sees: 'all',
  orders: (morning) => planned(morning, solver, 1, WHOLE_SEASON_DAYS, 0),
})

async function planned(
  morning: Morning,
  solver: Solver | undefined,
  members: number,
  days: number,
  tailWeeks: number | undefined,
): Promise<Orders> {
  const plan = await planWeek(
    { ...inputOf(morning), members, days, ...(tailWeeks === undefined ? {} : { tailWeeks }) },
    solver,
    {
      trials: 300,
      nodes: 60,
      explain: false,
      relGap: SEASON_GAP,
    },
  )
  return new Map(
    morning.farm.outfits.map(({ id }) => [
      id,
      [...plan.visits, ...plan.backups].filter(({ outfitId }) => outfitId === id).map(({ partKey }) => partKey),
    ]),
  )
}

export function inputOf({ farm, date, nowEpochH, outlooks, standingHa, at }: Morning): FarmPlanInput {
  return {
    farm,
    outlooks,
    date,
    nowEpochH,
    standingHa,
    at,
    rateOf: rateIn(farm),
    rules: { ...NO_RULES, outfitsPerField: 1 },
    days: DAYS,
    members: MEMBERS,
  }
}
