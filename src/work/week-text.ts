/** The week view in words, for a terminal; and as plain JSON. English: the page has words of its own. */
import type { Farm } from '#core/farm/farm.ts'
import { partsOf } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import type { Choice, ChoiceReason } from '#core/planning/optimiser/explain.ts'
import type { PinConflict, WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { PartWeek, WeekView } from '#core/planning/optimiser/week-view.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'

const REASONS: { readonly [R in ChoiceReason]: string } = {
  pinned: 'you pinned it',
  'only-one-fit': 'nothing else is fit for this outfit today',
  'loses-more': 'it loses more by waiting',
  nearer: 'it is the shorter move',
  'longer-window': 'its window is longer today',
  promised: 'yesterday’s plan said so, and nothing gains by changing it',
  'better-week': 'the week comes out better',
}

const BECAUSE: { readonly [B in PinConflict['because']]: string } = {
  'no-outfit': 'no outfit has a head for it',
  'day-off': 'the crew is off that day',
  'kept-off': 'it is kept off that day',
  'never-fit': 'it is not likely to be fit at all that day',
  'not-enough-hours': 'the pins together ask for more hours than there are',
  'beyond-outlook': 'that day can’t be seen yet',
}

export function weekText(view: WeekView, plan: WeekPlan, farm: Farm): string {
  const nameOf = namesOf(farm)
  const lines = [
    `${farm.name}: the days from ${dayWord(view.from)} to ${dayWord(view.to)}`,
    '',
    ...view.parts.map((part) => partLine(part, nameOf, farm)),
    '',
    ...plan.choices.map((choice) => choiceLine(choice, nameOf)),
    ...conflictLines(plan.conflict, nameOf),
    planLine(plan),
  ]
  return `${lines.join('\n')}\n`
}

function namesOf(farm: Farm): (partKey: string) => string {
  const names = new Map(farm.fields.flatMap(partsOf).map((part) => [part.key, partName(part)]))
  return (partKey) => names.get(partKey) ?? partKey
}

function partLine(part: PartWeek, nameOf: (key: string) => string, farm: Farm): string {
  const cut = part.days.filter(({ cutChance }) => cutChance >= 0.1)
  const days = cut.map(({ date, cutChance }) => `${dayWord(date)} ${percent(cutChance)}`).join(', ')
  const left =
    part.leftChance >= 0.1
      ? `; ${percent(part.leftChance)} that some stands after that${
          part.tail ? `, then about ${dayWord(part.tail.middle)}` : ''
        }`
      : ''
  return `${nameOf(part.partKey)} (${areaWord(part.areaHa, farm)}): ${days || 'not in these days'}${left}`
}

function choiceLine({ partKey, reason, perDayWaiting, instead }: Choice, nameOf: (key: string) => string): string {
  const waiting = perDayWaiting > 0.5 ? ` Each day of waiting costs about ${dollars(perDayWaiting)}.` : ''
  if (!instead) return `${nameOf(partKey)} today: ${REASONS[reason]}.${waiting}`
  const other = nameOf(instead.partKey)
  const costs =
    instead.costs > 0.5
      ? ` ${other} in its place would cost about ${dollars(instead.costs)}.`
      : ` ${other} in its place would come out about the same.`
  return `${nameOf(partKey)} today: ${REASONS[reason]}.${waiting}${costs}`
}

function conflictLines(conflict: readonly PinConflict[], nameOf: (key: string) => string): string[] {
  if (conflict.length === 0) return []
  const pins = conflict.map(({ partKey, date }) => `${nameOf(partKey)} on ${dayWord(date)}`).join(' and ')
  return [`These pins can’t all be kept: ${pins}. ${capital(BECAUSE[conflict[0]!.because])}.`]
}

function planLine({ status, gap, value, loss, leastLoss }: WeekPlan): string {
  const money = `Expected ${dollars(value)}, ${dollars(loss)} short of the best the weather could give`
  switch (status) {
    case 'proven':
      return `${money}; no plan could save more than ${dollars(loss - leastLoss)} of that.`
    case 'good':
      return `${money}; a better plan may exist, by ${dollars(loss - leastLoss)} (${percent(gap)}) at most.`
    case 'fallback':
      return `${money}. Made by simple rules: a better plan may exist, by ${dollars(loss - leastLoss)} at most.`
  }
}

const DAY = { weekday: 'short', month: 'short', day: 'numeric' } as const
const dayWord = (date: Temporal.PlainDate): string => date.toLocaleString('en-US', DAY)
const percent = (share: number): string => `${Math.round(share * 100)} %`
const dollars = (money: number): string => `$${Math.round(money).toLocaleString('en-US', { maximumFractionDigits: 0 })}`
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function areaWord(areaHa: number, { units }: Farm): string {
  return units === 'us' ? `${Math.round(areaHa / HA_PER_ACRE)} acres` : `${areaHa.toFixed(1)} ha`
}

/** The same as plain data: dates as ISO text, areas in hectares. */
export function weekJson(view: WeekView, plan: WeekPlan): unknown {
  return {
    from: view.from.toString(),
    to: view.to.toString(),
    status: plan.status,
    value: plan.value,
    loss: plan.loss,
    leastLoss: plan.leastLoss,
    gap: plan.gap,
    parts: view.parts.map(({ days, likelyBy, almostSurelyBy, tail, ...part }) => ({
      ...part,
      likelyBy: likelyBy?.toString() ?? null,
      almostSurelyBy: almostSurelyBy?.toString() ?? null,
      tail: tail ? { from: tail.from.toString(), middle: tail.middle.toString(), to: tail.to.toString() } : null,
      days: days.map(({ date, ...day }) => ({ date: date.toString(), ...day })),
    })),
    choices: plan.choices.map(({ instead, ...choice }) => ({ ...choice, instead: instead ?? null })),
    conflict: plan.conflict.map(({ date, outfitId, ...one }) => ({
      ...one,
      date: date.toString(),
      outfitId: outfitId ?? null,
    })),
  }
}
