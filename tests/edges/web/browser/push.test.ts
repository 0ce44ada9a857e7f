/** Notes from the service in a browser. Skipped, loudly, where there is no Chromium; a failure in CI. */
import { createDecipheriv, createECDH, hkdfSync } from 'node:crypto'
import type { BrowserContext, CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { encryptPush } from '#edges/delivery/push-encryption.ts'
import { complaintsOf, type SiteInBrowser, siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip } from '#tests/support/browser.ts'

const chromium = browserOrSkip()

/** The other side of the subscription: a browser without a push service of its own is given these keys. */
const theirs = createECDH('prime256v1')
theirs.generateKeys()
const AUTH = Buffer.from('sixteen bytes ok')
const GIVEN = {
  endpoint: 'https://push.example.org/headless',
  keys: { p256dh: theirs.getPublicKey('base64url'), auth: AUTH.toString('base64url') },
}

/**
 * A headless browser has no push service to sign up with: the subscription alone is stood in for. Script, worker, page,
 * permission and address are the real ones.
 */
const STAND_IN = `
  const kept = 'stand-in-subscription'
  const subscription = (key) => ({
    options: { applicationServerKey: key, userVisibleOnly: true },
    toJSON: () => (${JSON.stringify(GIVEN)}),
    unsubscribe: async () => (localStorage.removeItem(kept), true),
  })
  PushManager.prototype.subscribe = async ({ applicationServerKey, userVisibleOnly }) => {
    if (!userVisibleOnly) throw new TypeError('notes must be shown')
    localStorage.setItem(kept, applicationServerKey)
    return subscription(applicationServerKey)
  }
  PushManager.prototype.getSubscription = async () => {
    const key = localStorage.getItem(kept)
    return key === null ? null : subscription(key)
  }
`

describe.skipIf(chromium === undefined)('notes in a browser', () => {
  let here: SiteInBrowser
  beforeAll(async () => {
    here = await siteInBrowser(chromium!)
  })
  afterAll(async () => {
    await here?.close()
  })
  const devices = () => here.site.reach.subscriptions.pushesOf(here.site.people.farm.id, 'cal-crew')

  async function open(permissions: string[]): Promise<{ context: BrowserContext; page: Page; complaints: string[] }> {
    const context = await here.context('crew')
    await context.grantPermissions(permissions, { origin: here.origin })
    await context.addInitScript(STAND_IN)
    const page = await context.newPage()
    const complaints = complaintsOf(page)
    await page.goto('/you/messages')
    return { context, page, complaints }
  }

  it('are turned on by a button, kept over a visit, and turned off', async () => {
    const { context, page, complaints } = await open(['notifications'])
    await page.getByText('Notes are off for this browser.').waitFor()
    await page.getByRole('button', { name: 'Turn notes on here' }).click()
    await page.getByText('Notes are on for this browser.').waitFor()
    const [device, ...more] = await devices()
    expect([device!.endpoint, more]).toEqual([GIVEN.endpoint, []])
    expect(await here.site.reach.subscriptions.pushKeys(device!.id)).toEqual(GIVEN.keys)
    expect(await page.evaluate(`localStorage.getItem('stand-in-subscription')`)).toBe(here.site.reach.pushKey)
    await page.reload()
    await page.getByText('Notes are on for this browser.').waitFor()
    await page.getByText('Device 1, by push.example.org').waitFor()
    await page.getByRole('button', { name: 'Turn notes off here' }).click()
    await page.getByText('Notes are off for this browser.').waitFor()
    expect(await devices()).toEqual([])
    expect(complaints).toEqual([])
    await context.close()
  })

  it('say so where the browser is set to show none', async () => {
    const { context, page } = await open([])
    await page.getByText('This browser is set to show no notes from here.').waitFor()
    expect(await page.getByRole('button', { name: /Turn notes/ }).count()).toBe(0)
    await context.close()
  })

  it('are asked for on a page that reads well with scripts off', async () => {
    const context = await here.context('crew', { javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto('/you/messages')
    await page.getByText('Turning notes on needs scripts').waitFor()
    expect(await page.getByRole('button', { name: /Turn notes/ }).count()).toBe(0)
    await page.getByRole('button', { name: 'Send me a test message' }).click()
    await page.getByText('There is no way to reach you').waitFor()
    await context.close()
  })

  it('come up when they arrive, and a tap opens their page', async () => {
    const { context, page } = await open(['notifications'])
    await page.evaluate('navigator.serviceWorker.ready')
    const cdp = await context.newCDPSession(page)
    const note = { title: 'FIRE STOP', body: 'Stop cutting.', tag: 'alert-look-7', path: '/week', urgent: true }
    // Through the wire and back: what the service would post, opened with the browser's keys.
    await deliver(cdp, here.origin, opened(encryptPush(Buffer.from(JSON.stringify(note)), GIVEN.keys)))
    const shown = `navigator.serviceWorker.ready.then((worker) => worker.getNotifications()).then((notes) =>
      notes.map(({ title, body, tag, data, requireInteraction }) =>
        ({ title, body, tag, path: data.path, urgent: requireInteraction })))`
    await expect.poll(() => page.evaluate(shown)).toEqual([note])
    // Another alert stands beside it; news of the same tag takes its place.
    await deliver(cdp, here.origin, JSON.stringify({ ...note, title: 'Rain', tag: 'alert-look-8' }))
    await deliver(cdp, here.origin, JSON.stringify({ ...note, title: 'Fire stop goes on' }))
    const titles = `navigator.serviceWorker.ready.then((worker) => worker.getNotifications()).then((notes) =>
      notes.map(({ title }) => title).sort())`
    await expect.poll(() => page.evaluate(titles)).toEqual(['Fire stop goes on', 'Rain'])
    const [worker] = context.serviceWorkers()
    // A headless browser has no screen to tap: the event is the browser's own, and where it leads is noted.
    const opens = (path: string) =>
      worker!.evaluate(`(async () => {
        const opened = []
        self.clients.openWindow = async (url) => { opened.push(url) }
        const [first] = await self.registration.getNotifications({ tag: 'alert-look-8' })
        Object.defineProperty(first, 'data', { value: { path: ${JSON.stringify(path)} } })
        let done
        const event = new NotificationEvent('notificationclick', { notification: first })
        event.waitUntil = (work) => { done = work }
        self.dispatchEvent(event)
        await done
        return opened
      })()`)
    expect(await opens('https://elsewhere.example/')).toEqual([])
    await deliver(cdp, here.origin, JSON.stringify({ ...note, title: 'Rain', tag: 'alert-look-8' }))
    await expect.poll(() => page.evaluate(titles)).toEqual(['Fire stop goes on', 'Rain'])
    expect(await opens('/week')).toEqual([`${here.origin}/week`])
    await expect.poll(() => page.evaluate(titles)).toEqual(['Fire stop goes on'])
    await context.close()
  })

  it('that can not be read still show that there is news', async () => {
    const { context, page } = await open(['notifications'])
    await page.evaluate('navigator.serviceWorker.ready')
    const cdp = await context.newCDPSession(page)
    await deliver(cdp, here.origin, 'not what the service sends')
    const titles = `navigator.serviceWorker.ready.then((worker) => worker.getNotifications()).then((notes) =>
      notes.map(({ title }) => title))`
    await expect.poll(() => page.evaluate(titles)).toEqual(['Threshday'])
    await context.close()
  })
})

async function deliver(cdp: CDPSession, origin: string, data: string): Promise<void> {
  const { promise, resolve } = Promise.withResolvers<string>()
  cdp.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
    const found = registrations.find(({ scopeURL, isDeleted }) => scopeURL === `${origin}/` && !isDeleted)
    if (found) resolve(found.registrationId)
  })
  await cdp.send('ServiceWorker.enable')
  const registrationId = await promise
  await cdp.send('ServiceWorker.deliverPushMessage', { origin, registrationId, data })
  await cdp.send('ServiceWorker.disable')
}

/** RFC 8291, 3.4 and RFC 8188, 2: the browser's side of the encryption, written from the standard. */
function opened(body: Buffer): string {
  const salt = body.subarray(0, 16)
  const keyLength = body[20]!
  const ours = body.subarray(21, 21 + keyLength)
  const record = body.subarray(21 + keyLength)
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), theirs.getPublicKey(), ours])
  const ikm = Buffer.from(hkdfSync('sha256', theirs.computeSecret(ours), AUTH, info, 32))
  const derive = (text: string, bytes: number) => Buffer.from(hkdfSync('sha256', ikm, salt, Buffer.from(text), bytes))
  const decipher = createDecipheriv(
    'aes-128-gcm',
    derive('Content-Encoding: aes128gcm\0', 16),
    derive('Content-Encoding: nonce\0', 12),
  )
  decipher.setAuthTag(record.subarray(-16))
  const plain = Buffer.concat([decipher.update(record.subarray(0, -16)), decipher.final()])
  return plain.subarray(0, plain.lastIndexOf(2)).toString()
}
