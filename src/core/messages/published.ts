/** What a published day said of the days ahead, kept so that the next message can say what changed. */
import type { Outlook } from '#core/outlook/outlook.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { medianAt } from '#core/planning/run.ts'
import { epochHoursOf, HOURS_PER_DAY, hoursOfLocalDay } from '#core/units/time.ts'
import type { SaidChange } from './morning.ts'
import { partName } from './names.ts'

type RainChance = (fromEpochH: number, toEpochH: number) => number

export interface PublishedDay {
  readonly date: Temporal.PlainDate
  /** When it was made, hours since the epoch. */
  readonly atEpochH: number
  readonly firstPart: string | undefined
  /** What each part was expected to do on a day, by ISO date and part key. */
  readonly expected: readonly Expectation[]
  /** Chance of rain in the three days from tomorrow's message on: what tomorrow's own three days are held against. */
  readonly rainAhead?: RainForetold
}

/** The chance of rain in a span, whole hours since the epoch. */
export interface RainForetold {
  readonly fromEpochH: number
  readonly toEpochH: number
  readonly chance: number
}

export interface Expectation {
  readonly date: string
  readonly partKey: string
  /** Moisture at 15:00, about the driest hour [% wet basis]; NaN = out of sight. */
  readonly afternoonWb: number
  /** First window of the day, hours since the epoch; NaN = none. */
  readonly opensEpochH: number
  readonly closesEpochH: number
}

const AFTERNOON = Temporal.PlainTime.from('15:00')
const DAYS_KEPT = 3

export function publish(
  date: Temporal.PlainDate,
  atEpochH: number,
  timeZone: string,
  plan: DayPlan,
  outlooks: readonly Outlook[],
  rainChanceIn: RainChance,
): PublishedDay {
  const tomorrow = Math.floor(atEpochH) + HOURS_PER_DAY
  const span = { fromEpochH: tomorrow, toEpochH: tomorrow + DAYS_KEPT * HOURS_PER_DAY }
  const dates = Array.from({ length: DAYS_KEPT }, (_, d) => date.add({ days: d }))
  return {
    date,
    atEpochH,
    firstPart: plan.runs[0] && partName(plan.runs[0].part),
    expected: outlooks.flatMap((outlook) => dates.map((day) => expectationOf(outlook, day, timeZone))),
    rainAhead: { ...span, chance: rainChanceIn(span.fromEpochH, span.toEpochH) },
  }
}

function expectationOf(outlook: Outlook, date: Temporal.PlainDate, timeZone: string): Expectation {
  const { startEpochH, endEpochH } = hoursOfLocalDay(date, timeZone)
  const afternoon = epochHoursOf(date.toZonedDateTime({ timeZone, plainTime: AFTERNOON }).toInstant())
  const inSight = afternoon >= outlook.startEpochH && afternoon < outlook.startEpochH + outlook.hours
  const window = outlook.windows.find((w) => w.startEpochH >= startEpochH && w.startEpochH < endEpochH)
  return {
    date: date.toString(),
    partKey: outlook.part.key,
    afternoonWb: inSight ? medianAt(outlook, afternoon) : Number.NaN,
    opensEpochH: window?.startEpochH ?? Number.NaN,
    closesEpochH: window?.endEpochH ?? Number.NaN,
  }
}

/** A change worth a line: a point of moisture, an hour of window, a fifth of chance. Limits of ours. */
const MOISTURE_STEP = 0.8
const WINDOW_STEP_H = 1
const RAIN_STEP = 0.2
const MOST_CHANGES = 3

/** A day told anew so much later is no longer held against what was foretold from its morning on [h]. */
const LATEST_COMPARED_H = 6

/**
 * @param planned the parts that the message names; one that is run twice is compared once.
 * @param rainChanceIn the chance of rain between two hours as it is seen today.
 */
export function changesSince(
  yesterday: PublishedDay | undefined,
  today: PublishedDay,
  planned: readonly { readonly key: string; readonly name: string }[],
  rainChanceIn: RainChance,
): SaidChange[] {
  if (!yesterday) return [{ kind: 'no-yesterday' }]
  const changes: SaidChange[] = []
  const date = today.date.toString()
  const foreseen = (key: string, published: PublishedDay) =>
    published.expected.find((e) => e.partKey === key && e.date === date)
  if (yesterday.firstPart && today.firstPart && yesterday.firstPart !== today.firstPart) {
    changes.push({ kind: 'first-field', was: yesterday.firstPart, now: today.firstPart })
  }
  const names = new Map(planned.map(({ key, name }) => [key, name]))
  for (const [key, name] of names) {
    const was = foreseen(key, yesterday)
    const now = foreseen(key, today)
    if (!was || !now) continue
    if (Math.abs(now.afternoonWb - was.afternoonWb) >= MOISTURE_STEP) {
      changes.push({ kind: 'moisture', partName: name, fromWb: was.afternoonWb, toWb: now.afternoonWb })
    }
    // A window already open when the day is told again has no opening to compare.
    if (was.opensEpochH < today.atEpochH) continue
    for (const [edge, field] of [
      ['opens', 'opensEpochH'],
      ['closes', 'closesEpochH'],
    ] as const) {
      if (Math.abs(now[field] - was[field]) >= WINDOW_STEP_H) {
        changes.push({ kind: 'window-moved', partName: name, edge, fromEpochH: was[field], toEpochH: now[field] })
      }
    }
  }
  changes.push(...rainChange(yesterday.rainAhead, today.atEpochH, rainChanceIn))
  return changes.length > 0 ? changes.slice(0, MOST_CHANGES) : [{ kind: 'nothing' }]
}

/** The same hours then and now, save those that have passed since. */
function rainChange(foretold: RainForetold | undefined, atEpochH: number, rainChanceIn: RainChance): SaidChange[] {
  if (!foretold || atEpochH > foretold.fromEpochH + LATEST_COMPARED_H) return []
  const chance = rainChanceIn(Math.max(foretold.fromEpochH, Math.floor(atEpochH)), foretold.toEpochH)
  if (!(Math.abs(chance - foretold.chance) >= RAIN_STEP)) return []
  return [{ kind: 'rain', wasChance: foretold.chance, chance }]
}
