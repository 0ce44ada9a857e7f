/** The optimiser's answer as data: the day's plan as every other part reads it, and what stands behind it. */
import type { DayPlan } from '#core/planning/plan.ts'
import type { Choice } from './explain.ts'
import type { RulePrice } from './simple-rules.ts'

/**
 * `proven`: the planning model was solved within the gap asked for; `good`: it was not quite; `fallback`: made by hand.
 *
 * The model knows in each member what the day will bring once its visits are chosen; today's lists, which all members
 * share, are chosen without that, so the plan's own loss lies above the model's by what such knowledge would be worth.
 */
export type PlanStatus = 'proven' | 'good' | 'fallback'

export interface WeekPlan {
  readonly day: DayPlan
  readonly status: PlanStatus
  /** Expected money for all that stands [money]. */
  readonly value: number
  /** Expected money lost against machines without end [money]. */
  readonly loss: number
  /**
   * What in the loss is no money but the weight of wishes: promises left, deadlines missed, pins unheard; and the same in
   * `badLoss`. Absent = none [money].
   */
  readonly wishes?: { readonly mean: number; readonly bad: number }
  /** No plan could lose less than this, not even one that knew today's weather beforehand [money]. */
  readonly leastLoss: number
  /** (loss - leastLoss) / loss, 0-1. */
  readonly gap: number
  /** Time taken, where the caller measured it [s]; NaN in a run that must not depend on the clock. */
  readonly seconds: number
  /** Mean loss of the worst fifth of the members [money]. */
  readonly badLoss: number
  /** Who goes where today, in order. */
  readonly visits: readonly OutfitVisit[]
  /** Where each outfit goes when its visits are done or not fit after all, in order. */
  readonly backups: readonly OutfitVisit[]
  readonly later: readonly LaterCut[]
  /** What is likely to be still standing when the outlook ends, by part. */
  readonly left: readonly { readonly partKey: string; readonly meanHa: number; readonly chance: number }[]
  /** What today would bring by simple rules, the days after reckoned alike; absent in plans kept before it was reckoned. */
  readonly against?: readonly RulePrice[]
  readonly choices: readonly Choice[]
  /** Pins that cannot all be kept, smallest set; empty when they can. */
  readonly conflict: readonly PinConflict[]
}

export interface OutfitVisit {
  readonly outfitId: string
  readonly partKey: string
}

/** What is likely to be cut of a part on a day, today included. */
export interface LaterCut {
  readonly date: Temporal.PlainDate
  readonly partKey: string
  /** Mean over the members [ha]. */
  readonly meanHa: number
  /** Share of the members in which it is cut that day at all, 0-1. */
  readonly chance: number
}

export interface PinConflict {
  readonly partKey: string
  readonly date: Temporal.PlainDate
  readonly outfitId: string | undefined
  readonly because: 'no-outfit' | 'day-off' | 'kept-off' | 'never-fit' | 'not-enough-hours' | 'beyond-outlook'
}
