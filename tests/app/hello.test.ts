import { describe, expect, it } from 'vitest'
import { personMeant, sayHello } from '#app/hello.ts'
import type { Answer, Carrier, Channel, KeptParcel } from '#app/outbox-port.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

const farm = await demoFarm()
const chayo = farm.people.find(({ id }) => id === 'chayo-lindero')!

async function setUp(answers: Partial<Record<Channel, Answer>> = {}) {
  const database = await openAt<SubscriptionTables & OutboxTables>(':memory:')
  const addresses = subscriptions(database)
  const push = await addresses.addPush(farm.id, chayo.id, {
    endpoint: 'https://push.example.org/a',
    p256dh: 'p',
    auth: 'a',
  })
  await addresses.addHook(farm.id, 'https://example.org/h', 'whsec_1')
  const carried: KeptParcel[] = []
  const carrier = (channel: Channel): Carrier => ({
    channel,
    carry: async (parcel) => {
      carried.push(parcel)
      return answers[channel] ?? { kind: 'taken', reference: 'ok' }
    },
    close: () => {},
  })
  const carriers = (['mail', 'push', 'webhook'] as const).map(carrier)
  const tools = { outbox: outboxStore(database), addresses, carriers, clock: () => 357_178.5 }
  return { addresses, push, carried, tools }
}

describe('a test message at once', () => {
  it('goes to everybody every way, and to the programs', async () => {
    const { carried, tools } = await setUp()
    const { sent } = await sayHello(farm, farm.people, true, undefined, tools)
    const mails = farm.people.filter(({ email }) => email !== undefined).length
    expect(sent).toHaveLength(mails + 2)
    expect(carried.filter(({ channel }) => channel === 'webhook')).toMatchObject([{ target: 'https://example.org/h' }])
  })

  it('goes one way to one person alone', async () => {
    const { carried, tools } = await setUp()
    await sayHello(farm, [chayo], false, 'push', tools)
    expect(carried).toMatchObject([{ channel: 'push', target: 'https://push.example.org/a', kind: 'test' }])
  })

  it('tells what failed, and forgets a device that is gone', async () => {
    const { addresses, push, tools } = await setUp({
      push: { kind: 'gone', reason: 'answered 410' },
      mail: { kind: 'later', reason: 'no connection', wholeChannel: true },
    })
    const { postponed, dead } = await sayHello(farm, [chayo], false, undefined, tools)
    expect(postponed.map(({ reason }) => reason)).toEqual(['no connection'])
    expect(dead.map(({ reason }) => reason)).toEqual(['answered 410'])
    expect(await addresses.pushKeys(push)).toBeUndefined()
  })

  it('tries everybody, though the mail server answers nobody', async () => {
    const { tools } = await setUp({ mail: { kind: 'later', reason: 'no connection', wholeChannel: true } })
    const { postponed } = await sayHello(farm, farm.people, true, 'mail', tools)
    expect(postponed).toHaveLength(farm.people.filter(({ email }) => email !== undefined).length)
  })

  it('finds a person by id or name', () => {
    expect(personMeant(farm.people, ' WIM tallow ')?.id).toBe('wim-tallow')
    expect(personMeant(farm.people, 'wim-tallow')?.id).toBe('wim-tallow')
    expect(personMeant(farm.people, 'wim')).toBeUndefined()
  })
})
