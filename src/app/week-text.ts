/** The week view in words, for a terminal; and as plain JSON. English: the page has words of its own. */

import { partsOf } from '#core/field/parts.ts'
import { partName } from '#core/messages/names.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { LikelyDates } from '#core/outlook/season.ts'
import { moneyOf } from '#core/planning/optimiser/changes.ts'
import type { Choice, ChoiceReason } from '#core/planning/optimiser/explain.ts'
import type { PinConflict, WeekPlan } from '#core/planning/optimiser/week-plan.ts'
import type { PartWeek, SeasonTail, WeekView } from '#core/planning/optimiser/week-view.ts'
import { HA_PER_ACRE } from '#core/units/convert.ts'
import type { SeasonAhead } from './season-ahead.ts'

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

export function weekText(view: WeekView, plan: WeekPlan, farm: Farm, season?: SeasonAhead): string {
  const nameOf = namesOf(farm)
  const lines = [
    `${farm.name}: the days from ${dayWord(view.from)} to ${dayWord(view.to)}`,
    '',
    ...view.parts.map((part) => partLine(part, nameOf, farm, season)),
    ...seasonLines(view, season),
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

function partLine(part: PartWeek, nameOf: (key: string) => string, farm: Farm, season?: SeasonAhead): string {
  const cut = part.days.filter(({ cutChance }) => cutChance >= WORTH_TELLING)
  const days = cut.map(({ date, cutChance }) => `${dayWord(date)} ${percent(cutChance)}`).join(', ')
  const isLeft = part.leftChance >= WORTH_TELLING
  const tail = isLeft && season && part.tail ? `, ${tailWords(part.tail.fit, season.to)}` : ''
  const left = isLeft ? `; ${percent(part.leftChance)} that some stands after that${tail}` : ''
  return `${nameOf(part.partKey)} (${areaWord(part.areaHa, farm)}): ${days || 'not in these days'}${left}`
}

/** Fit, not cut: when the machines come is another matter. */
function tailWords({ early, middle, late }: LikelyDates, until: Temporal.PlainDate): string {
  if (!middle) return `then not likely fit by ${dayWord(until)}`
  const about = `then likely fit about ${dayWord(middle)}`
  if (!early || early.equals(middle)) return late ? `${about}, nine in ten by ${dayWord(late)}` : about
  return `${about}, one in ten by ${dayWord(early)}, nine in ten ${late ? `by ${dayWord(late)}` : `not by ${dayWord(until)}`}`
}

/** What the days behind the last one rest on, where any part is left over. */
function seasonLines({ parts, to }: WeekView, season: SeasonAhead | undefined): string[] {
  if (!parts.some(({ leftChance }) => leftChance >= WORTH_TELLING)) return []
  if (!season) return ['', `Nothing is said of the days after ${dayWord(to)}: no past year of the place is known yet.`]
  const few = season.few ? ', too few to show all that can come' : ''
  return [
    '',
    `After ${dayWord(to)}: by the weather of ${season.years} past years at the place${few}; no forecast reaches there.`,
  ]
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

/** Money alone, without the weight of wishes. The bound holds for who knows more than anybody can, and says so. */
function planLine(plan: WeekPlan): string {
  const { status, loss, leastLoss, wishes } = plan
  const short = loss - (wishes?.mean ?? 0)
  const money = `Expected ${dollars(moneyOf(plan))}, ${dollars(short)} short of what machines without end would bring.`
  const bound = `even who knew today’s weather beforehand could save no more than ${dollars(loss - leastLoss)} of that.`
  switch (status) {
    case 'proven':
      return `${money} Proven: ${bound}`
    case 'good':
      return `${money} A better plan may exist, but ${bound}`
    case 'fallback':
      return `${money} Made by simple rules: a better plan may exist, but ${bound}`
  }
}

/** A smaller chance is left out of the words. */
const WORTH_TELLING = 0.1
const DAY = { weekday: 'short', month: 'short', day: 'numeric' } as const
const dayWord = (date: Temporal.PlainDate): string => date.toLocaleString('en-US', DAY)
const percent = (share: number): string => `${Math.round(share * 100)} %`
const dollars = (money: number): string => `$${Math.round(money).toLocaleString('en-US', { maximumFractionDigits: 0 })}`
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function areaWord(areaHa: number, { units }: Farm): string {
  return units === 'us' ? `${Math.round(areaHa / HA_PER_ACRE)} acres` : `${areaHa.toFixed(1)} ha`
}

/** The same as plain data: dates as ISO text, areas in hectares. */
export function weekJson(view: WeekView, plan: WeekPlan, season?: SeasonAhead): unknown {
  return {
    from: view.from.toString(),
    to: view.to.toString(),
    status: plan.status,
    value: plan.value,
    loss: plan.loss,
    leastLoss: plan.leastLoss,
    gap: plan.gap,
    season: season ? seasonJson(season) : null,
    parts: view.parts.map(({ days, likelyBy, almostSurelyBy, tail, ...part }) => ({
      ...part,
      likelyBy: likelyBy?.toString() ?? null,
      almostSurelyBy: almostSurelyBy?.toString() ?? null,
      tail: tail ? tailJson(tail) : null,
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

const seasonJson = ({ years, few, from, to }: SeasonAhead) => ({
  years,
  few,
  from: from.toString(),
  to: to.toString(),
})

const tailJson = ({ fit, ripe }: SeasonTail) => ({ ...datesJson(fit), chance: fit.chance, ripe: datesJson(ripe) })

const datesJson = ({ early, middle, late }: LikelyDates) => ({
  from: early?.toString() ?? null,
  middle: middle?.toString() ?? null,
  to: late?.toString() ?? null,
})
