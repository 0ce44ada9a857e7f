import { createECDH, randomBytes } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { asked, siteOf } from '#tests/edges/web/support/people.ts'

const service = await demoService()
const { farm } = service

/** A subscription as a browser gives it (W3C Push API): a point of P-256 and 16 bytes. */
function subscription(name: string) {
  const ecdh = createECDH('prime256v1')
  ecdh.generateKeys()
  const keys = { p256dh: ecdh.getPublicKey('base64url'), auth: randomBytes(16).toString('base64url') }
  return { endpoint: `https://push.example.org/${name}`, keys }
}

describe('signing a device up for notes', () => {
  it('is for the one who is signed in, and asks for the key of the service', async () => {
    const site = await siteOf(service)
    const { key } = (await (await asked(site, 'crew', 'GET /api/push')).json()) as { key: string }
    // RFC 8292, 3.2: the uncompressed point of the public key, 65 bytes from 4 on.
    expect([Buffer.from(key, 'base64url').length, Buffer.from(key, 'base64url')[0]]).toEqual([65, 4])
    const mine = subscription('a')
    const first = await asked(site, 'spanish', 'POST /api/push', mine)
    expect(first.status).toBe(201)
    const { id } = (await first.json()) as { id: string }
    expect(await site.reach.subscriptions.pushesOf(farm.id, 'chayo-lindero')).toEqual([{ id, endpoint: mine.endpoint }])
    expect(await site.reach.subscriptions.pushKeys(id)).toEqual(mine.keys)
    // Nobody signs off another's device.
    expect((await asked(site, 'planner', `DELETE /api/push?id=${id}`)).status).toBe(404)
    expect((await asked(site, 'spanish', `DELETE /api/push?id=${id}`)).status).toBe(204)
    expect(await site.reach.subscriptions.pushesOf(farm.id, 'chayo-lindero')).toEqual([])
  })

  it('reaches somebody who joined under a name that the farm file does not know', async () => {
    const site = await siteOf(service)
    await asked(site, 'crew', 'POST /api/push', subscription('b'))
    const person = (await site.reach.everyone()).find(({ name }) => name === 'Cal Crew')!
    expect(await site.reach.subscriptions.addressesOf(farm, person, 'alert')).toMatchObject([{ channel: 'push' }])
  })

  it('ends with the person: who joins later under the name finds no device of the one before', async () => {
    const site = await siteOf(service)
    await asked(site, 'crew', 'POST /api/push', subscription('e'))
    expect((await site.post('owner', '/people/remove', { id: 'cal-crew' })).status).toBe(303)
    expect(await site.reach.subscriptions.pushesOf(farm.id, 'cal-crew')).toEqual([])
    expect(await site.reach.subscriptions.linksNth(farm.id, 'cal-crew')).toBe(1)
  })

  it('takes no broken key, no closed address, no program and no other site', async () => {
    const site = await siteOf(service)
    const good = subscription('c')
    const wrong = [
      { ...good, keys: { ...good.keys, p256dh: 'AAAA' } },
      { ...good, keys: { ...good.keys, auth: 'short' } },
      { ...good, endpoint: 'http://push.example.org/c' },
      { ...good, endpoint: 'https://127.0.0.1/c' },
      { ...good, endpoint: 'https://[fd00::1]/c' },
      { ...good, extra: 1 },
    ]
    for (const body of wrong) expect((await asked(site, 'crew', 'POST /api/push', body)).status).toBe(422)
    const post = (headers: Record<string, string>) =>
      site.app.request('/api/push', {
        method: 'POST',
        body: JSON.stringify(good),
        headers: { 'content-type': 'application/json', ...headers },
      })
    const { makeToken } = await import('#app/people.ts')
    const owner = (await site.people.store.accounts(farm.id)).find(({ role }) => role === 'owner')!
    const token = await makeToken(site.people, 'a program', 'crew', owner)
    expect((await post({ authorization: `Bearer ${token}` })).status).toBe(403)
    expect((await post({ cookie: site.cookies.crew, 'sec-fetch-site': 'cross-site' })).status).toBe(403)
    expect(await site.reach.subscriptions.pushesOf(farm.id, 'cal-crew')).toEqual([])
  })
})

