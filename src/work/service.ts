/** The running service: keeps the day fresh, sends the morning message when it is due, shows what it has. */
import type { Farm } from '#core/farm/farm.ts'
import type { Weather } from '#core/units/weather.ts'
import type { DayStore } from './day-store.ts'
import type { Suppliers } from './find-weather.ts'
import type { Mailer } from './mail-port.ts'
import { type DayMade, dayFromSources, morningDue, sendMorning } from './morning.ts'

export interface ServiceParts {
  readonly farm: Farm
  readonly suppliers: Suppliers
  readonly store: DayStore
  readonly mailer: Mailer
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
  const { farm, suppliers, store, mailer, clock, log } = parts
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
    if (made && clock() - made.at < FRESH_H) return Promise.resolve(made.day)
    making ??= make().finally(() => {
      making = undefined
    })
    return making
  }

  async function tick(): Promise<void> {
    if (ticking) return
    ticking = true
    try {
      const day = await current()
      if (!morningDue(farm, clock())) return
      const { sent, failed } = await sendMorning(farm, day, store, mailer, clock())
      if (sent > 0) log(`Morning message of ${day.message.date.toString()} sent to ${sent}`)
      for (const { person, reason } of failed) log(`Morning message to ${person} failed: ${reason}`)
    } finally {
      ticking = false
    }
  }

  return { farm, current, tick, clock }
}
