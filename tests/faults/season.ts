/** A season of real weather, looked at every hour: how many messages each person gets a day, and how well alerts behave. */
import type { Farm } from '#core/farm/farm.ts'
import type { Alert } from '#core/messages/alerts/alert.ts'
import type { DayPlan } from '#core/planning/plan.ts'
import { epochHoursOf, HOURS_PER_DAY, localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import { recordedForecast, recordedObservations } from '#edges/sources/recorded/index.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { farmFileAddresses } from '#work/addresses.ts'
import { ALERT, lookForAlerts } from '#work/alerts.ts'
import { findWeather } from '#work/find-weather.ts'
import { noLinks } from '#work/links.ts'
import { makeDay } from '#work/make-day.ts'
import type { DayMade } from '#work/morning.ts'
import type { KeptParcel } from '#work/outbox-port.ts'

export interface SeasonFigures {
  readonly days: number
  readonly looks: number
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
  readonly onAlert?: (alert: Alert) => void
}

const AHEAD_H = 240
const HOURS_BACK = 24 * 120
/** A share of the area planned is cut on the day; the rest of a day goes wrong (an assumption of this trial). */
const DONE_SHARE = 0.8

export async function season({ farm, weather, from, days, stepH, onAlert }: SeasonInput): Promise<SeasonFigures> {
  const database = openDatabase<AlertTables>(':memory:')
  await migrate(database)
  const alerts = alertStore(database)
  const tools = { alerts, addresses: farmFileAddresses, links: noLinks }
  const suppliers = { forecasts: [recordedForecast(weather, AHEAD_H)], observations: [recordedObservations(weather)] }
  const startEpochH = epochHoursOf(from.toZonedDateTime(farm.timeZone).toInstant())
  const standingHa = new Map<string, number>()
  const told: Alert[] = []
  const plans = new Map<string, DayPlan>()
  let looks = 0
  let stopLooks = 0
  let stopsMissed = 0
  for (let now = startEpochH; now < startEpochH + days * HOURS_PER_DAY; now += stepH) {
    const date = localDateOf(now, farm.timeZone)
    cutOf(plans, date, standingHa)
    const made = await dayAt(farm, suppliers, now, standingHa)
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
  return { ...figuresOf(farm, from, days, parcels, told), looks, stopLooks, stopsMissed }
}

async function dayAt(
  farm: Farm,
  suppliers: Parameters<typeof findWeather>[0],
  nowEpochH: number,
  standingHa: ReadonlyMap<string, number>,
): Promise<DayMade> {
  const answer = await findWeather(suppliers, {
    place: farm.home,
    nowEpochH,
    ageLimitH: farm.morning.weatherAgeLimitH,
    hoursBack: HOURS_BACK,
    lastGood: undefined,
  })
  if (answer.kind === 'none') throw new Error(`No weather in the record: ${answer.reason}`)
  const day = makeDay({ farm, nowEpochH, weather: answer.weather, standingHa })
  return { message: day.message, day, good: answer.good, failures: [] }
}

/** On the morrow the runs planned the morning before are taken as cut. */
function cutOf(plans: Map<string, DayPlan>, date: Temporal.PlainDate, standingHa: Map<string, number>): void {
  const yesterday = date.subtract({ days: 1 }).toString()
  for (const run of plans.get(yesterday)?.runs ?? []) {
    const { key, areaHa } = run.part
    const left = (standingHa.get(key) ?? areaHa) - DONE_SHARE * run.areaHa
    standingHa.set(key, left < 0.1 * areaHa ? 0 : left)
  }
  plans.delete(yesterday)
}

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
