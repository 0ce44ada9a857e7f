/** The planner at the desk: the week that stands, what would come of a change, the change made, the change taken back. */
import { partOfKey } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import {
  applyChanges,
  differenceOf,
  type PlanChange,
  type PlanDifference,
  type Plannable,
} from '#core/planning/optimiser/changes.ts'
import { type ChangeReason, type PlanRecord, promisedFor } from '#core/planning/optimiser/plan-record.ts'
import type { WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import { type WeekView, weekView } from '#core/planning/optimiser/week-view.ts'
import { decide, faultOfChange, partOf, standingDecisions } from './decisions.ts'
import { beforePlanner } from './kept-plans.ts'
import type { Day, Planned } from './make-day.ts'
import type { PlanStore } from './plan-store.ts'
import type { RecordFault } from './record-faults.ts'
import { takeBack } from './records.ts'
import type { RecordStore, Standing } from './records-port.ts'
import type { MoreWorth } from './replan.ts'
import { type SeasonAhead, tailsOf } from './season-ahead.ts'
import type { Service } from './service.ts'
import type { WeekWork } from './week-work.ts'

export interface DeskParts {
  readonly service: Pick<Service, 'farm' | 'current' | 'changed' | 'clock'>
  readonly records: RecordStore
  readonly plans: PlanStore
  /** Who does the long reckonings. */
  readonly work: WeekWork
  /** What past years let expect behind the forecast; nothing is said of it without. */
  readonly seasonOf?: (day: Day) => Promise<SeasonAhead | undefined>
}

/** A week's plan, with the farm and the rules it was made for. */
export interface ShownWeek extends Plannable {
  readonly week: WeekPlan
  readonly view: WeekView
  /** Behind the tails in the view; absent where no past year of the place is at hand. */
  readonly season: SeasonAhead | undefined
}

/** The week that stands. */
export interface DeskWeek extends ShownWeek {
  /** Every decision that holds, oldest first. */
  readonly decisions: readonly Standing<'decision'>[]
}

export interface TriedOut extends ShownWeek {
  readonly kind: 'tried'
  /** Against the plan that stands. */
  readonly difference: PlanDifference
}

export type Refused = { readonly kind: 'refused'; readonly fault: RecordFault }

/** Without weather there is no plan to change. */
export interface NoPlan {
  readonly kind: 'no-plan'
}

export type Decided =
  | {
      readonly kind: 'decided'
      /** Names the decision: what is taken back by it. */
      readonly key: string
      /** False where the same was sent before: nothing was changed. */
      readonly isNew: boolean
      readonly desk: DeskWeek
      /** Against the plan that stood before. */
      readonly difference: PlanDifference
    }
  | Refused
  | NoPlan

const NO_PLAN: NoPlan = { kind: 'no-plan' }

export interface PlanDesk {
  /** @param of a day at hand; the newest, waited for, unless told. */
  standing(of?: Day): Promise<DeskWeek | undefined>
  /** Nothing is kept. @throws the reason of a signal that was aborted. */
  tryOut(changes: readonly PlanChange[], signal?: AbortSignal): Promise<TriedOut | Refused | NoPlan>
  /** @param by id or name of who decides. @param key makes sending it again harmless. */
  decide(change: PlanChange, by: string, key?: string): Promise<Decided>
  /** @param key of the decision to take back. */
  undo(by: string, key: string): Promise<Decided>
  /** What the pins cost against the plan that is free of them [money]; 0 without pins or plan. */
  costOfPins(of?: Planned): Promise<number>
  /** What one more hour, cart or truck would bring; nothing without a solver. */
  worthOfMore(of?: Planned): Promise<readonly MoreWorth[]>
  /** Published plans, newest first. */
  history(most: number, beforeEpochH?: number): Promise<readonly PlanRecord[]>
}

export function planDesk({ service, records, plans, work, seasonOf }: DeskParts): PlanDesk {
  const planned = async (): Promise<Planned | undefined> => (await service.current()).day?.planned
  const seasons = onceEach(async (day: Day) => await seasonOf?.(day))
  const pinsCost = onceEach(({ week, input }: Planned) => work.costOfPins(input, week))
  const moreWorth = onceEach(({ input }: Planned) => work.worthOfMore(input))

  async function standing(of?: Day): Promise<DeskWeek | undefined> {
    const day = of ?? (await service.current()).day
    const now = day?.planned
    if (!now) return undefined
    return {
      ...shown(now, await seasons(day)),
      decisions: await standingDecisions(now.input.farm, records, service.clock()),
    }
  }

  /** Makes the plan anew after the book has changed, and compares it with the one before. */
  async function anew(before: WeekPlan, key: string, isNew: boolean, reason: ChangeReason): Promise<Decided> {
    if (isNew) service.changed(reason)
    const desk = await standing()
    return desk ? { kind: 'decided', key, isNew, desk, difference: differenceOf(before, desk.week) } : NO_PLAN
  }

  /** What a decision would be planned from: the same question must get the same answer. */
  async function asDecided({ input }: Planned): Promise<Planned['input']> {
    const promised = promisedFor(input.date, await beforePlanner(service.farm.id, plans))
    return { ...input, rules: { ...input.rules, promised } }
  }

  return {
    standing,

    async tryOut(changes, signal) {
      const { day } = await service.current()
      const now = day?.planned
      if (!now) return NO_PLAN
      const fault = faultOfAll(changes, now)
      if (fault) return { kind: 'refused', fault }
      const { plan: week, difference, input } = await work.replan(await asDecided(now), now.week, changes, signal)
      return { kind: 'tried', ...shown({ week, input }, await seasons(day)), difference }
    },

    async decide(change, by, key) {
      const now = await planned()
      if (!now) return NO_PLAN
      const { farm } = now.input
      const sentBefore = key !== undefined && (await records.find(farm.id, 'decision', key)) !== undefined
      const fault = sentBefore ? undefined : unheard(change, now)
      if (fault) return { kind: 'refused', fault }
      const book = { farm, store: records, nowEpochH: service.clock() }
      const answer = await decide(book, change, by, key)
      if (answer.kind === 'refused') return answer
      const { record, kind } = answer
      const reason = { kind: 'planner', changes: [change], personId: record.by } as const
      return await anew(now.week, record.key, kind === 'kept', reason)
    },

    async undo(by, key) {
      const now = await planned()
      if (!now) return NO_PLAN
      const { farm } = now.input
      const decision = await records.find(farm.id, 'decision', key)
      // What only takes back can't be taken back: it is decided anew.
      if (!decision?.body) return { kind: 'refused', fault: { code: 'unknown-record', said: key } }
      const book = { farm, store: records, nowEpochH: service.clock() }
      const answer = await takeBack(book, 'decision', key, by)
      if (answer.kind === 'refused') return answer
      const { record, kind } = answer
      const reason = { kind: 'planner', changes: [], takenBack: [decision.body], personId: record.by } as const
      return await anew(now.week, key, kind === 'kept', reason)
    },

    async costOfPins(of) {
      const now = of ?? (await planned())
      return now ? await pinsCost(now) : 0
    },
    async worthOfMore(of) {
      const now = of ?? (await planned())
      return now ? await moreWorth(now) : []
    },
    history: (most, beforeEpochH) => plans.history(service.farm.id, most, beforeEpochH),
  }
}

function shown({ week, input }: Planned, season: SeasonAhead | undefined): ShownWeek {
  const { farm, rules, outlooks, standingHa } = input
  return { farm, rules, week, view: weekView(week, outlooks, standingHa, farm.timeZone, tailsOf(season)), season }
}

/** Each change on the farm as the ones before it leave it. */
function faultOfAll(changes: readonly PlanChange[], now: Planned): RecordFault | undefined {
  let { farm } = now.input
  for (const change of changes) {
    const fault = unheard(change, now) ?? faultOfChange(change, farm, now.input.date)
    if (fault) return fault
    farm = applyChanges({ farm, rules: now.input.rules }, [change]).farm
  }
  return undefined
}

/** A pin or a keep-off of what is cut already, or is cut through with the field around it, would never be heard. */
function unheard(change: PlanChange, { input }: Planned): RecordFault | undefined {
  const partKey = partOf(change)
  const part = partOfKey(input.farm, partKey)
  const planned = input.outlooks.map((outlook) => outlook.part)
  if (!part || planned.some(({ key }) => key === partKey)) return undefined
  const name = partName(part)
  const around = planned.find(
    ({ field, through = [] }) => field.id === part.field.id && through.some(({ id }) => id === part.patch?.id),
  )
  return around
    ? { code: 'cut-through', partName: name, fieldName: partName(around) }
    : { code: 'nothing-stands', partName: name }
}

/** Asked as often as one likes, reckoned once for each; what failed is reckoned again. */
function onceEach<Of extends object, T>(reckon: (of: Of) => Promise<T>): (of: Of) => Promise<T> {
  const known = new WeakMap<Of, Promise<T>>()
  return (of) => {
    const before = known.get(of)
    if (before) return before
    const asked = reckon(of)
    known.set(of, asked)
    asked.catch(() => known.delete(of))
    return asked
  }
}
