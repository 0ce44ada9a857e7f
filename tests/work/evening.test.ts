import { describe, expect, it } from 'vitest'
import type { Farm } from '#core/farm/farm.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay } from '#tests/work/support/demo.ts'
import { farmFileAddresses } from '#work/addresses.ts'
import { postEvening } from '#work/evening.ts'
import type { Letter } from '#work/mail-port.ts'

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
