/** A change of the plan, and what it costs, in the words of a language. */

import { area, type Manner, money } from '#core/messages/words/format.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { PlanChange, PlanDifference } from '#core/planning/optimiser/changes.ts'
import { nameOfOutfit, nameOfPart } from '#edges/web/names.ts'
import { localeOf } from '#edges/web/when.ts'
import type { PlanWords } from '#edges/web/words/plan-words.ts'

const MINUTES_PER_HOUR = 60
/** Less than this is nothing [money]. */
const NOTHING = 1

/** `Saturday`; with the date where the week does not say which. */
export function dayText(date: Temporal.PlainDate, manner: Manner): string {
  const days = manner.today.until(date).days
  const form = days >= 0 && days < 7 ? ({ weekday: 'long' } as const) : DATED
  return date.toLocaleString(localeOf(manner), form)
}
const DATED = { weekday: 'short', month: 'short', day: 'numeric' } as const

export const datedDay = (date: Temporal.PlainDate, manner: Manner): string =>
  date.toLocaleString(localeOf(manner), DATED)

/** @param day ISO weekday. */
export const weekdayText = (day: number, manner: Manner): string =>
  // 2024-01-01 was a Monday.
  new Temporal.PlainDate(2024, 1, day).toLocaleString(localeOf(manner), { weekday: 'long' })

const clockText = (minute: number): string =>
  `${Math.floor(minute / MINUTES_PER_HOUR)}:${String(minute % MINUTES_PER_HOUR).padStart(2, '0')}`

export function sayChange(change: PlanChange, farm: Farm, manner: Manner, { change: words }: PlanWords): string {
  const part = (key: string) => nameOfPart(key, farm)
  const outfit = (id: string) => nameOfOutfit(id, farm)
  const day = (date: Temporal.PlainDate) => dayText(date, manner)
  switch (change.kind) {
    case 'pin': {
      const { partKey, date, outfitId, areaHa } = change.pin
      const what = areaHa === undefined ? part(partKey) : words.someOf(area(areaHa, manner), part(partKey))
      const said = words.pin(what, day(date))
      return outfitId === undefined ? said : words.pinBy(said, outfit(outfitId))
    }
    case 'unpin':
      return words.unpin(part(change.partKey))
    case 'keep-off':
      return words.keepOff(part(change.keepOff.partKey), day(change.keepOff.from), day(change.keepOff.to))
    case 'allow':
      return words.allow(part(change.partKey))
    case 'deadline':
      return words.deadline(part(change.deadline.partKey), day(change.deadline.date))
    case 'hours':
      return words.hours(outfit(change.outfitId), clockText(change.startMinute), clockText(change.endMinute))
    case 'days-off':
      return words.daysOff(
        outfit(change.outfitId),
        change.daysOff.map((one) => weekdayText(one, manner)),
      )
    case 'add-outfit':
      return words.addOutfit(change.outfit.name)
    case 'drop-outfit':
      return words.dropOutfit(outfit(change.outfitId))
    case 'add-cart':
      return words.addCart(outfit(change.outfitId))
    case 'add-truck':
      return words.addTruck(outfit(change.outfitId))
  }
}

/** What is lost or won, one of the two or neither. */
export function price(amount: number, manner: Manner): [costs: string | undefined, gains: string | undefined] {
  if (amount <= -NOTHING) return [money(-amount, manner), undefined]
  return [undefined, amount >= NOTHING ? money(amount, manner) : undefined]
}

export const partOfChange = (change: PlanChange): string | undefined => {
  if (change.kind === 'pin') return change.pin.partKey
  if (change.kind === 'keep-off') return change.keepOff.partKey
  if (change.kind === 'deadline') return change.deadline.partKey
  return change.kind === 'unpin' || change.kind === 'allow' ? change.partKey : undefined
}

/** Fields that move beside the one that is spoken of. */
export const othersMoved = ({ moved }: PlanDifference, change: PlanChange | undefined): number => {
  const own = change && partOfChange(change)
  return moved.filter(({ partKey }) => partKey !== own).length
}

export function sayMoved({ moved }: PlanDifference, farm: Farm, manner: Manner, words: PlanWords): string[] {
  const day = (cut: { readonly date: Temporal.PlainDate } | undefined) => cut && dayText(cut.date, manner)
  return moved.map(({ partKey, was, now }) => words.moved(nameOfPart(partKey, farm), day(was), day(now)))
}
