import { describe, expect, it } from 'vitest'
import type { Letter } from '#app/mail-port.ts'
import type { Note } from '#app/note.ts'
import { postHookTest, postTest } from '#app/test-message.ts'
import { openAt } from '#edges/storage/open.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

const farm = await demoFarm()
const spanish = farm.people.find(({ language }) => language === 'es')!
const NOW = 357_178.5

async function setUp() {
  const database = await openAt<OutboxTables & SubscriptionTables>(':memory:')
  const [outbox, book] = [outboxStore(database), subscriptions(database)]
  await book.addPush(farm.id, spanish.id, { endpoint: 'https://push.example.net/a', p256dh: 'p', auth: 'a' })
  const hook = await book.addHook(farm.id, 'https://example.org/a', 'whsec_1')
  await book.addHook(farm.id, 'https://example.org/b', 'whsec_1')
  return { outbox, book, hook, tools: { outbox, addresses: book } }
}

describe('a test message', () => {
  it('goes every way that reaches a person, in his language, once an id', async () => {
    const { outbox, tools } = await setUp()
    await postTest(farm, spanish, tools, NOW, 'one')
    await postTest(farm, spanish, tools, NOW, 'one')
    const kept = await outbox.recent(farm.id, 10)
    expect(kept.map(({ channel }) => channel).toSorted()).toEqual(['mail', 'push'])
    const bodies = new Map(kept.map(({ channel, body }) => [channel, JSON.parse(body) as Letter & Note]))
    expect(bodies.get('mail')!.text).toContain(farm.name)
    expect(bodies.get('mail')!.subject).toBe('Mensaje de prueba')
    expect(bodies.get('push')!.title).toBe('Mensaje de prueba')
  })

  it('goes one way where only that is to be tried', async () => {
    const { tools } = await setUp()
    expect((await postTest(farm, spanish, tools, NOW, 'one', 'push')).map(({ channel }) => channel)).toEqual(['push'])
    expect(await postTest(farm, farm.people[0]!, tools, NOW, 'two', 'push')).toEqual([])
  })

  it('goes to every hook, or to one', async () => {
    const { hook, tools } = await setUp()
    expect(await postHookTest(farm, tools, NOW, 'one')).toHaveLength(2)
    const [parcel, ...more] = await postHookTest(farm, tools, NOW, 'two', hook)
    expect([parcel!.recipient, parcel!.target, more]).toEqual([hook, 'https://example.org/a', []])
    expect(JSON.parse(parcel!.body)).toMatchObject({ type: 'test', farm: farm.id, date: '2010-09-30' })
  })
})
