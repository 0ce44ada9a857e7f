import { describe, expect, it } from 'vitest'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const { farm } = service
const URL_A = 'https://hooks.example.org/farm'

describe('the page of programs that are told', () => {
  it('takes one on and shows its secret once', async () => {
    const site = await siteOf(service)
    const page = await (await site.post('owner', '/messages/hooks', { url: URL_A })).text()
    const secret = /<code>(whsec_[\w+/=]+)<\/code>/.exec(page)?.[1]
    const [hook] = await site.reach.subscriptions.hooksOf(farm)
    expect(await site.reach.subscriptions.hookSecrets(hook!.id)).toEqual([secret])
    const later = await (await site.as('owner', '/messages/hooks')).text()
    expect(later).toContain('1 program gets every message')
    expect(later).not.toContain('whsec_')
  })

  it('says why it does not take one', async () => {
    const site = await siteOf(service)
    const refused = await site.post('owner', '/messages/hooks', { url: 'https://10.0.0.8/x' })
    expect(refused.status).toBe(422)
    expect(await refused.text()).toContain('lie in the open network')
    await site.post('owner', '/messages/hooks', { url: URL_A })
    expect(await (await site.post('owner', '/messages/hooks', { url: URL_A })).text()).toContain('on the list already')
    expect(await site.reach.subscriptions.hooksOf(farm)).toHaveLength(1)
  })

  it('tries one, changes its secret, lets it go', async () => {
    const site = await siteOf(service)
    await site.post('owner', '/messages/hooks', { url: URL_A })
    const [hook] = await site.reach.subscriptions.hooksOf(farm)
    const { id } = hook!
    expect((await site.post('owner', '/messages/hooks/test', { id })).status).toBe(303)
    expect(await site.outbox.recent(farm.id, 9)).toMatchObject([{ channel: 'webhook', target: URL_A, kind: 'test' }])
    const page = await (await site.post('owner', '/messages/hooks/secret', { id })).text()
    const secrets = await site.reach.subscriptions.hookSecrets(id)
    expect(secrets).toHaveLength(2)
    expect(page).toContain(secrets[0]!)
    expect(page).not.toContain(secrets[1]!)
    expect((await site.post('owner', '/messages/hooks/remove', { id })).status).toBe(303)
    for (const deed of ['test', 'secret', 'remove'])
      expect((await site.post('owner', `/messages/hooks/${deed}`, { id })).status).toBe(409)
  })
})

describe('the API of programs that are told', () => {
  it('lists, adds, renews and removes', async () => {
    const site = await siteOf(service)
    const added = await asked(site, 'owner', 'POST /api/hooks', { url: URL_A })
    expect(added.status).toBe(201)
    expect(added.headers.get('cache-control')).toBe('no-store')
    const { id, secret } = (await added.json()) as { id: string; secret: string }
    expect(secret).toMatch(/^whsec_/)
    expect(await (await asked(site, 'owner', 'GET /api/hooks')).json()).toEqual({ items: [{ id, url: URL_A }] })
    const renewed = (await (await asked(site, 'owner', `POST /api/hooks/secret?id=${id}`)).json()) as { secret: string }
    expect(await site.reach.subscriptions.hookSecrets(id)).toEqual([renewed.secret, secret])
    expect((await asked(site, 'owner', `DELETE /api/hooks?id=${id}`)).status).toBe(204)
    expect((await asked(site, 'owner', `DELETE /api/hooks?id=${id}`)).status).toBe(404)
    expect((await asked(site, 'owner', `POST /api/hooks/secret?id=${id}`)).status).toBe(404)
  })

  it('names the fault of an address', async () => {
    const site = await siteOf(service)
    const refused = await asked(site, 'owner', 'POST /api/hooks', { url: 'https://169.254.169.254/latest' })
    expect([refused.status, await refused.json()]).toMatchObject([422, { errors: [{ pointer: '/url' }] }])
  })
})

describe('the API of the ways out', () => {
  it('tells by what mail goes, without what must stay secret, and which way is paused until when', async () => {
    const site = await siteOf(service)
    const ways = async () => (await (await asked(site, 'planner', 'GET /api/messages/ways')).json()) as object
    expect(await ways()).toMatchObject({
      mail: { server: 'mail.example.org:587', from: 'Farm <farm@example.org>', signedFor: 'example.org' },
      channels: ['mail', 'push', 'webhook'].map((channel) => ({ channel, state: 'works', failures: 0, until: null })),
    })
    const openUntilEpochH = service.clock() + 0.1
    site.ways.circuitOf = (channel) =>
      channel === 'mail' ? { failures: 5, openUntilEpochH } : { failures: 2, openUntilEpochH: 0 }
    // 5:30 and six minutes, at the farm five hours behind.
    expect(await ways()).toMatchObject({
      channels: [
        { state: 'paused', failures: 5, until: '2010-09-30T10:36:00Z' },
        { state: 'trying', failures: 2, until: null },
        { state: 'trying' },
      ],
    })
  })
})

describe('the API of tests and the morning mail', () => {
  it('sends a test one way or all, to a person or to every hook', async () => {
    const site = await siteOf(service)
    await asked(site, 'owner', 'POST /api/hooks', { url: URL_A })
    const test = async (body: object) => await asked(site, 'planner', 'POST /api/messages/test', body)
    expect(await (await test({ person: 'wim-tallow' })).json()).toEqual({
      posted: [{ channel: 'mail', recipient: 'wim-tallow' }],
    })
    expect(await (await test({ person: 'wim-tallow', channel: 'push' })).json()).toEqual({ posted: [] })
    expect(await (await test({})).json()).toMatchObject({ posted: [{ channel: 'webhook' }] })
    expect((await test({ person: 'nobody' })).status).toBe(404)
    expect((await test({ channel: 'pigeon' })).status).toBe(422)
  })

  it('ends and begins the morning mail of a person', async () => {
    const site = await siteOf(service)
    const put = (person: string, wanted: boolean) => asked(site, 'planner', 'PUT /api/morning-mail', { person, wanted })
    const wim = farm.people.find(({ id }) => id === 'wim-tallow')!
    expect((await put('wim-tallow', false)).status).toBe(204)
    expect(await site.reach.subscriptions.addressesOf(farm, wim, 'morning')).toEqual([])
    expect((await put('wim-tallow', true)).status).toBe(204)
    expect(await site.reach.subscriptions.addressesOf(farm, wim, 'morning')).toHaveLength(1)
    expect((await put('nobody', true)).status).toBe(404)
  })
})
