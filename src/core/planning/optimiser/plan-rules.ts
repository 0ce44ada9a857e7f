/** What the planner fixed, forbade or was promised, by the names of parts and outfits. */
import type { Aversion } from './linear/two-stage.ts'

export interface PlanRules {
  readonly pins: readonly PartPin[]
  readonly keepOffs: readonly KeepOff[]
  readonly deadlines: readonly Deadline[]
  /** What the plan published before said for the first day: it is left only for a gain that is worth the trouble. */
  readonly promised: readonly { readonly outfitId: string; readonly partKey: string }[]
  /** Outfits that fit in a field at once. */
  readonly outfitsPerField: number
  /** Fields an outfit visits in a day at most. */
  readonly fieldsPerDay: number
  readonly aversion?: Aversion
}

/** This part is to be cut on this date, as far as the weather lets it. */
export interface PartPin {
  readonly partKey: string
  readonly date: Temporal.PlainDate
  readonly outfitId?: string
  /** Absent = all that stands. */
  readonly areaHa?: number
}

export interface KeepOff {
  readonly partKey: string
  readonly from: Temporal.PlainDate
  readonly to: Temporal.PlainDate
}

/** Should be cut by the end of this date. */
export interface Deadline {
  readonly partKey: string
  readonly date: Temporal.PlainDate
}

/** Two outfits in a field, four fields a day: common practice, no source. */
export const NO_RULES: PlanRules = {
  pins: [],
  keepOffs: [],
  deadlines: [],
  promised: [],
  outfitsPerField: 2,
  fieldsPerDay: 4,
}

/** What leaving a promised visit must gain at least (a limit of ours) [money]. */
export const PROMISE_WORTH = 100
/** What an hour of a convoy on the road costs (common practice, no source) [money/h]. */
export const MOVE_COST_PER_H = 100
/** What it costs to miss a deadline: dear, not forbidden, for the weather may leave no choice (a limit of ours) [money/ha]. */
export const LATE_PER_HA = 1000
