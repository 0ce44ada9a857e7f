/** What a planner may change, and what comes of it: farm and rules with the change made, two plans side by side. */
import type { Cart, Farm, Outfit, Truck } from '#core/operation/farm.ts'
import type { Deadline, KeepOff, PartPin, PlanRules } from './plan-rules.ts'
import type { WeekPlan } from './week-plan.ts'

export type PlanChange =
  | { readonly kind: 'pin'; readonly pin: PartPin }
  | { readonly kind: 'unpin'; readonly partKey: string }
  | { readonly kind: 'keep-off'; readonly keepOff: KeepOff }
  | { readonly kind: 'allow'; readonly partKey: string }
  | { readonly kind: 'deadline'; readonly deadline: Deadline }
  | { readonly kind: 'hours'; readonly outfitId: string; readonly startMinute: number; readonly endMinute: number }
  | { readonly kind: 'days-off'; readonly outfitId: string; readonly daysOff: readonly number[] }
  | { readonly kind: 'add-outfit'; readonly outfit: Outfit }
  | { readonly kind: 'drop-outfit'; readonly outfitId: string }
  | { readonly kind: 'add-cart'; readonly outfitId: string; readonly cart: Cart }
  | { readonly kind: 'add-truck'; readonly outfitId: string; readonly truck: Truck }

export interface Plannable {
  readonly farm: Farm
  readonly rules: PlanRules
}

/** The same farm and rules with the changes made in their order; a change of what is not there changes nothing. */
export function applyChanges(start: Plannable, changes: readonly PlanChange[]): Plannable {
  return changes.reduce(applyChange, start)
}

function applyChange({ farm, rules }: Plannable, change: PlanChange): Plannable {
  const outfits = (of: (all: readonly Outfit[]) => readonly Outfit[]) => ({
    farm: { ...farm, outfits: of(farm.outfits) },
    rules,
  })
  const outfit = (id: string, of: (outfit: Outfit) => Outfit) =>
    outfits((all) => all.map((one) => (one.id === id ? of(one) : one)))
  switch (change.kind) {
    case 'pin': {
      const others = rules.pins.filter(({ partKey }) => partKey !== change.pin.partKey)
      return { farm, rules: { ...rules, pins: [...others, change.pin] } }
    }
    case 'unpin':
      return { farm, rules: { ...rules, pins: rules.pins.filter(({ partKey }) => partKey !== change.partKey) } }
    case 'keep-off':
      return { farm, rules: { ...rules, keepOffs: [...rules.keepOffs, change.keepOff] } }
    case 'allow':
      return { farm, rules: { ...rules, keepOffs: rules.keepOffs.filter(({ partKey }) => partKey !== change.partKey) } }
    case 'deadline': {
      const others = rules.deadlines.filter(({ partKey }) => partKey !== change.deadline.partKey)
      return { farm, rules: { ...rules, deadlines: [...others, change.deadline] } }
    }
    case 'hours': {
      const { startMinute, endMinute } = change
      return outfit(change.outfitId, (one) => ({ ...one, crewHours: { startMinute, endMinute } }))
    }
    case 'days-off':
      return outfit(change.outfitId, (one) => ({ ...one, daysOff: change.daysOff }))
    case 'add-outfit':
      return outfits((all) => [...all.filter(({ id }) => id !== change.outfit.id), change.outfit])
    case 'drop-outfit':
      return outfits((all) => all.filter(({ id }) => id !== change.outfitId))
    case 'add-cart':
      return outfit(change.outfitId, (one) => ({ ...one, carts: [...one.carts, change.cart] }))
    case 'add-truck':
      return outfit(change.outfitId, (one) => ({ ...one, trucks: [...one.trucks, change.truck] }))
  }
}

export interface PlanDifference {
  readonly moved: readonly MovedPart[]
  /** Worth of the new plan less that of the old one, in money alone [money]. */
  readonly money: number
  /** The same for the worst fifth of the members [money]: below 0, bad weather would now cost more. */
  readonly badMoney: number
}

export interface MovedPart {
  readonly partKey: string
  readonly was: PlannedCut | undefined
  readonly now: PlannedCut | undefined
}

export interface PlannedCut {
  readonly date: Temporal.PlainDate
  /** The outfit, where the cut is today's. */
  readonly outfitId: string | undefined
  readonly meanHa: number
}

/** What two plans are compared by. */
export type Compared = Pick<WeekPlan, 'value' | 'loss' | 'badLoss' | 'wishes' | 'visits' | 'later'> & {
  readonly day: { readonly date: Temporal.PlainDate }
}

/** Parts whose likeliest day, or whose outfit of today, is another than before. */
export function differenceOf(before: Compared, after: Compared): PlanDifference {
  const keys = new Set([...before.later, ...after.later].map(({ partKey }) => partKey))
  for (const { partKey } of [...before.visits, ...after.visits]) keys.add(partKey)
  const moved = [...keys].sort().flatMap((partKey): MovedPart[] => {
    const [was, now] = [likeliest(before, partKey), likeliest(after, partKey)]
    const same =
      was !== undefined && now !== undefined
        ? was.date.equals(now.date) && was.outfitId === now.outfitId
        : was === undefined && now === undefined
    return same ? [] : [{ partKey, was, now }]
  })
  return { moved, money: moneyOf(after) - moneyOf(before), badMoney: badValue(after) - badValue(before) }
}

/** What a plan is worth in money alone, without the weight of wishes. */
export const moneyOf = ({ value, wishes }: Pick<WeekPlan, 'value' | 'wishes'>): number => value + (wishes?.mean ?? 0)

const badValue = ({ value, loss, badLoss, wishes }: Compared): number => value + loss - badLoss + (wishes?.bad ?? 0)

/** Today where the plan goes there today, else the day with most area. */
export function likeliest({ day, visits, later }: Compared, partKey: string): PlannedCut | undefined {
  const visit = visits.find((one) => one.partKey === partKey)
  const cuts = later.filter((cut) => cut.partKey === partKey)
  if (visit) {
    const today = cuts.find(({ date }) => date.equals(day.date))
    return { date: day.date, outfitId: visit.outfitId, meanHa: today?.meanHa ?? 0 }
  }
  const [most] = [...cuts].sort((a, b) => b.meanHa - a.meanHa || Temporal.PlainDate.compare(a.date, b.date))
  return most && { date: most.date, outfitId: undefined, meanHa: most.meanHa }
}
