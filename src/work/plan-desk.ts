/** The planner at the desk: the week that stands, what would come of a change, the change made, the change taken back. */
import type { Farm } from '#core/farm/farm.ts'
import { differenceOf, type PlanChange, type PlanDifference } from '#core/planning/optimiser/changes.ts'
import type { ChangeReason, PlanRecord } from '#core/planning/optimiser/plan-record.ts'
import { rateIn } from '#core/planning/optimiser/rate-in.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { type WeekView, weekView } from '#core/planning/optimiser/week-view.ts'
import { decide, faultOfChange } from './decisions.ts'
import type { Planned } from './make-day.ts'
import type { PlanStore } from './plan-store.ts'
import type { RecordFault } from './record-faults.ts'
import { takeBack } from './records.ts'
import type { RecordStore, Standing } from './records-port.ts'
import { costOfPins, type MoreWorth, replan, worthOfMore } from './replan.ts'
import type { Service } from './service.ts'
import type { Solver } from './solver-port.ts'

export interface DeskParts {
  readonly service: Pick<Service, 'farm' | 'current' | 'changed' | 'clock'>
  readonly records: RecordStore
  readonly plans: PlanStore
  readonly solver: Solver | undefined
}

/** The week that stands. */
export interface DeskWeek {
  /** As the planner's decisions leave it. */
  readonly farm: Farm
  readonly week: WeekPlan
  readonly view: WeekView
  /** Every decision that holds, oldest first; those of days gone by as well. */
  readonly decisions: readonly Standing<'decision'>[]
}

export interface TriedOut {
  readonly farm: Farm
  readonly week: WeekPlan
  readonly view: WeekView
  readonly difference: PlanDifference
}

export type Decided =
  | {
      readonly kind: 'decided'
      /** Names the decision: what is taken back by it. */
      readonly key: string
      readonly desk: DeskWeek
      /** Against the plan that stood before. */
      readonly difference: PlanDifference
    }
  | { readonly kind: 'refused'; readonly fault: RecordFault }
  | NoPlan

/** Without weather there is no plan to change. */
export interface NoPlan {
  readonly kind: 'no-plan'
}
const NO_PLAN: NoPlan = { kind: 'no-plan' }

export interface PlanDesk {
  standing(): Promise<DeskWeek | undefined>
  /** Nothing is kept. */
  tryOut(changes: readonly PlanChange[]): Promise<TriedOut | { kind: 'refused'; fault: RecordFault } | NoPlan>
  /** @param by id or name of who decides. @param key makes sending it again harmless. */
  decide(change: PlanChange, by: string, key?: string): Promise<Decided>
  /** @param key of the decision to take back; the newest that holds unless told. */
  undo(by: string, key?: string): Promise<Decided>
  /** What the pins cost against the plan that is free of them [money]. */
  costOfPins(): Promise<number>
  /** What one more hour, cart or truck would bring; nothing without a solver. */
  worthOfMore(): Promise<readonly MoreWorth[]>
  /** Published plans, newest first. */
  history(most: number, beforeEpochH?: number): Promise<readonly PlanRecord[]>
}

export function planDesk({ service, records, plans, solver }: DeskParts): PlanDesk {
  const costs = new WeakMap<WeekPlan, Promise<number>>()

  const planned = async (): Promise<Planned | undefined> => (await service.current()).day?.planned

  const viewOf = ({ week, input }: Planned): WeekView =>
    weekView(week, input.outlooks, input.standingHa, input.farm.timeZone)

  async function standing(): Promise<DeskWeek | undefined> {
    const now = await planned()
    if (!now) return undefined
    const decisions = await records.current(now.input.farm.id, 'decision')
    return { farm: now.input.farm, week: now.week, view: viewOf(now), decisions: byTold(decisions) }
  }

  async function tryOut(changes: readonly PlanChange[]): ReturnType<PlanDesk['tryOut']> {
    const now = await planned()
    if (!now) return NO_PLAN
    const { farm, date } = now.input
    const fault = changes.map((change) => faultOfChange(change, farm, date)).find((found) => found !== undefined)
    if (fault) return { kind: 'refused', fault }
    const { plan, difference, input } = await replan(now.input, now.week, changes, rateIn, solver)
    return { farm: input.farm, week: plan, view: viewOf({ week: plan, input }), difference }
  }

  /** Makes the plan anew after the book has changed, and compares it with the one before. */
  async function anew(before: WeekPlan, key: string, reason: ChangeReason): Promise<Decided> {
    service.changed(reason)
    const desk = await standing()
    return desk ? { kind: 'decided', key, desk, difference: differenceOf(before, desk.week) } : NO_PLAN
  }

  return {
    standing,
    tryOut,

    async decide(change, by, key) {
      const now = await planned()
      if (!now) return NO_PLAN
      const { farm } = now.input
      const answer = await decide({ farm, store: records, nowEpochH: service.clock() }, change, by, key)
      if (answer.kind === 'refused') return answer
      const { record } = answer
      return await anew(now.week, record.key, { kind: 'planner', changes: [change], personId: record.by })
    },

    async undo(by, key) {
      const now = await planned()
      if (!now) return NO_PLAN
      const { farm } = now.input
      const decisions = byTold(await records.current(farm.id, 'decision'))
      const last = key === undefined ? decisions.at(-1) : decisions.find((decision) => decision.key === key)
      if (!last) return { kind: 'refused', fault: { code: 'unknown-record', said: key ?? '' } }
      const book = { farm, store: records, nowEpochH: service.clock() }
      const answer = await takeBack(book, 'decision', last.key, by)
      if (answer.kind === 'refused') return answer
      return await anew(now.week, last.key, { kind: 'planner', changes: [], personId: answer.record.by })
    },

    async costOfPins() {
      const now = await planned()
      if (!now) return 0
      const known = costs.get(now.week)
      if (known) return await known
      const asked = costOfPins(now.input, now.week, solver, { explain: false })
      costs.set(now.week, asked)
      asked.catch(() => costs.delete(now.week))
      return await asked
    },

    async worthOfMore() {
      const now = await planned()
      return now && solver ? await worthOfMore(now.input, rateIn, solver) : []
    },

    history: (most, beforeEpochH) => plans.history(service.farm.id, most, beforeEpochH),
  }
}

/** In the order in which they were told: the newest is what is taken back first. */
const byTold = (decisions: readonly Standing<'decision'>[]): Standing<'decision'>[] =>
  [...decisions].sort((a, b) => a.toldAtEpochH - b.toldAtEpochH || (a.key < b.key ? -1 : 1))
