import { describe, expect, it } from 'vitest'
import type { KeptParcel } from '#app/outbox-port.ts'
import { openAt } from '#edges/storage/open.ts'
import { keptSecret, type SecretTables } from '#edges/storage/secrets.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoFarm } from '#tests/app/support/demo.ts'
import { testDatabases } from '#tests/support/databases.ts'

const farm = await demoFarm()
const [owner] = farm.people
const PUSH = { endpoint: 'https://push.example.net/a', p256dh: 'p', auth: 'a' }

const databases = testDatabases()

describe.each(databases)('what people and programs signed up for, in $name', (where) => {
  const setUp = async () => ({ book: subscriptions(await openAt<SubscriptionTables>(await where.fresh())) })

  it('reaches a person by mail and by each phone, a phone once', async () => {
    const { book } = await setUp()
    const id = await book.addPush(farm.id, owner!.id, PUSH)
    expect(await book.addPush(farm.id, owner!.id, { ...PUSH, auth: 'b' })).toBe(id)
    expect(await book.addressesOf(farm, owner!, 'morning')).toEqual([
      { channel: 'mail', recipient: owner!.id, target: owner!.email },
      { channel: 'push', recipient: id, target: PUSH.endpoint },
    ])
    expect(await book.pushKeys(id)).toEqual({ p256dh: 'p', auth: 'b' })
    expect(await book.removePush('another-farm', owner!.id, id)).toBe(false)
    expect(await book.removePush(farm.id, 'somebody-else', id)).toBe(false)
    expect(await book.pushesOf(farm.id, owner!.id)).toEqual([{ id, endpoint: PUSH.endpoint }])
    expect(await book.pushKeys(id)).toBeDefined()
    await book.forget({ channel: 'push', recipient: id, farmId: farm.id } as KeptParcel)
    expect(await book.pushKeys(id)).toBeUndefined()
    await book.addPush(farm.id, owner!.id, PUSH)
    expect(await book.removePush(farm.id, owner!.id, id)).toBe(true)
    expect(await book.pushesOf(farm.id, owner!.id)).toEqual([])
  })

  it('counts how often the links of a person were renewed, each person for himself', async () => {
    const { book } = await setUp()
    const nth = (personId: string, farmId = farm.id) => book.linksNth(farmId, personId)
    expect(await nth(owner!.id)).toBe(0)
    await book.renewLinks(farm.id, owner!.id)
    await book.renewLinks(farm.id, owner!.id)
    expect([await nth(owner!.id), await nth('bert'), await nth(owner!.id, 'another-farm')]).toEqual([2, 0, 0])
  })

  it('forgets a person who has left, and nobody else', async () => {
    const { book } = await setUp()
    const mine = await book.addPush(farm.id, owner!.id, PUSH)
    const theirs = await book.addPush(farm.id, 'bert-quill', { ...PUSH, endpoint: 'https://push.example.net/b' })
    await book.forgetPerson(farm.id, owner!.id)
    expect([await book.pushKeys(mine), await book.linksNth(farm.id, owner!.id)]).toEqual([undefined, 1])
    expect([await book.pushesOf(farm.id, 'bert-quill'), await book.linksNth(farm.id, 'bert-quill')]).toMatchObject([
      [{ id: theirs }],
      0,
    ])
  })

  it('ends the morning mail when told so, never the alerts', async () => {
    const { book } = await setUp()
    await book.setMorningMail(farm.id, owner!.id, false)
    await book.setMorningMail(farm.id, owner!.id, false)
    expect(await book.addressesOf(farm, owner!, 'morning')).toEqual([])
    expect(await book.addressesOf(farm, owner!, 'alert')).toHaveLength(1)
    await book.setMorningMail(farm.id, owner!.id, true)
    expect(await book.addressesOf(farm, owner!, 'morning')).toHaveLength(1)
  })

  it('keeps the old secret of a hook beside the new one, until the next change', async () => {
    const { book } = await setUp()
    const id = await book.addHook(farm.id, 'https://example.org/h', 'whsec_1')
    expect(await book.hookSecrets(id)).toEqual(['whsec_1'])
    expect(await book.changeSecret(farm.id, id, 'whsec_2')).toBe(true)
    expect(await book.changeSecret('another-farm', id, 'whsec_x')).toBe(false)
    await book.changeSecret(farm.id, id, 'whsec_3')
    expect(await book.hookSecrets(id)).toEqual(['whsec_3', 'whsec_2'])
    expect(await book.hooksOf(farm)).toEqual([{ id, url: 'https://example.org/h' }])
    await book.removeHook(farm.id, id)
    expect(await book.hooksOf(farm)).toEqual([])
    expect(await book.hookSecrets(id)).toEqual([])
  })
})

describe.each(databases)('a key that the service makes for itself, in $name', (where) => {
  it('is made once and stays', async () => {
    const database = await openAt<SecretTables>(await where.fresh())
    let made = 0
    const make = () => `key ${++made}`
    const first = await Promise.all([keptSecret(database, 'links', make), keptSecret(database, 'links', make)])
    expect(new Set(first).size).toBe(1)
    expect(await keptSecret(database, 'links', make)).toBe(first[0])
    expect(await keptSecret(database, 'other', make)).not.toBe(first[0])
  })
})
