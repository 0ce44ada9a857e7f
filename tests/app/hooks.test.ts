import { describe, expect, it } from 'vitest'
import { addHook, type HookTools, MOST_HOOKS, removeHook, renewSecret } from '#app/hooks.ts'
import { faultOfTarget } from '#edges/delivery/guard.ts'
import { openAt } from '#edges/storage/open.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoFarm } from '#tests/app/support/demo.ts'

const farm = await demoFarm()

async function setUp() {
  let made = 0
  const book = subscriptions(await openAt<SubscriptionTables>(':memory:'))
  const tools: HookTools = { subscriptions: book, faultOf: faultOfTarget, newSecret: () => `whsec_${++made}` }
  return { book, tools, add: (url: string) => addHook(farm, url, tools) }
}

describe('a program that gets every message', () => {
  it('is taken on with a secret, once an address', async () => {
    const { add, book } = await setUp()
    const added = await add('  https://hooks.example.org/farm ')
    expect(added).toMatchObject({ kind: 'added', hook: { url: 'https://hooks.example.org/farm' }, secret: 'whsec_1' })
    expect(await add('https://HOOKS.example.org/farm')).toMatchObject({ kind: 'refused', fault: 'known' })
    expect(await book.hooksOf(farm)).toHaveLength(1)
  })

  it('is refused where it does not lie in the open network', async () => {
    const { add, book } = await setUp()
    for (const url of [
      'http://example.org/',
      'https://127.0.0.1/',
      'https://[::1]/',
      'https://example.org:8443/',
      'hm',
    ])
      expect(await add(url)).toMatchObject({ kind: 'refused', fault: 'address' })
    expect(await add(`https://example.org/${'x'.repeat(2000)}`)).toMatchObject({ fault: 'address' })
    expect(await book.hooksOf(farm)).toEqual([])
  })

  it('is refused beyond a sane number of them', async () => {
    const { add } = await setUp()
    for (let n = 0; n < MOST_HOOKS; n++) expect((await add(`https://example.org/${n}`)).kind).toBe('added')
    expect(await add('https://example.org/more')).toMatchObject({ fault: 'too-many' })
  })

  it('gets a new secret beside its old one, and is let go', async () => {
    const { add, book, tools } = await setUp()
    const added = await add('https://example.org/')
    if (added.kind !== 'added') throw new Error(added.reason)
    const { id } = added.hook
    expect(await renewSecret(farm, id, tools)).toBe('whsec_2')
    expect(await book.hookSecrets(id)).toEqual(['whsec_2', 'whsec_1'])
    expect(await renewSecret(farm, 'no-such-hook', tools)).toBeUndefined()
    expect(await removeHook({ ...farm, id: 'another-farm' }, id, tools)).toBe(false)
    expect([await removeHook(farm, id, tools), await removeHook(farm, id, tools)]).toEqual([true, false])
  })
})
