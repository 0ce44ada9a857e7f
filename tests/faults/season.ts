/** A season of real weather, looked at every hour: how many messages each person gets a day, and how well alerts behave. */

import { farmFileAddresses } from '#app/addresses.ts'
import { ALERT, lookForAlerts } from '#app/alerts.ts'
import type { DayPlanner } from '#app/day-planner.ts'
import { findWeather } from '#app/find-weather.ts'
import { decidedBy } from '#app/kept-plans.ts'
import { noLinks } from '#app/links.ts'
import { tellDay } from '#app/make-day.ts'
import { type DayMade, type Planning, prepareSimply } from '#app/morning.ts'
import { morningHours } from '#app/morning-hours.ts'
import type { KeptParcel } from '#app/outbox-port.ts'
import type { Alert } from '#core/messages/alerts/alert.ts'
import type { Farm } from '#core/operation/farm.ts'
import { isNews, type PlanRecord, recordPlan } from '#core/planning/optimiser/plan-record.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { seededRandom, seedFromText } from '#core/units/random.ts'
import { epochHoursOf, HOURS_PER_DAY, localDateOf, zonedAt } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'

export interface SeasonFigures {
  readonly days: number
  readonly looks: number
  /** Days on which the morning had something to run. */
  readonly runDays: number
  /** Alert messages a person and day. */
  readonly median: number
  readonly p95: number
  readonly most: number
  readonly byPerson: Readonly<Record<string, { readonly mean: number; readonly p95: number; readonly most: number }>>
  readonly starts: Readonly<Record<string, number>>
  readonly ends: Readonly<Record<string, number>>
  /** The same alert on, off and on again within an hour. Must be 0. */
  readonly flaps: number
  /** Looks at which fire said stop and no stop was told then or before. Must be 0. */
  readonly stopsMissed: number
  readonly stopLooks: number
}

export interface SeasonInput {
  readonly farm: Farm
  readonly weather: Weather
  readonly from: Temporal.PlainDate
  readonly days: number
  readonly stepH: number
  /** Share of the area planned that is cut on the day: a small one makes the harvest last. */
  readonly doneShare: number
  /** In the morning the forecast is early or late by up to so much; by mid-afternoon it has found the truth [h]. */
  readonly mostShiftH: number
  readonly onAlert?: (alert: Alert) => void
  /** Plans each look as the service does, held to the plan kept before; without one the first plan serves. */
  readonly planner?: DayPlanner
}

const AHEAD_H = 240
const HOURS_BACK = 24 * 120
export async function season(input: SeasonInput): Promise<SeasonFigures> {
  const { farm, weather, from, days, stepH, doneShare, mostShiftH, onAlert, planner } = input
  let last: PlanRecord | undefined
  const database = openDatabase<AlertTables>(':memory:')
  await migrate(database)
  const alerts = alertStore(database)
  const tools = { alerts, addresses: farmFileAddresses, links: noLinks }
  const observations = [recordedObservations(weather)]
  const startEpochH = epochHoursOf(from.toZonedDateTime(farm.timeZone).toInstant())
  const standingHa = new Map<string, number>()
  const told: Alert[] = []
  const plans = new Map<string, DayPlan>()
  let looks = 0
  let runDays = 0
  let stopLooks = 0
  let stopsMissed = 0
  for (let now = startEpochH; now < startEpochH + days * HOURS_PER_DAY; now += stepH) {
    const date = localDateOf(now, farm.timeZone)
    cutOf(plans, date, standingHa, doneShare)
    const shiftH = shiftAt(now, date, farm.timeZone, mostShiftH)
    const forecasts = [recordedForecast({ ...weather, startEpochH: weather.startEpochH + shiftH }, AHEAD_H)]
    const rules = planner && (await decidedBy(farm, now, last, undefined)).rules
    const made = await dayAt(farm, { forecasts, observations }, now, standingHa, planner && rules && { planner, rules })
    const week = made.day?.planned?.week
    if (week && isNews(week, last)) last = recordPlan(week, now, { kind: 'new-weather' }, last)
    if (made.day && made.day.plan.runs.length > 0 && now === dueOn(farm, date)) runDays++
    if (made.day && now % HOURS_PER_DAY < stepH + 12 && !plans.has(date.toString()))
      plans.set(date.toString(), made.day.plan)
    const { alerts: fresh } = await lookForAlerts(farm, made, tools, now)
    looks++
    told.push(...fresh)
    for (const alert of fresh) onAlert?.(alert)
    const { kept } = await alerts.load(farm.id)
    const says = made.day ? saysStop(made.day, now) : false
    if (says) stopLooks++
    const phase = kept.board.standings['fire-stop/']?.phase
    if (says && phase !== 'on' && phase !== 'clearing') stopsMissed++
  }
  const parcels = await outboxStore(database).recent(farm.id, 1_000_000)
  await database.destroy()
  return { ...figuresOf(farm, from, days, parcels, told), looks, runDays, stopLooks, stopsMissed }
}

