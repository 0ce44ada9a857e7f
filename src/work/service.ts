/** The running service: keeps the day fresh, sends the morning message when it is due, shows what it has. */
import type { Farm } from '#core/farm/farm.ts'
import { localDateOf } from '#core/units/time.ts'
import type { Weather } from '#core/units/weather.ts'
import type { AddressBook } from './addresses.ts'
import type { DayStore } from './day-store.ts'
import type { Suppliers } from './find-weather.ts'
import type { Links } from './links.ts'
import { type DayMade, dayFromSources, type MorningTools, postMorning } from './morning.ts'
import type { Outbox } from './outbox.ts'
import type { OutboxStore } from './outbox-port.ts'

export interface ServiceParts {
  readonly farm: Farm
  readonly suppliers: Suppliers
  readonly store: DayStore
  readonly outboxStore: OutboxStore
  /** Carries what the outbox store holds. */
  readonly outbox: Outbox
  readonly addresses: AddressBook
  readonly links: Links
  /** Now, hours since the epoch, with fraction. The demo's clock stands in its recorded autumn. */
  readonly clock: () => number
  readonly log: (line: string) => void
}

export interface Service {
  readonly farm: Farm
  /** The newest day; made on first asking. */
  current(): Promise<DayMade>
  /** Once a minute: refresh what is old, send what is due. Never overlaps itself. */
  tick(): Promise<void>
  readonly clock: () => number
}

/** A day older than this is made anew [h]. */
const FRESH_H = 0.5

export function startService(parts: ServiceParts): Service {
  const { farm, suppliers, store, outboxStore, outbox, addresses, links, clock, log } = parts
  const tools: MorningTools = { days: store, outbox: outboxStore, addresses, links }
  let made: { readonly at: number; readonly day: DayMade } | undefined
  let making: Promise<DayMade> | undefined
  let lastGood: Weather | undefined
  let ticking = false

  async function make(): Promise<DayMade> {
    const at = clock()
    const day = await dayFromSources(farm, suppliers, at, store, lastGood)
    lastGood = day.good
    for (const failure of day.failures) log(failure)
    made = { at, day }
    return day
  }

  function current(): Promise<DayMade> {
    if (made && isFresh(made)) return Promise.resolve(made.day)
    making ??= make().finally(() => {
      making = undefined
    })
    return making
  }

  /** Young, and of today: a clock set back or a new day at the farm makes it stale. */
  const isFresh = ({ at, day }: { readonly at: number; readonly day: DayMade }): boolean =>
    Math.abs(clock() - at) < FRESH_H && day.message.date.equals(localDateOf(clock(), farm.timeZone))

  async function tick(): Promise<void> {
    if (ticking) return
    ticking = true
    try {
      const day = await current()
      const posted = await postMorning(farm, day, tools, clock())
      if (posted > 0) log(`Morning message of ${day.message.date.toString()} posted to ${posted}`)
    } finally {
      // What is in the outbox goes out even where today's day could not be made.
      await carry().finally(() => {
        ticking = false
      })
    }
  }

  async function carry(): Promise<void> {
    const { sent, postponed, dead, lapsed } = await outbox.carryDue()
    for (const { key } of sent) log(`Sent ${key}`)
    for (const { parcel, reason } of postponed) log(`${parcel.key} failed, to be tried again: ${reason}`)
    for (const { parcel, reason } of dead) log(`${parcel.key} failed for good: ${reason}`)
    for (const { key } of lapsed) log(`${key} lapsed unsent: its time is over`)
  }

  return { farm, current, tick, clock }
}
