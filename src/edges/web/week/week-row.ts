/** A field of the week: its ribbon over the days, and under it the plan: how surely it is cut on each, and the tag to move. */
import { html, raw } from 'hono/html'
import type { ShownWeek } from '#app/plan-desk.ts'
import { drawRibbon } from '#core/messages/draw-ribbon.ts'
import { partName } from '#core/messages/names.ts'
import { type Ribbon, ribbonOf } from '#core/messages/ribbon.ts'
import { area, bareArea, clock, dayName, type Manner, moisture } from '#core/messages/words/format.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { likeliest } from '#core/planning/optimiser/changes.ts'
import type { PartDay } from '#core/planning/optimiser/week-view.ts'
import type { Markup } from '#edges/web/layout.ts'
import type { Words } from '#edges/web/words/words.ts'
import { datedDay, dayText } from './say-change.ts'
import { DAYS_DRAWN, type WorkDay } from './week-days.ts'

/** Further rows have the plan alone: on an old phone a drawing for each of 200 fields would take long. */
const MOST_DRAWN = 60

export interface WeekLook {
  readonly days: readonly WorkDay[]
  readonly manner: Manner
  readonly words: Words
  /** Absent where nothing plans the week. */
  readonly plan: ShownWeek | undefined
  /** The plan before what is tried, to show from where a tag moved. */
  readonly before: ShownWeek | undefined
  /** Whether who looks may move a field. */
  readonly movable: boolean
}

export function weekRow(outlook: Outlook, index: number, look: WeekLook): Markup {
  const { days, manner, words, plan } = look
  const { part } = outlook
  const name = partName(part)
  const said = windowsIn(outlook, days).map(({ startEpochH, endEpochH, chance }) =>
    words.week.window(
      dayName(startEpochH, manner),
      clock(startEpochH, manner),
      clock(endEpochH, manner),
      words.chance(chance),
    ),
  )
  const draw = () =>
    drawRibbon(joined(outlook, days), {
      id: `week-${index}`,
      label: words.ribbonLabel(name, said.length > 0 ? said : [words.noWindow]),
      wordOf: (heldBy) => words.held[heldBy],
      moisture: (wb) => moisture(wb, manner),
      parts: days.length,
      // Today's, and so within the first of the days joined.
      runs: plan?.week.day.runs.filter((run) => run.part.key === part.key) ?? [],
    })
  const placed = plan && placedOn(plan, part.key)
  const when = placed ? plannedText(placed, plan, part.key, look) : (said[0] ?? words.noWindow)
  return html`<li><p class="name"><strong><a href="/fields/${encodeURIComponent(part.field.id)}">${name}</a></strong><span>${words.crop(part.field.crop)} · ${area(part.areaHa, manner)} · ${plan && !placed?.date ? words.plan.notInSight : when}</span></p>${index < MOST_DRAWN ? raw(draw()) : ''}${plan ? tailLine(part.key, plan, look) : ''}${plan && placed ? track(part.key, name, placed, plan, look) : ''}</li>
`
}

/** Less is not worth a line. */
const WORTH_TELLING = 0.1

/** What past years let expect of what is left behind the days in sight. */
function tailLine(partKey: string, { view, season }: ShownWeek, { manner, words }: WeekLook): Markup | '' {
  const week = view.parts.find((part) => part.partKey === partKey)
  if (!season || !week?.tail || week.leftChance < WORTH_TELLING) return ''
  const { early, middle, late } = week.tail.fit
  const said = (date: Temporal.PlainDate | undefined) => date && datedDay(date, manner)
  // Early tells nothing where it is the middle.
  const dates = {
    early: early && middle && !early.equals(middle) ? said(early) : undefined,
    middle: said(middle),
    late: said(late),
    until: datedDay(season.to, manner),
  }
  return html`<p class="quiet">${words.plan.tail(words.chance(week.leftChance), dates)}</p>`
}

interface Placed {
  /** Where its tag stands: the day it is pinned to, else the likeliest; absent where it is not cut in these days. */
  readonly date: Temporal.PlainDate | undefined
  readonly isPinned: boolean
  readonly meanHa: number
}

