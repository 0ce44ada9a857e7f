/** Looks at the demo's morning for alerts, with the day changed as a test wants it. */
import { farmFileAddresses } from '#app/addresses.ts'
import { lookForAlerts, type Sidelights } from '#app/alerts.ts'
import { type Links, noLinks } from '#app/links.ts'
import type { Letter } from '#app/mail-port.ts'
import type { Day } from '#app/make-day.ts'
import type { DayMade } from '#app/morning.ts'
import type { Farm } from '#core/operation/farm.ts'
import type { Outlook } from '#core/outlook/outlook.ts'
import { LEVEL_STOP } from '#core/science/fire/care.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay } from '#tests/app/support/demo.ts'

export const MORNING = '2010-09-30T05:30-05:00'
export const at = (text: string) => epochHoursOf(Temporal.Instant.from(`2010-09-30T${text}-05:00`))
export const links: Links = {
  reachable: true,
  pathTo: (deed) => `/do/${deed.deed}/${deed.personId}`,
  to: (deed) => `https://farm.example/do/${deed.deed}/${deed.personId}`,
  read: () => undefined,
}

export async function setUp(some: Links = noLinks) {
  const database = openDatabase<AlertTables>(':memory:')
  await migrate(database)
  const alerts = alertStore(database)
  const outbox = outboxStore(database)
  const made = await demoDay(MORNING)
  // The whole crew's Sunday calm: no fire in the air unless a test sets it.
  const calm = withDay(made, (day) => ({
    ...day,
    fire: { stop: new Uint8Array(day.fire.stop.length), level: new Uint8Array(day.fire.level.length) },
  }))
  const look = async (now: number, day: DayMade = calm, sidelights?: Sidelights, farm: Farm = made.farm) => {
    const tools = { alerts, addresses: farmFileAddresses, links: some }
    const { alerts: told } = await lookForAlerts(farm, day, tools, now, sidelights)
    return told.map(({ phase, said }) => `${said.kind} ${phase}`).filter((text) => !text.startsWith('over-dry'))
  }
  const letters = async () =>
    (await outbox.recent(made.farm.id, 100)).toReversed().map(({ recipient, body, urgent, subject }) => ({
      recipient,
      urgent,
      subject,
      letter: JSON.parse(body) as Letter,
    }))
  await look(at('05:31'))
  return { made: calm, farm: made.farm, look, letters, alerts, outbox }
}

export const withDay = (made: DayMade, change: (day: Day) => Day): DayMade => ({ ...made, day: change(made.day!) })

/** Fire says stop in a share of the courses during some hours. */
export const burning = (made: DayMade, fromEpochH: number, toEpochH: number, share = 1) =>
  withDay(made, (day) => {
    const { ahead } = day
    const stop = new Uint8Array(day.fire.stop.length)
    const level = new Uint8Array(day.fire.level.length)
    for (let h = fromEpochH - ahead.startEpochH; h < toEpochH - ahead.startEpochH; h++) {
      level[h] = share >= 1 / 3 ? LEVEL_STOP : 0
      for (let m = 0; m < share * ahead.members; m++) stop[m * ahead.hours + h] = 1
    }
    return { ...day, fire: { stop, level } }
  })

export const raining = (made: DayMade, fromEpochH: number, toEpochH: number, share = 1) =>
  withDay(made, (day) => {
    const rainMm = day.ahead.rainMm.slice().fill(0)
    for (let h = fromEpochH - day.ahead.startEpochH; h < toEpochH - day.ahead.startEpochH; h++) {
      for (let m = 0; m < share * day.ahead.members; m++) rainMm[m * day.ahead.hours + h] = 2
    }
    return { ...day, ahead: { ...day.ahead, rainMm } }
  })

/** Another outlook for the part that is run first, from an hour on. */
export const firstPart = (made: DayMade, fromEpochH: number, change: (hour: number, outlook: Outlook) => void) =>
  withDay(made, (day) => ({
    ...day,
    ahead: { ...day.ahead, rainMm: day.ahead.rainMm.slice().fill(0) },
    outlooks: day.outlooks.map((outlook) => {
      if (outlook.part.key !== day.plan.runs[0]!.part.key) return outlook
      const copy = { ...outlook, medianWb: outlook.medianWb.slice(), holdbackBits: outlook.holdbackBits.slice() }
      for (let h = Math.max(0, fromEpochH - outlook.startEpochH); h < outlook.hours; h++) change(h, copy)
      return copy
    }),
  }))

export const holdBack = (hour: number, { holdbackBits, courses, hours }: Outlook, bit: number, share: number) => {
  for (let c = 0; c < share * courses; c++) holdbackBits[c * hours + hour]! |= bit
}
