/** The running service: keeps the day fresh, sends the morning message when it is due, shows what it has. */
import type { Farm, Person } from '#core/operation/farm.ts'
import type { ChangeReason } from '#core/planning/optimiser/plan-record.ts'
import type { PartPin } from '#core/planning/optimiser/plan-rules.ts'
import { localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { AddressBook } from './addresses.ts'
import type { AlertStore } from './alert-store.ts'
import { lookForAlerts } from './alerts.ts'
import { type CalendarStore, keepCalendar } from './calendar.ts'
import type { DayPlanner } from './day-planner.ts'
import type { DayStore } from './day-store.ts'
import { postEvening } from './evening.ts'
import type { Suppliers } from './find-weather.ts'
import type { ForecastStore } from './forecasts-port.ts'
import type { Hear } from './happenings.ts'
import { beforePlanner, decidedBy, keepPlan } from './kept-plans.ts'
import type { Links } from './links.ts'
import type { Log } from './log.ts'
import { type DayMade, dayFromSources, type MorningTools, postMorning } from './morning.ts'
import type { Outbox } from './outbox.ts'
import type { KeptParcel, OutboxStore } from './outbox-port.ts'
import type { Painter } from './painter.ts'
import type { PlanStore } from './plan-store.ts'
import type { RecordStore } from './records-port.ts'
import { sidelightsOf } from './sidelights.ts'
import { NOTHING_TOLD, toldInBook } from './told.ts'

export interface ServiceParts {
  readonly farm: Farm
  /** Everybody who is told things; the people of the farm file where absent. */
  readonly everyone?: () => Promise<readonly Person[]>
  readonly suppliers: Suppliers
  readonly store: DayStore
  readonly outboxStore: OutboxStore
  /** Carries what the outbox store holds. */
  readonly outbox: Outbox
  readonly addresses: AddressBook
  readonly links: Links
  /** Draws for the mail. */
  readonly paint?: Painter
  /** The board of alerts; without one none are told. */
  readonly alerts?: AlertStore
  /** Where the windows are kept that calendars subscribe to. */
  readonly calendar?: CalendarStore
  /** The farm's book; without one the farm is as its file says and nothing was told. */
  readonly book?: Pick<RecordStore, 'current'>
  /** Plans the week with the day; without it the day goes by the first plan. */
  readonly planner?: Pick<DayPlanner, 'prepare'>
  /** Where every published plan is kept. */
  readonly plans?: PlanStore
  /** Where the forecasts of each morning message are kept, to be held against readings. */
  readonly forecasts?: ForecastStore
  /** Now, hours since the epoch, with fraction. The demo's clock stands in its recorded autumn. */
  readonly clock: () => number
  readonly log: Log
  /** Told at once of what those who are looking want to know. */
  readonly happened?: Hear
}

export interface Service {
  readonly farm: Farm
  /** The newest day; made on first asking. */
  current(): Promise<DayMade>
  /** What can be shown at once: the newest day, or the one before it of today while a newer one is made. */
  shown?(): Promise<Shown>
  /** Once a minute: refresh what is old, send what is due. Never overlaps itself. */
  tick(): Promise<void>
  /** Something was told, so the day is another one: the next asking makes it anew. @param why kept with the plan that comes of it. */
  changed(why?: ChangeReason): void
  readonly clock: () => number
}

export interface Shown {
  readonly made: DayMade
  /** Something was told since; the day that comes of it is being made. */
  readonly outdated: boolean
  /** Another number after every change: what is drawn from the day and the book is drawn anew with it. */
  readonly version: number
}

/** What a service shows at once; one that can't tell lets everybody wait for the newest. */
export const shownBy = async (service: Service): Promise<Shown> =>
  (await service.shown?.()) ?? { made: await service.current(), outdated: false, version: 0 }

/** A day of today that is this old is shown no more, not even while a newer one is made: it may be that none can be [h]. */
const SHOWN_H = 1
/** A day older than this is made anew [h]. */
const FRESH_H = 0.5

export function startService(parts: ServiceParts): Service {
  const {
    farm,
    everyone,
    suppliers,
    store,
    outboxStore,
    outbox,
    addresses,
    links,
    alerts,
    calendar,
    book,
    forecasts,
    planner,
    plans,
    paint,
    clock,
    log,
    happened = () => undefined,
  } = parts
  const tools: MorningTools = { days: store, outbox: outboxStore, addresses, links, paint, forecasts }
  let made: { readonly at: number; readonly day: DayMade } | undefined
  /** The one made last, whatever was told since. */
  let lastMade: typeof made
  let making: Promise<DayMade> | undefined
  let lastGood: Weather | undefined
  let changes = 0
  let why: ChangeReason | undefined
  let pins: readonly PartPin[] = []
  let stopPlanning = new AbortController()
  let ticking = false

  async function make(): Promise<DayMade> {
    const at = clock()
    const changesBefore = changes
    const started = performance.now()
    const { signal } = stopPlanning
    const known = book ? await toldInBook(farm, book, at, forecasts) : { farm, told: NOTHING_TOLD }
    const last = await plans?.last(farm.id)
    const held = why?.kind === 'planner' && plans ? await beforePlanner(farm.id, plans) : last
    const decided = await decidedBy(known.farm, at, held, book)
    const planning = planner && { planner, rules: decided.rules, signal }
    let day: DayMade
    try {
      day = await dayFromSources(decided.farm, suppliers, at, store, lastGood, known.told, planning)
    } catch (failure) {
      // Something was told while it was planned: who waits for it gets the day made of that.
      if (signal.aborted && failure === signal.reason) return await current()
      throw failure
    }
    lastGood = day.good
    for (const failure of day.failures) log(failure, { event: 'source-failed', level: 'warn' })
    log(`Day of ${day.message.date.toString()} made`, { event: 'plan-made', ...factsOf(day), ms: msSince(started) })
    // What was told meanwhile may not be in it.
    if (changes === changesBefore) {
      made = { at, day }
      lastMade = made
      pins = decided.rules.pins
      happened({ kind: 'day-made', made: day })
      const [week, because] = [day.day?.planned?.week, why]
      why = undefined
      const reason = week && plans && (await keepPlan(farm.id, week, at, { plans, last, why: because }))
      if (reason) log(`Plan kept: ${reason.kind}`, { event: 'plan-kept', reason: reason.kind })
    }
    return day
  }

  function current(): Promise<DayMade> {
    if (made && isFresh(made)) return Promise.resolve(made.day)
    if (making) return making
    const mine = make().finally(() => {
      if (making === mine) making = undefined
    })
    making = mine
    return mine
  }

  /** Young, and of today: a clock set back or a new day at the farm makes it stale. */
  const isFresh = ({ at, day }: { readonly at: number; readonly day: DayMade }): boolean =>
    Math.abs(clock() - at) < FRESH_H && isOfToday({ day })

  const isOfToday = ({ day }: { readonly day: DayMade }): boolean =>
    day.message.date.equals(localDateOf(clock(), farm.timeZone))

  async function shown(): Promise<Shown> {
    const isNewest = made !== undefined && isFresh(made)
    const isShowable = lastMade !== undefined && Math.abs(clock() - lastMade.at) < SHOWN_H && isOfToday(lastMade)
    if (isNewest || !isShowable) return { made: await current(), outdated: false, version: changes }
    // A failure is for the next tick to tell.
    current().catch(() => undefined)
    return { made: lastMade!.day, outdated: made === undefined, version: changes }
  }

  async function tick(): Promise<void> {
    if (ticking) return
    ticking = true
    try {
      const day = await current()
      const peopled = everyone ? { ...farm, people: await everyone() } : farm
      const posted = await postMorning(peopled, day, tools, clock())
      if (posted > 0) {
        log(`Morning message of ${day.message.date.toString()} posted to ${posted}`, {
          event: 'morning-posted',
          posted,
        })
      }
      const evening = await postEvening(peopled, day, { outbox: outboxStore, addresses }, clock())
      if (evening > 0) log(`Outlook on tomorrow posted to ${evening}`, { event: 'evening-posted', posted: evening })
      if (alerts) await look(peopled, alerts, day)
      if (calendar && day.day) await keepCalendar(day.day, calendar, clock(), pins)
    } finally {
      // What is in the outbox goes out even where today's day could not be made.
      await carry().finally(() => {
        ticking = false
      })
    }
  }

  async function look(peopled: Farm, store: AlertStore, day: DayMade): Promise<void> {
    const now = clock()
    const tools = { alerts: store, addresses, links }
    const { alerts: told } = await lookForAlerts(peopled, day, tools, now, sidelightsOf(day, now))
    for (const { phase, id } of told) log(`Alert ${id}: ${phase}`, { event: 'alert', alert: id, phase })
  }

  async function carry(): Promise<void> {
    const { sent, postponed, dead, lapsed } = await outbox.carryDue()
    for (const parcel of sent) {
      log(`Sent ${parcel.key}`, { event: 'message-sent', ...factsOfParcel(parcel) })
      happened({ kind: 'message', parcel, state: 'sent' })
    }
    for (const { parcel, reason } of postponed) {
      const facts = { event: 'message-postponed', level: 'warn', reason, ...factsOfParcel(parcel) } as const
      log(`${parcel.key} failed, to be tried again: ${reason}`, facts)
      happened({ kind: 'message', parcel, state: 'waiting' })
    }
    for (const { parcel, reason } of dead) {
      const facts = { event: 'message-dead', level: 'error', reason, ...factsOfParcel(parcel) } as const
      log(`${parcel.key} failed for good: ${reason}`, facts)
      happened({ kind: 'message', parcel, state: 'dead' })
    }
    for (const parcel of lapsed) {
      const facts = { event: 'message-lapsed', level: 'warn', ...factsOfParcel(parcel) } as const
      log(`${parcel.key} lapsed unsent: its time is over`, facts)
      happened({ kind: 'message', parcel, state: 'lapsed' })
    }
  }

  function changed(reason?: ChangeReason): void {
    changes++
    why = reason ?? why
    stopPlanning.abort()
    stopPlanning = new AbortController()
    made = undefined
    making = undefined
    happened({ kind: 'told' })
  }

  return { farm, current, shown, tick, changed, clock }
}

/** What a log tells of a day: numbers and ids, no text of the message. */
function factsOf({ message, day }: DayMade) {
  return {
    date: message.date.toString(),
    headline: message.headline.kind,
    first: day?.plan.runs[0]?.part.key,
    runs: day?.plan.runs.length ?? 0,
    waiting: day?.plan.waiting.length ?? 0,
    weather: day?.ahead.provenance.source,
    plan: day?.planned?.week.status,
  }
}

const factsOfParcel = ({ key, channel, kind, recipient, attempts }: KeptParcel) => ({
  message: key,
  channel,
  kind,
  recipient,
  attempts,
})

const msSince = (started: number): number => Math.round(performance.now() - started)