describe('how messages reach you', () => {
  it('tells the ways, tries them all, and ends a device', async () => {
    const site = await siteOf(service)
    expect(await (await site.as('crew', '/you/messages')).text()).toContain('No message reaches you yet.')
    expect(await (await site.as('spanish', '/you/messages')).text()).toContain('Los mensajes le llegan por correo.')
    await asked(site, 'spanish', 'POST /api/push', subscription('d'))
    const page = await (await site.as('spanish', '/you/messages')).text()
    expect(page).toContain('por correo y por notas en 1 aparato')
    expect(page).toContain('push.example.org')
    const tested = await site.post('spanish', '/you/messages/test', {})
    expect(tested.headers.get('location')).toBe('/you/messages?tested=2')
    const parcels = await site.outbox.recent(farm.id, 10)
    expect(parcels.map(({ channel, kind }) => `${kind} ${channel}`).toSorted()).toEqual(['test mail', 'test push'])
    const { id } = (await site.reach.subscriptions.pushesOf(farm.id, 'chayo-lindero'))[0]!
    expect((await site.post('crew', '/you/messages/devices/remove', { id })).status).toBe(409)
    expect((await site.post('spanish', '/you/messages/devices/remove', { id })).status).toBe(303)
    expect(await site.reach.subscriptions.pushesOf(farm.id, 'chayo-lindero')).toEqual([])
  })

  it('shows links of your own, and new ones on asking', async () => {
    const site = await siteOf(service)
    const linksIn = async () =>
      [...(await (await site.as('planner', '/you/messages')).text()).matchAll(/<code>([^<]+)<\/code>/g)].map(
        ([, text]) => new URL(text!),
      )
    const [calendar, text, short] = await linksIn()
    expect(calendar!.pathname).toMatch(/^\/calendar\/[\w.-]+\.ics$/)
    expect(text!.pathname).toMatch(/^\/text\/[\w.-]+\.txt$/)
    expect(short!.search).toBe('?short')
    const read = site.reach.links.read(calendar!.pathname.split('/').at(-1)!.replace('.ics', ''))
    expect(read).toEqual({ deed: 'calendar', farmId: farm.id, personId: 'pat-planner', nth: 0 })
    expect((await site.post('planner', '/you/messages/links', {})).status).toBe(303)
    const [renewed] = await linksIn()
    expect(renewed!.pathname).not.toBe(calendar!.pathname)
    expect(await site.reach.subscriptions.linksNth(farm.id, 'pat-planner')).toBe(1)
  })

  it('ends the morning mail and begins it again', async () => {
    const site = await siteOf(service)
    const morning = async () =>
      (
        await site.reach.subscriptions.addressesOf(
          farm,
          farm.people.find(({ id }) => id === 'chayo-lindero')!,
          'morning',
        )
      ).length
    expect((await site.post('spanish', '/you/messages/mail', { wanted: 'no' })).status).toBe(303)
    expect(await morning()).toBe(0)
    expect(await (await site.as('spanish', '/you/messages')).text()).toContain('terminó para usted')
    await site.post('spanish', '/you/messages/mail', { wanted: 'yes' })
    expect(await morning()).toBe(1)
    expect((await site.post('spanish', '/you/messages/mail', { wanted: 'perhaps' })).status).toBe(400)
  })
})

describe('today as plain text', () => {
  it('is for whoever may read, in his own language, with a short form', async () => {
    const site = await siteOf(service)
    expect((await site.as(undefined, '/today.txt')).status).toBe(401)
    const english = await site.as('crew', '/today.txt')
    expect(english.headers.get('content-type')).toMatch(/^text\/plain; charset=utf-8/i)
    expect(await english.text()).toMatch(/^Run /)
    expect(await (await site.as('spanish', '/today.txt')).text()).toMatch(/^Corte /)
    expect((await (await site.as('crew', '/today.txt?short')).text()).trim().length).toBeLessThanOrEqual(160)
  })

  it('says in one word that nothing is new', async () => {
    const site = await siteOf(service)
    const first = await site.as('crew', '/today.txt')
    const again = await site.as('crew', '/today.txt', { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect([again.status, await again.text()]).toEqual([304, ''])
    expect((await site.as('spanish', '/today.txt')).headers.get('etag')).not.toBe(first.headers.get('etag'))
  })
})
