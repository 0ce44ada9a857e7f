import { describe, expect, it } from 'vitest'
import { type AddressBook, farmFileAddresses } from '#app/addresses.ts'
import { noLinks } from '#app/links.ts'
import type { Letter } from '#app/mail-port.ts'
import { type DayMade, type MorningTools, postMorning } from '#app/morning.ts'
import type { OutboxStore } from '#app/outbox-port.ts'
import { composeNoForecast } from '#core/messages/compose.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf, localDateOf } from '#core/units/time.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay, demoFarm } from '#tests/app/support/demo.ts'

const MINUTE = 1 / 60

async function setUp(addresses: AddressBook = farmFileAddresses) {
  const database = openDatabase<OutboxTables & DayTables>(':memory:')
  await migrate(database)
  const outbox = outboxStore(database)
  const tools: MorningTools = { days: dayStore(database), outbox, addresses, links: noLinks }
  return { outbox, tools }
}

/** A day as the service would have it at that moment, without the weather behind it. */
const emptyDay = (farm: Farm, at: number): DayMade => ({
  message: composeNoForecast(farm, localDateOf(at, farm.timeZone), at, 'none asked', 1),
  day: undefined,
  good: undefined,
  failures: [],
})

const morningsOf = async (outbox: OutboxStore, farm: Farm) => {
  const recipients = new Set((await outbox.recent(farm.id, 100)).map(({ recipient }) => recipient)).size
  const dates = (await outbox.recent(farm.id, 100)).map(({ date }) => date)
  return { recipients, dates: [...new Set(dates)].sort(), parcels: dates.length }
}

/** Nights of both clock changes of 2026 (IANA time zone database), north, south, at midnight and by half an hour. */
const NIGHTS = [
  ['America/Chicago', '2026-03-08'],
  ['America/Chicago', '2026-11-01'],
  ['Europe/Berlin', '2026-03-29'],
  ['Europe/Berlin', '2026-10-25'],
  ['Pacific/Auckland', '2026-09-27'],
  ['Pacific/Auckland', '2026-04-05'],
  ['Australia/Adelaide', '2026-10-04'],
  ['Australia/Adelaide', '2026-04-05'],
  ['America/Santiago', '2026-09-06'],
  ['America/Santiago', '2026-04-05'],
  ['Australia/Lord_Howe', '2026-10-04'],
  ['Australia/Lord_Howe', '2026-04-05'],
] as const

