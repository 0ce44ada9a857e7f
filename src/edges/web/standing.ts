/** How a field stands today in one word and colour, from the plan and the outlook of its main stand. */

import type { Day } from '#app/make-day.ts'
import { type GrainState, stateOf } from '#core/messages/ribbon.ts'
import type { Holdback } from '#core/outlook/holdback.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import type { Run, Waiting } from '#core/planning/plan.ts'
import { hoursOfLocalDay } from '#core/units/time.ts'

export type FieldStanding =
  /** Set to cut today, `place` in the order of the day. */
  | { readonly kind: 'run'; readonly place: number; readonly run: Run; readonly grain: GrainState }
  | { readonly kind: 'waiting'; readonly waiting: Waiting; readonly grain: GrainState; readonly held: boolean }
  | { readonly kind: 'done' }

const GRAIN_REASONS: ReadonlySet<Waiting['reason']> = new Set([
  'wet-grain',
  'unripe',
  'patch-green',
  'later-turn',
  'worth-waiting',
])

export function standingOf(day: Day, fieldId: string): FieldStanding {
  const place = day.plan.runs.findIndex(({ part }) => part.key === fieldId)
  const run = day.plan.runs[place]
  if (run) return { kind: 'run', place: place + 1, run, grain: stateOf(run.startMoistureWb, run.part.field.band) }
  const waiting = day.plan.waiting.find(({ part }) => part.key === fieldId)
  if (!waiting) return { kind: 'done' }
  return {
    kind: 'waiting',
    waiting,
    grain: stateOf(opensToday(day, fieldId) ?? waiting.moistureWb, waiting.part.field.band),
    held: !GRAIN_REASONS.has(waiting.reason),
  }
}

/** Moisture at which today's window of the field opens; nothing where none does [% wet basis]. */
function opensToday({ date, nowEpochH, farm, outlooks }: Day, fieldId: string): number | undefined {
  const { endEpochH: midnight } = hoursOfLocalDay(date, farm.timeZone)
  const outlook = outlooks.find(({ part }) => part.key === fieldId)
  return outlook?.windows.find(({ startEpochH, endEpochH }) => endEpochH > nowEpochH && startEpochH < midnight)
    ?.startMoistureWb
}

export interface MoistureNow {
  readonly medianWb: number
  readonly lowWb: number
  readonly highWb: number
}

export const moistureNow = (outlook: Outlook): MoistureNow => ({
  medianWb: outlook.medianWb[0] ?? Number.NaN,
  lowWb: outlook.lowWb[0] ?? Number.NaN,
  highWb: outlook.highWb[0] ?? Number.NaN,
})

export const reasonWord = (
  reason: Waiting['reason'],
  words: { readonly held: { readonly [H in Holdback]: string }; readonly reasons: OtherReasons },
): string => (reason in words.held ? words.held[reason as Holdback] : words.reasons[reason as keyof OtherReasons])

export type OtherReasons = { readonly [R in Exclude<Waiting['reason'], Holdback>]: string }
