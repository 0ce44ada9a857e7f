import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { type Parcel, parcelKey } from '#app/outbox-port.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { testDatabases } from '#tests/support/databases.ts'

const parcel = (change: Partial<Parcel> = {}): Parcel => ({
  farmId: 'farm',
  kind: 'morning',
  subject: '',
  date: '2026-09-28',
  channel: 'mail',
  recipient: 'ann',
  target: 'ann@example.org',
  body: '{}',
  urgent: false,
  createdEpochH: 100,
  closesEpochH: 110,
  ...change,
})
const claimAt = (nowEpochH: number, owner = 'one') =>
  ({ channel: 'mail', urgentOnly: false, owner, nowEpochH, leaseH: 0.05 }) as const

const databases = testDatabases()

describe.each(databases)('the outbox in $name', (where) => {
  let address: string
  let close: (() => Promise<void>)[]
  /** Another process on the same database. */
  const open = async () => {
    const database = await openAt<OutboxTables>(address)
    close.push(() => database.destroy())
    return outboxStore(database)
  }
  beforeEach(async () => {
    address = await where.fresh()
    close = []
  })
  afterEach(async () => {
    for (const end of close) await end()
  })

  it('keeps one parcel a key, whoever posts', async () => {
    const [one, two] = [await open(), await open()]
    const posted = await Promise.all([one.post([parcel(), parcel({ recipient: 'bob' })]), two.post([parcel()])])
    expect(posted[0]! + posted[1]!).toBe(2)
    expect(await one.post([parcel({ body: '{"other":1}' })])).toBe(0)
    expect((await two.claim(claimAt(100)))?.body).toBe('{}')
    expect(await two.posted('farm', 'morning', '', '2026-09-28')).toBe(true)
    expect(await two.posted('farm', 'morning', '', '2026-09-29')).toBe(false)
  })

  it('gives a parcel to one of many claimers', async () => {
    const [one, two] = [await open(), await open()]
    await one.post(Array.from({ length: 20 }, (_, i) => parcel({ recipient: `p${i}` })))
    const keys: string[] = []
    const drain = async (store: typeof one, owner: string) => {
      for (let kept = await store.claim(claimAt(100, owner)); kept; kept = await store.claim(claimAt(100, owner)))
        keys.push(kept.key)
    }
    await Promise.all([drain(one, 'one'), drain(two, 'two')])
    expect(keys.length).toBe(20)
    expect(new Set(keys).size).toBe(20)
  })

  it('takes over the claim of a process that did not come back, and not before', async () => {
    const store = await open()
    await store.post([parcel()])
    expect((await store.claim(claimAt(100)))?.attempts).toBe(1)
    expect(await store.claim(claimAt(100.04, 'two'))).toBeUndefined()
    expect((await store.claim(claimAt(100.06, 'two')))?.attempts).toBe(2)
    // The first one comes back after all: that it failed counts no more, that it was sent does.
    const late = { state: 'dead', nextEpochH: 0, atEpochH: 100.07, reason: 'x' } as const
    await store.settleFailed(parcelKey(parcel()), 'one', late)
    expect((await store.recent('farm', 5))[0]?.state).toBe('sending')
    await store.settleSent(parcelKey(parcel()), '250 ok', 100.07)
    expect(await store.claim(claimAt(109, 'two'))).toBeUndefined()
  })

  it('is not held up by a clock that was set back', async () => {
    const store = await open()
    await store.post([parcel()])
    await store.claim(claimAt(105))
    await store.settleFailed(parcelKey(parcel()), 'one', {
      state: 'waiting',
      nextEpochH: 105.2,
      atEpochH: 105,
      reason: 'busy',
    })
    expect(await store.claim(claimAt(102))).toBeDefined()
  })

  it('hands out urgent parcels first, and only those when asked so', async () => {
    const store = await open()
    await store.post([parcel()])
    expect(await store.claim({ ...claimAt(100.2), urgentOnly: true })).toBeUndefined()
    await store.post([parcel({ recipient: 'bob', urgent: true, createdEpochH: 100.5 })])
    expect((await store.claim({ ...claimAt(101), urgentOnly: true }))?.recipient).toBe('bob')
    expect(await store.claim({ ...claimAt(101), urgentOnly: true })).toBeUndefined()
    expect((await store.claim(claimAt(101)))?.recipient).toBe('ann')
  })

  it('lets closed parcels lapse, lists them, and sends them again when told so', async () => {
    const store = await open()
    await store.post([parcel(), parcel({ recipient: 'bob', closesEpochH: 120 })])
    expect(await store.lapse(109.9)).toEqual([])
    expect((await store.lapse(110)).map(({ recipient }) => recipient)).toEqual(['ann'])
    expect((await store.undelivered('farm', 5)).map(({ state }) => state)).toEqual(['lapsed'])
    expect(await store.resend(parcelKey(parcel()), 111, 112)).toBe(true)
    expect(await store.resend(parcelKey(parcel()), 111, 112)).toBe(false)
    expect((await store.claim(claimAt(111)))?.recipient).toBe('ann')
  })
})

describe('the key of a parcel', () => {
  it('differs where any part differs, also for names made to look alike', () => {
    const names = [
      parcel(),
      parcel({ subject: 'a/b', kind: 'c' }),
      parcel({ subject: 'b', kind: 'c/a' }),
      parcel({ subject: 'a_2f_b', kind: 'c' }),
      parcel({ recipient: 'ann.' }),
      parcel({ recipient: 'ann_2e_' }),
      parcel({ channel: 'push' }),
      parcel({ date: '2026-09-29' }),
    ]
    expect(new Set(names.map(parcelKey)).size).toBe(names.length)
    // A dot-atom of RFC 5322, 3.2.3 once its slashes are dots.
    for (const name of names) expect(parcelKey(name)).toMatch(/^[A-Za-z0-9~_-]+(\/[A-Za-z0-9~_-]+)*$/)
  })
})
