import { describe, expect, it } from 'vitest'
import { Outbox } from '#app/outbox.ts'
import type { Answer, Carrier, KeptParcel, Parcel } from '#app/outbox-port.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'

const taken: Answer = { kind: 'taken', reference: '250' }
const down: Answer = { kind: 'later', reason: 'no connection', wholeChannel: true }
const parcel = (recipient: string, change: Partial<Parcel> = {}): Parcel => ({
  farmId: 'farm',
  kind: 'morning',
  subject: '',
  date: '2026-09-28',
  channel: 'mail',
  recipient,
  target: `${recipient}@example.org`,
  body: '{}',
  urgent: false,
  createdEpochH: 100,
  closesEpochH: 124,
  ...change,
})

async function setUp(answer: (parcel: KeptParcel) => Answer | Promise<Answer>) {
  const database = openDatabase<OutboxTables>(':memory:')
  await migrate(database)
  const store = outboxStore(database)
  const tried: { recipient: string; at: number }[] = []
  let now = 100
  const carrier: Carrier = {
    channel: 'mail',
    carry: async (kept) => {
      tried.push({ recipient: kept.recipient, at: now })
      return await answer(kept)
    },
    close: () => {},
  }
  const forgotten: string[] = []
  const forget = async (kept: KeptParcel) => {
    forgotten.push(kept.recipient)
  }
  const outbox = new Outbox({ store, carriers: [carrier], owner: 'me', clock: () => now, random: () => 0.5, forget })
  const through = async (untilEpochH: number) => {
    const all = { sent: 0, dead: 0, lapsed: 0 }
    for (; now < untilEpochH; now += 1 / 60) {
      const { sent, dead, lapsed } = await outbox.carryDue()
      all.sent += sent.length
      all.dead += dead.length
      all.lapsed += lapsed.length
    }
    return all
  }
  return { store, tried, forgotten, through }
}

describe('carrying what is due', () => {
  it('sends each parcel once', async () => {
    const { store, tried, through } = await setUp(() => taken)
    await store.post([parcel('ann'), parcel('bob')])
    expect(await through(101)).toEqual({ sent: 2, dead: 0, lapsed: 0 })
    expect(tried.length).toBe(2)
  })

  it('tries again with back-off until it gets through', async () => {
    let failures = 4
    const { store, tried, through } = await setUp(() =>
      failures-- > 0 ? { kind: 'later', reason: '450 greylisted', wholeChannel: false } : taken,
    )
    await store.post([parcel('ann')])
    expect((await through(102)).sent).toBe(1)
    const waits = tried.slice(1).map(({ at }, i) => Math.round((at - tried[i]!.at) * 60))
    // A tick a minute: a wait that ends just after one is served by the next.
    for (const [i, least] of [1, 2, 4, 8].entries()) expect([least, least + 1]).toContain(waits[i])
  })

  it('gives up at once on a refusal, and forgets a recipient that is gone', async () => {
    const { store, tried, forgotten, through } = await setUp(({ recipient }) =>
      recipient === 'ann' ? { kind: 'refused', reason: '550 no such user' } : { kind: 'gone', reason: '410' },
    )
    await store.post([parcel('ann'), parcel('bob')])
    expect(await through(101)).toEqual({ sent: 0, dead: 2, lapsed: 0 })
    expect(tried.length).toBe(2)
    expect(forgotten).toEqual(['bob'])
    expect((await store.undelivered('farm', 9)).map(({ lastReason }) => lastReason).sort()).toEqual([
      '410',
      '550 no such user',
    ])
  })

  it('stops asking a dead channel for all, yet tries urgent ones every minute; then all follow', async () => {
    let up = false
    const { store, tried, through } = await setUp(() => (up ? taken : down))
    await store.post([
      ...Array.from({ length: 40 }, (_, i) => parcel(`p${i}`)),
      parcel('stop', { urgent: true, kind: 'alert', subject: 'fire-stop' }),
    ])
    await through(102)
    expect(tried.filter(({ recipient }) => recipient === 'stop').length).toBeGreaterThanOrEqual(118)
    // Without the circuit 40 parcels would have been tried some 7 times each.
    expect(tried.filter(({ recipient }) => recipient !== 'stop').length).toBeLessThan(40)
    up = true
    expect((await through(103)).sent).toBe(41)
  })

  it('lets lapse what never got through in time', async () => {
    const { store, through } = await setUp(() => down)
    await store.post([parcel('ann', { closesEpochH: 101 })])
    expect(await through(102)).toEqual({ sent: 0, dead: 0, lapsed: 1 })
  })

  it('takes a carrier that throws for one that failed', async () => {
    let first = true
    const { store, through } = await setUp(() => {
      if (!first) return taken
      first = false
      throw new Error('bug')
    })
    await store.post([parcel('ann')])
    expect((await through(101)).sent).toBe(1)
  })

  it('waits as long as the other side asks', async () => {
    const { store, tried, through } = await setUp(({ attempts }) =>
      attempts > 1 ? taken : { kind: 'later', reason: '429', waitH: 0.5, wholeChannel: false },
    )
    await store.post([parcel('ann')])
    await through(101)
    expect(tried[1]!.at - tried[0]!.at).toBeGreaterThanOrEqual(0.5 - 1e-9)
  })
})
