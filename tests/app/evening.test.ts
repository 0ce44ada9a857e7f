import { describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { postEvening } from '#app/evening.ts'
import type { Letter } from '#app/mail-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { epochHoursOf, localDateOf } from '#core/units/time.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay } from '#tests/app/support/demo.ts'

const EVENING = '2010-09-30T19:30-05:00'
const made = await demoDay(EVENING)
const DUE = epochHoursOf(Temporal.Instant.from(EVENING))
const wanting = (more: Partial<Farm> = {}): Farm => ({
  ...made.farm,
  morning: { ...made.farm.morning, eveningMinute: 19 * 60 + 30 },
  ...more,
})

async function setUp() {
  const outbox = outboxStore(await openAt<OutboxTables>(':memory:'))
  const tools = { outbox, addresses: farmFileAddresses }
  return { outbox, post: (farm: Farm, now: number) => postEvening(farm, made, tools, now) }
}

describe('the outlook on tomorrow', () => {
  it('is off unless the farm wants it', async () => {
    const { outbox, post } = await setUp()
    expect(await post(made.farm, DUE)).toBe(0)
    expect(await outbox.recent(made.farm.id, 9)).toEqual([])
  })

  it('comes once a date, at its hour, while it helps', async () => {
    const { outbox, post } = await setUp()
    const counts: number[] = []
    for (const hours of [-0.1, 0, 0.1, -1, 0, 2.9, 3]) counts.push(await post(wanting(), DUE + hours))
    expect(counts).toEqual([0, 1, 0, 0, 0, 0, 0])
    expect((await outbox.recent(made.farm.id, 9)).map(({ kind, date }) => [kind, date])).toEqual([
      ['evening', '2010-09-30'],
    ])
    const late = await setUp()
    expect(await late.post(wanting(), DUE + 3)).toBe(0)
  })

  it('is the planner’s; on a farm without one the owner’s, in his language', async () => {
    const planned = await setUp()
    await planned.post(wanting(), DUE)
    expect((await planned.outbox.recent(made.farm.id, 9)).map(({ recipient }) => recipient)).toEqual(['wim-tallow'])
    const people = made.farm.people
      .filter(({ role }) => role !== 'planner')
      .map((person) => ({ ...person, language: 'es' as const }))
    const owned = await setUp()
    await owned.post(wanting({ people }), DUE)
    const [parcel] = await owned.outbox.recent(made.farm.id, 9)
    const letter = JSON.parse(parcel!.body) as Letter
    expect([parcel!.recipient, letter.subject.startsWith('Mañana')]).toEqual(['orla-fenn', true])
    expect(letter.text.startsWith(letter.subject)).toBe(true)
    expect(letter.html).toContain('lang="es"')
  })

  /** Nights of the clock changes of 2026 (IANA time zone database), north and south. */
  it.each(
    (
      [
        ['America/Chicago', '2026-03-08'],
        ['America/Chicago', '2026-11-01'],
        ['Pacific/Auckland', '2026-09-27'],
        ['Pacific/Auckland', '2026-04-05'],
      ] as const
    ).flatMap(([zone, date]) => [90, 150, 1170].map((minute) => [zone, date, minute] as const)),
  )('comes once a local date in %s around %s, asked for at minute %i', async (timeZone, date, eveningMinute) => {
    const { outbox } = await setUp()
    const farm = wanting({ timeZone, morning: { ...made.farm.morning, eveningMinute } })
    const day = Temporal.PlainDate.from(date)
    const from = epochHoursOf(day.subtract({ days: 1 }).toZonedDateTime(timeZone).toInstant())
    const to = epochHoursOf(day.add({ days: 2 }).toZonedDateTime(timeZone).toInstant())
    for (let now = from; now < to; now += 1 / 12) {
      const today = { ...made.day!, farm, date: localDateOf(now, timeZone), nowEpochH: now }
      await postEvening(farm, { ...made, day: today }, { outbox, addresses: farmFileAddresses }, now)
    }
    const dates = (await outbox.recent(made.farm.id, 20)).map((parcel) => parcel.date).toSorted()
    expect(dates).toEqual([-1, 0, 1].map((days) => day.add({ days }).toString()))
  })

  it('goes to programs too, as data', async () => {
    const { outbox } = await setUp()
    const hooksOf = async () => [{ id: 'h', url: 'https://example.org/h' }]
    await postEvening(wanting({ people: [] }), made, { outbox, addresses: { ...farmFileAddresses, hooksOf } }, DUE)
    const [parcel] = await outbox.recent(made.farm.id, 9)
    expect([parcel!.channel, parcel!.target]).toEqual(['webhook', 'https://example.org/h'])
    expect(JSON.parse(parcel!.body)).toMatchObject({ type: 'evening', date: '2010-10-01' })
  })

  it('is none where the day could not be made, or is of another date', async () => {
    const { outbox } = await setUp()
    const tools = { outbox, addresses: farmFileAddresses }
    expect(await postEvening(wanting(), { ...made, day: undefined }, tools, DUE)).toBe(0)
    expect(await postEvening(wanting(), made, tools, DUE + 24)).toBe(0)
  })
})
