/** What a language must supply for the week's plan: the page on which it is changed and that of the plans published. */

import type { MoreWorth } from '#app/replan.ts'
import type { UnitSystem } from '#core/operation/farm.ts'
import type { ChoiceReason } from '#core/planning/optimiser/explain.ts'
import type { ChangeReason } from '#core/planning/optimiser/plan-record.ts'
import type { PinConflict, PlanStatus } from '#core/planning/optimiser/week-plan.ts'

/** Dates in words; absent = not before the last day looked at. */
export interface TailDates {
  readonly early: string | undefined
  readonly middle: string | undefined
  readonly late: string | undefined
  readonly until: string
}

/** What a planner did, or may do, in a few words without a full stop. */
export interface ChangeWords {
  readonly pin: (name: string, day: string) => string
  /** So much of a field, to stand where its name does. */
  readonly someOf: (area: string, name: string) => string
  readonly pinBy: (what: string, outfit: string) => string
  readonly unpin: (name: string) => string
  readonly keepOff: (name: string, from: string, to: string) => string
  readonly allow: (name: string) => string
  readonly deadline: (name: string, day: string) => string
  readonly hours: (outfit: string, from: string, to: string) => string
  readonly daysOff: (outfit: string, days: readonly string[]) => string
  readonly addOutfit: (outfit: string) => string
  readonly dropOutfit: (outfit: string) => string
  readonly addCart: (outfit: string) => string
  readonly addTruck: (outfit: string) => string
  /** What was decided, and holds no more. */
  readonly takenBack: (what: string) => string
}

export interface PlanWords {
  /** One large sentence: where today, and where on the next day that has something. */
  readonly sentence: (today: readonly string[], next: { day: string; names: readonly string[] } | undefined) => string
  readonly worth: (value: string, short: string) => string
  readonly status: { readonly [S in PlanStatus]: (most: string) => string }
  /** Where nothing to speak of could be saved. */
  readonly noneBetter: string
  readonly planned: (day: string, chance: string) => string
  readonly notInSight: string
  readonly pinned: string
  /** Of a day in a row: its name, how likely the field is fit, and whether it is kept off. */
  readonly day: (day: string, chance: string, keptOff: boolean) => string
  readonly later: string
  /** Share that some is left behind the days in sight, and when that is likely fit: early, middle and late, where known. */
  readonly tail: (left: string, dates: TailDates) => string
  /** What the dates behind the days in sight rest on. */
  readonly seasonRests: (lastDay: string, years: number, few: boolean) => string
  readonly keptOff: string
  readonly moveNamed: (name: string) => string
  readonly markerHelp: string
  readonly markerOf: (name: string) => string
  readonly keyPlan: string
  readonly keyTag: string
  readonly keyPinned: string
  readonly keyOff: string
  readonly conflict: (pins: readonly string[]) => string
  readonly because: { readonly [B in PinConflict['because']]: string }
  readonly change: ChangeWords
  /** What a change costs: `costs about $120 and moves 2 other fields`. */
  readonly would: (what: string, costs: string | undefined, gains: string | undefined, others: number) => string
  readonly cannot: (what: string) => string
  readonly badWeather: (costs: string | undefined, gains: string | undefined) => string
  readonly moved: (name: string, from: string | undefined, to: string | undefined) => string
  readonly movedTitle: string
  readonly keep: string
  readonly leave: string
  readonly last: (who: string, what: string, when: string) => string
  readonly lastCost: (costs: string | undefined, gains: string | undefined, others: number) => string
  readonly undo: string
  readonly undoNamed: (what: string) => string
  readonly decided: string
  readonly free: string
  readonly freeNamed: (name: string) => string
  readonly pinsCost: (money: string) => string
  readonly unseen: string
  readonly why: string
  readonly whyOf: (name: string, reason: ChoiceReason, perDay: string | undefined) => string
  readonly instead: (name: string, costs: string | undefined) => string
  readonly moveTitle: string
  readonly pinForm: string
  readonly field: string
  readonly on: string
  readonly keepOffForm: string
  readonly from: string
  readonly to: string
  readonly deadlineForm: string
  readonly by: string
  readonly tryIt: string
  readonly crewTitle: string
  readonly outfit: string
  readonly starts: string
  readonly ends: string
  readonly daysOff: string
  readonly onlyArea: { readonly [U in UnitSystem]: string }
  readonly all: string
  readonly anyOutfit: string
  readonly outfitForm: string
  readonly outfitName: string
  /** Whose figures the form starts with. */
  readonly likeHelp: (outfit: string) => string
  /** Link to the form with those of another. */
  readonly likeOther: (outfit: string) => string
  readonly howMany: string
  readonly combines: string
  readonly tank: { readonly [U in UnitSystem]: string }
  readonly unload: { readonly [U in UnitSystem]: string }
  readonly headWidth: { readonly [U in UnitSystem]: string }
  readonly speed: { readonly [U in UnitSystem]: string }
  readonly efficiency: string
  readonly headFor: string
  readonly carts: string
  /** Of a cart or truck. */
  readonly holds: { readonly [U in UnitSystem]: string }
  readonly roadSpeed: { readonly [U in UnitSystem]: string }
  readonly trucks: string
  /** Leads from what was refused to where it was typed. */
  readonly toForm: string
  readonly oneCart: string
  readonly oneTruck: string
  readonly moreTitle: string
  readonly moreAsk: string
  readonly more: (what: MoreWorth['what'], outfit: string, money: string | undefined) => string
  readonly noMore: string
  readonly busy: string
  readonly noAnswer: string
  readonly signInToChange: string
  readonly history: string
  readonly historySentence: (count: number) => string
  readonly reasons: { readonly [K in Exclude<ChangeReason['kind'], 'planner'>]: string }
  readonly older: string
  readonly noPlans: string
  readonly nothingMoved: string
  readonly visits: (names: readonly string[]) => string
}