async function dayAt(
  farm: Farm,
  suppliers: Parameters<typeof findWeather>[0],
  nowEpochH: number,
  standingHa: ReadonlyMap<string, number>,
  planning: Planning | undefined,
): Promise<DayMade> {
  const answer = await findWeather(suppliers, {
    place: farm.home,
    nowEpochH,
    ageLimitH: farm.morning.weatherAgeLimitH,
    hoursBack: HOURS_BACK,
    lastGood: undefined,
  })
  if (answer.kind === 'none') throw new Error(`No weather in the record: ${answer.reason}`)
  const input = { farm, nowEpochH, weather: answer.weather, standingHa }
  const { foreseen, planned } = (await planning?.planner.prepare(input, [], planning.rules)) ?? prepareSimply(input)
  const day = tellDay(foreseen, planned)
  return { message: day.message, day, good: answer.good, failures: [] }
}

/** On the morrow the runs planned the morning before are taken as cut. */
function cutOf(
  plans: Map<string, DayPlan>,
  date: Temporal.PlainDate,
  standingHa: Map<string, number>,
  doneShare: number,
): void {
  const yesterday = date.subtract({ days: 1 }).toString()
  for (const run of plans.get(yesterday)?.runs ?? []) {
    const { key, areaHa } = run.part
    const left = (standingHa.get(key) ?? areaHa) - doneShare * run.areaHa
    standingHa.set(key, left < 0.1 * areaHa ? 0 : left)
  }
  plans.delete(yesterday)
}

const RIGHT_BY_HOUR = 15
const WRONG_UNTIL_HOUR = 5

/** The forecast's error of the hour: drawn once a day, shrinking from early morning to mid-afternoon. */
function shiftAt(nowEpochH: number, date: Temporal.PlainDate, timeZone: string, mostShiftH: number): number {
  const drawn = (2 * seededRandom(seedFromText(date.toString())).uniform() - 1) * mostShiftH
  const { hour } = zonedAt(nowEpochH, timeZone)
  const left = (RIGHT_BY_HOUR - Math.max(hour, WRONG_UNTIL_HOUR)) / (RIGHT_BY_HOUR - WRONG_UNTIL_HOUR)
  return Math.round(drawn * Math.max(0, left))
}

/** The first look after the morning message is due. */
const dueOn = (farm: Farm, date: Temporal.PlainDate): number => Math.ceil(morningHours(farm, date, undefined).dueEpochH)

/** Whether a third of the courses say stop in this hour, apart from the watch under trial. */
function saysStop({ ahead, fire }: NonNullable<DayMade['day']>, nowEpochH: number): boolean {
  const hour = Math.floor(nowEpochH - ahead.startEpochH)
  let stops = 0
  for (let m = 0; m < ahead.members; m++) stops += fire.stop[m * ahead.hours + hour] ?? 0
  return stops >= ahead.members / 3
}

const FLAP_H = 1

function figuresOf(
  farm: Farm,
  from: Temporal.PlainDate,
  days: number,
  parcels: readonly KeptParcel[],
  told: readonly Alert[],
) {
  const dates = Array.from({ length: days }, (_, day) => from.add({ days: day }).toString())
  const people = farm.people.filter(({ email }) => email !== undefined)
  const countOf = (recipient: string, date: string) =>
    parcels.filter((parcel) => parcel.kind === ALERT && parcel.recipient === recipient && parcel.date === date).length
  const counts = people.map(({ id }) => dates.map((date) => countOf(id, date)))
  const tally = (phase: Alert['phase']) =>
    Object.fromEntries(
      Map.groupBy(
        told.filter((alert) => alert.phase === phase),
        ({ said }) => said.kind,
      )
        .entries()
        .map(([kind, list]) => [kind, list.length]),
    )
  const flaps = [...Map.groupBy(told, ({ id }) => id.slice(0, id.lastIndexOf('/'))).values()].reduce((sum, list) => {
    const starts = list.filter(({ phase }) => phase === 'start').map(({ atEpochH }) => atEpochH)
    return sum + starts.filter((at, i) => i > 0 && at - starts[i - 1]! < FLAP_H).length
  }, 0)
  const all = counts.flat()
  return {
    days,
    median: share(all, 0.5),
    p95: share(all, 0.95),
    most: Math.max(...all),
    byPerson: Object.fromEntries(
      people.map(({ id, role }, i) => [
        `${role} ${id}`,
        {
          mean: Number((counts[i]!.reduce((a, b) => a + b, 0) / days).toFixed(2)),
          p95: share(counts[i]!, 0.95),
          most: Math.max(...counts[i]!),
        },
      ]),
    ),
    starts: tally('start'),
    ends: tally('end'),
    flaps,
  }
}

const share = (values: readonly number[], part: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))]!
