import { beforeEach, describe, expect, it } from 'vitest'
import { type KeptAlerts, NOTHING_KEPT } from '#app/alert-store.ts'
import type { Parcel } from '#app/outbox-port.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { openAt } from '#edges/storage/open.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { testDatabases } from '#tests/support/databases.ts'

const databases = testDatabases()

const parcel = (recipient: string): Parcel => ({
  farmId: 'farm',
  kind: 'alert',
  subject: 'look-1',
  date: '2026-09-28',
  channel: 'mail',
  recipient,
  target: `${recipient}@example.org`,
  body: '{}',
  urgent: true,
  createdEpochH: 100,
  closesEpochH: 110,
})

describe.each(databases)('the board of alerts in $name', (where) => {
  let address: string
  beforeEach(async () => {
    address = await where.fresh()
  })
  const open = async () => {
    const database = await openAt<AlertTables>(address)
    return { alerts: alertStore(database), outbox: outboxStore(database), close: () => database.destroy() }
  }

  it('is kept with its parcels by the one who comes first; the other keeps and posts nothing', async () => {
    const [one, two] = [await open(), await open()]
    const save = (store: typeof one, recipient: string) =>
      store.alerts.save('farm', 0, NOTHING_KEPT, [parcel(recipient)])
    // SQLite blocks the thread while it waits for a lock, so two connections of one thread can't be inside at once.
    const saved =
      where.name === 'SQLite'
        ? [await save(one, 'one'), await save(two, 'two')]
        : await Promise.all([save(one, 'one'), save(two, 'two')])
    expect(saved.filter(Boolean)).toHaveLength(1)
    expect((await one.outbox.recent('farm', 9)).map(({ recipient }) => recipient)).toEqual([saved[0] ? 'one' : 'two'])
    expect((await two.alerts.load('farm')).version).toBe(1)
    expect(await one.alerts.save('farm', 0, NOTHING_KEPT, [])).toBe(false)
    expect(await one.alerts.save('farm', 1, NOTHING_KEPT, [])).toBe(true)
    await one.close()
    await two.close()
  })

  it('comes back with what is not known as not known', async () => {
    const { alerts, close } = await open()
    const kept: KeptAlerts = {
      ...NOTHING_KEPT,
      board: {
        told: undefined,
        standings: {
          'fire-stop/': {
            phase: 'on',
            id: 'fire-stop//1',
            sinceEpochH: 100,
            said: {
              kind: 'fire-stop',
              fromEpochH: 100,
              untilEpochH: Number.NaN,
              relHumidity: 0.2,
              gustMs: Number.NaN,
              banText: undefined,
            },
          },
        },
      },
      awaited: [{ id: 'fire-stop//1', toldEpochH: 100 }],
    }
    await alerts.save('farm', 0, kept, [])
    expect((await alerts.load('farm')).kept).toEqual(kept)
    await close()
  })

  it('notes who acknowledged which, each once', async () => {
    const { alerts, close } = await open()
    expect(await alerts.isAcknowledged('farm', 'a')).toBe(false)
    expect(await alerts.acknowledge('farm', 'a', 'ann', 1)).toBe(true)
    expect(await alerts.acknowledge('farm', 'a', 'ann', 2)).toBe(false)
    expect(await alerts.acknowledge('farm', 'a', 'bob', 2)).toBe(true)
    expect(await alerts.isAcknowledged('farm', 'a')).toBe(true)
    expect(await alerts.isAcknowledged('farm', 'b')).toBe(false)
    await close()
  })
})
