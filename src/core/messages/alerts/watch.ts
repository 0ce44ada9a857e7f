/** One look at the day: how bad each thing is that an alert may be about. */

import { crewsOut } from '#core/planning/crews-out.ts'
import type { AlertKind, AlertReading, SaidAlert } from './alert.ts'
import { dewEarly, meters, overDry, softGround, tooWet } from './watch-fields.ts'
import type { Look, WatchInput } from './watch-input.ts'
import { fireCare, fireStop, hourOf, officialWarnings, rain, sources } from './watch-weather.ts'
import { dust, planChanged, planSubjects } from './watch-work.ts'

/** Alerts about work under way: once the day's work is over they are of no interest. */
const WORK_KINDS = ['rain', 'fire-care', 'dust', 'too-wet', 'dew', 'soft-ground', 'over-dry'] as const

export function watch(input: WatchInput): AlertReading[] {
  const always = [fireStop(input), ...officialWarnings(input), ...meters(input), sources(input)]
  const look = lookAt(input)
  if (look === 'over') return [...always, ...WORK_KINDS.filter(endsWithWork).map(lapsed), ...lapsedPlans(input)]
  if (look === undefined) return always
  return [
    ...always,
    rain(look),
    fireCare(look),
    ...dust(look),
    ...tooWet(look),
    ...dewEarly(look),
    ...softGround(look),
    ...planChanged(look),
    ...overDry(look),
  ]
}

/** A field that dries out goes on drying over night. */
const endsWithWork = (kind: AlertKind): boolean => kind !== 'over-dry'

/** @returns undefined when nothing can be seen (no weather, nothing told yet), `over` when nobody works any more. */
function lookAt(input: WatchInput): Look | 'over' | undefined {
  const { day, told, farm, date, nowEpochH } = input
  const crew = crewsOut(farm, date)
  if (!crew || nowEpochH >= crew.endEpochH) return 'over'
  if (!told || told.date !== date.toString()) return 'over'
  if (!day) return undefined
  const runsLeft = told.runs.filter(({ endEpochH }) => endEpochH > nowEpochH)
  return { ...input, day, told, hour: hourOf(day.ahead, nowEpochH), runsLeft }
}

/** Reading of something that is no longer of interest; nothing is ever said from it. */
const lapsed = (kind: AlertKind): AlertReading => ({
  kind,
  subject: '',
  evidence: Number.NEGATIVE_INFINITY,
  mayStart: false,
  said: { kind: 'sources-down', ageH: Number.NaN, limitH: Number.NaN } satisfies SaidAlert,
})

const lapsedPlans = ({ farm }: WatchInput): AlertReading[] =>
  planSubjects(farm).map((subject) => ({ ...lapsed('plan-changed'), subject }))