describe('the morning message', () => {
  it.each(NIGHTS.flatMap(([zone, date]) => [0, 90, 150, 330].map((minute) => [zone, date, minute] as const)))(
    'comes once a local date in %s around %s, asked for at minute %i',
    async (timeZone, date, minute) => {
      const farm = await demoFarm({ timeZone, morning: { minute, weatherAgeLimitH: 12 } })
      const { outbox, tools } = await setUp()
      const day = Temporal.PlainDate.from(date)
      const from = epochHoursOf(day.subtract({ days: 1 }).toZonedDateTime(timeZone).toInstant())
      const to = epochHoursOf(day.add({ days: 2 }).toZonedDateTime(timeZone).toInstant())
      // Every five minutes: each hour, also one that comes twice or not at all, is met.
      for (let n = 0; from + n * 5 * MINUTE < to; n++) {
        const at = from + n * 5 * MINUTE
        await postMorning(farm, emptyDay(farm, at), tools, at)
      }
      const { dates, parcels, recipients } = await morningsOf(outbox, farm)
      expect(dates).toEqual([-1, 0, 1].map((days) => day.add({ days }).toString()))
      expect(recipients).toBe(2)
      expect(parcels).toBe(3 * 2)
    },
  )

  it('comes once for all the ticks of two instances, whichever way the clock is set', async () => {
    const farm = await demoFarm()
    const { outbox, tools } = await setUp()
    const due = epochHoursOf(Temporal.Instant.from('2010-09-30T10:30Z'))
    for (const hours of [0, 0.02, -2, 0.5, 3, -9, -10, 0.1, 6, -0.2, 0]) {
      const at = due + hours
      await Promise.all([1, 2].map(() => postMorning(farm, emptyDay(farm, at), tools, at)))
    }
    expect((await morningsOf(outbox, farm)).dates).toEqual(['2010-09-30'])
    expect((await morningsOf(outbox, farm)).parcels).toBe(2)
  })

  it('comes once where it goes by the first run, though the run moves from look to look, on every night', async () => {
    const rule = { minute: 480, weatherAgeLimitH: 12, beforeRun: { leadMinutes: 90, earliestMinute: 240 } }
    const whole = await demoDay('2010-09-30T05:30-05:00')
    for (const [timeZone, date] of NIGHTS) {
      const farm = await demoFarm({ timeZone, morning: rule })
      const { outbox, tools } = await setUp()
      const start = epochHoursOf(Temporal.PlainDate.from(date).toZonedDateTime(timeZone).toInstant())
      for (let n = 0; n < 12 * 14; n++) {
        const at = start + n * 5 * MINUTE
        const run = { ...whole.day!.plan.runs[0]!, startEpochH: start + 7 + 3 * Math.sin(n), endEpochH: start + 14 }
        const day = { ...whole.day!, plan: { ...whole.day!.plan, runs: [run] } }
        await postMorning(farm, { ...emptyDay(farm, at), day }, tools, at)
      }
      expect(await morningsOf(outbox, farm)).toEqual({ recipients: 2, dates: [date], parcels: 2 })
    }
  })

  it('is told to owner and planner in their own languages, not to the crew', async () => {
    const made = await demoDay('2010-09-30T05:45-05:00')
    const { outbox, tools } = await setUp()
    const now = epochHoursOf(Temporal.Instant.from('2010-09-30T05:45-05:00'))
    const people = made.farm.people.map((person) => ({ ...person, email: `${person.id}@example.org` }))
    expect(await postMorning({ ...made.farm, people }, made, tools, now)).toBe(
      people.filter(({ role }) => role !== 'crew').length,
    )
    const letters = (await outbox.recent(made.farm.id, 9)).map(({ body }) => JSON.parse(body) as Letter)
    for (const { subject, text } of letters) expect(text.startsWith(subject)).toBe(true)
  })

  it('comes late and says so, and not at all once the last run has ended', async () => {
    const made = await demoDay('2010-09-30T12:10-05:00')
    const lastRun = Math.max(...made.day!.plan.runs.map(({ endEpochH }) => endEpochH))
    const noon = epochHoursOf(Temporal.Instant.from('2010-09-30T17:00Z'))
    expect(lastRun).toBeGreaterThan(noon)
    const first = await setUp()
    expect(await postMorning(made.farm, made, first.tools, lastRun)).toBe(0)
    expect(await postMorning(made.farm, made, first.tools, noon + 1 / 6)).toBe(2)
    const letter = JSON.parse((await first.outbox.recent(made.farm.id, 1))[0]!.body) as Letter
    expect(letter.text.split('\n')[1]).toBe('This comes late: due at 5:30, made at 12:10 from the weather known then.')
    expect((await first.outbox.recent(made.farm.id, 1))[0]!.closesEpochH).toBe(lastRun)
  })

  it('goes to signed-up programs as data', async () => {
    const made = await demoDay('2010-09-30T05:30-05:00')
    const { outbox, tools } = await setUp({
      ...farmFileAddresses,
      hooksOf: async () => [{ id: 'screen', url: 'https://example.org/hook' }],
    })
    await postMorning(made.farm, made, tools, epochHoursOf(Temporal.Instant.from('2010-09-30T05:30-05:00')))
    const hook = (await outbox.recent(made.farm.id, 9)).find(({ channel }) => channel === 'webhook')!
    expect(hook.target).toBe('https://example.org/hook')
    expect(JSON.parse(hook.body)).toMatchObject({ type: 'morning', date: '2010-09-30', farm: made.farm.id })
    // Standard Webhooks asks for less than 20 kB.
    expect(Buffer.byteLength(hook.body)).toBeLessThan(20_000)
  })
})