export function placedOn(plan: ShownWeek, partKey: string): Placed {
  const pin = plan.rules.pins.find((one) => one.partKey === partKey)
  const likely = likeliest(plan.week, partKey)
  const date = pin?.date ?? likely?.date
  const cut = plan.week.later.find((one) => one.partKey === partKey && date?.equals(one.date))
  return { date, isPinned: pin !== undefined, meanHa: cut?.meanHa ?? 0 }
}

function plannedText(
  { date, isPinned }: Placed,
  plan: ShownWeek,
  partKey: string,
  { manner, words }: WeekLook,
): string {
  if (!date) return words.plan.notInSight
  const cut = plan.week.later.find((one) => one.partKey === partKey && one.date.equals(date))
  const planned = words.plan.planned(dayText(date, manner), words.chance(cut?.chance ?? 0))
  return isPinned ? `${planned}, ${words.plan.pinned}` : planned
}

/** Columns of the days, then one for what lies beyond them. */
const columnOf = (date: Temporal.PlainDate | undefined, days: readonly WorkDay[]): number => {
  const at = date ? days.findIndex((day) => day.date.equals(date)) : -1
  return at < 0 ? DAYS_DRAWN : at
}

function track(key: string, name: string, placed: Placed, plan: ShownWeek, look: WeekLook): Markup {
  const { days, words, before, movable } = look
  const week = plan.view.parts.find(({ partKey }) => partKey === key)
  const cells = days.map(({ date }, column) => {
    const seen = week?.days.find((day) => day.date.equals(date))
    return cell(date, column, seen, isKeptOff(plan, key, date), look)
  })
  const at = columnOf(placed.date, days)
  const was = before && columnOf(placedOn(before, key).date, days)
  const ghost = was !== undefined && was !== at ? html`<span class="tag ghost d${was}" aria-hidden="true"></span>` : ''
  const kind = `tag d${at}${placed.isPinned ? ' pinned' : ''}`
  const text = tagText(placed, at, look)
  const tag = movable
    ? html`<a class="${kind}" href="/week?part=${encodeURIComponent(key)}#change" draggable="false" data-part="${key}" data-at="${at}" data-label="${words.plan.markerOf(name)}" aria-label="${words.plan.moveNamed(name)}">${text}</a>`
    : html`<span class="${kind}" aria-hidden="true">${text}</span>`
  return html`<div class="track">${cells}${ghost}${tag}</div>`
}

function tagText({ date, meanHa }: Placed, column: number, { manner, words }: WeekLook): string {
  if (column === DAYS_DRAWN) return `${date ? datedDay(date, manner) : words.plan.later} ›`
  return `${bareArea(meanHa, manner)} ${manner.units === 'us' ? 'ac' : 'ha'}`
}

const isKeptOff = ({ rules }: ShownWeek, key: string, date: Temporal.PlainDate): boolean =>
  rules.keepOffs.some(
    ({ partKey, from, to }) =>
      partKey === key && Temporal.PlainDate.compare(from, date) <= 0 && Temporal.PlainDate.compare(date, to) <= 0,
  )

function cell(
  date: Temporal.PlainDate,
  column: number,
  day: PartDay | undefined,
  isOff: boolean,
  { manner, words }: WeekLook,
): Markup {
  const tenths = Math.round((day?.cutChance ?? 0) * 10)
  const said = words.plan.day(dayText(date, manner), words.chance(day?.fitChance ?? Number.NaN), isOff)
  return html`<span class="cell d${column} c${tenths}${isOff ? ' off' : ''}" data-date="${date.toString()}" data-say="${said}" aria-hidden="true">${isOff ? words.plan.keptOff : ''}</span>`
}

export const windowsIn = (outlook: Outlook, days: readonly WorkDay[]) =>
  outlook.windows.filter(({ startEpochH }) => startEpochH < (days.at(-1)?.toEpochH ?? 0))

/** The working hours of the days, one after the other, the nights left out. */
function joined(outlook: Outlook, days: readonly WorkDay[]): Ribbon {
  return {
    fromEpochH: days[0]!.fromEpochH,
    hours: days.flatMap(({ fromEpochH, toEpochH }) => ribbonOf(outlook, fromEpochH, toEpochH).hours),
    band: outlook.part.field.band,
  }
}
