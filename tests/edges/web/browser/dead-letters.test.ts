/** What did not get through, from a real mail server's refusal to a second try by hand, in a browser. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Letter } from '#app/mail-port.ts'
import { Outbox } from '#app/outbox.ts'
import type { Carrier } from '#app/outbox-port.ts'
import { smtpCarrier } from '#edges/delivery/mail.ts'
import { type MailServer, mailServer } from '#tests/edges/delivery/support/mail-server.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { type Listening, listenApp } from '#tests/edges/web/support/listen.ts'
import { type Site, siteOf } from '#tests/edges/web/support/people.ts'
import { browserOrSkip, openBrowser } from '#tests/support/browser.ts'

const chromium = browserOrSkip()
const WIM = 'wim@example.org'

describe.skipIf(chromium === undefined)('what did not get through', () => {
  let site: Site
  let listening: Listening
  let browser: Browser
  let server: MailServer
  let carrier: Carrier
  let outbox: Outbox
  let refuses = 550

  beforeAll(async () => {
    const service = await demoService()
    site = await siteOf(service)
    server = await mailServer({ atRecipient: (address) => (address === WIM ? refuses : 0) })
    carrier = smtpCarrier({ url: server.url, from: 'Farm <farm@example.org>', timeoutMs: 2000 })
    outbox = new Outbox({
      store: site.outbox,
      carriers: [carrier],
      owner: 'test',
      clock: service.clock,
      random: () => 0.5,
    })
    site.ways.circuitOf = (channel) => outbox.circuitOf(channel)
    listening = await listenApp(site.app)
    browser = await openBrowser(chromium!)
  })
  afterAll(async () => {
    carrier?.close()
    await Promise.all([browser?.close(), listening?.close(), server?.close()])
  })

  async function open(javaScriptEnabled: boolean) {
    const context = await browser.newContext({ baseURL: listening.origin, javaScriptEnabled })
    const [name, value] = site.cookies.planner.split('=')
    await context.addCookies([{ name: name!, value: value!, url: listening.origin }])
    const page = await context.newPage()
    await page.goto('/messages')
    return page
  }

  it.each([true, false])('is listed with its reason and sent again by a button, scripts on: %s', async (scripts) => {
    const now = site.people.clock()
    const { farm } = site.people
    const letter: Letter = { to: { name: 'Wim Tallow', address: WIM }, subject: 'S', text: 'T', html: '<p>T</p>' }
    const date = scripts ? '2010-09-30' : '2010-09-29'
    refuses = 550
    await site.outbox.post([
      {
        farmId: farm.id,
        kind: 'morning',
        subject: '',
        date,
        channel: 'mail',
        recipient: 'wim-tallow',
        target: WIM,
        body: JSON.stringify(letter),
        urgent: false,
        createdEpochH: now,
        closesEpochH: now + 2,
      },
    ])
    await outbox.carryDue()
    const before = server.taken.length
    const page = await open(scripts)
    const row = page.getByRole('row').filter({ has: page.locator(`td time[datetime="${date}"]`) })
    await row.getByText('failed for good').waitFor()
    await row.getByText(/550/).waitFor()
    refuses = 0
    await row.getByRole('button', { name: 'Send again: Morning message to Wim Tallow' }).click()
    await page.getByText('It is back in the queue.').waitFor()
    await outbox.carryDue()
    await page.goto('/messages')
    await row.getByText('sent', { exact: true }).waitFor()
    expect(await page.getByRole('button', { name: /Send again/ }).count()).toBe(0)
    expect(server.taken.length - before).toBe(1)
    expect(server.taken.at(-1)!.mail.messageId).toContain(`morning._.${date}.mail.wim-tallow@`)
    await page.context().close()
  })

  it('shows a way that is shut for a while, until when and why', async () => {
    const page = await open(true)
    const ways = page.getByRole('region', { name: 'Ways out' })
    await ways.getByText('Mail by mail.example.org:587').getByText(/works/).waitFor()
    const now = site.people.clock()
    await site.outbox.post(
      [1, 2, 3, 4].map((n) => ({
        farmId: site.people.farm.id,
        kind: 'alert',
        subject: `look-${n}`,
        date: '2010-09-30',
        channel: 'mail' as const,
        recipient: 'orla-fenn',
        target: 'orla@example.org',
        body: JSON.stringify({ to: { name: 'O', address: 'orla@example.org' }, subject: 'S', text: 'T', html: 'T' }),
        urgent: false,
        createdEpochH: now,
        closesEpochH: now + 2,
      })),
    )
    await server.close()
    await outbox.carryDue()
    await page.reload()
    await ways.getByText(/paused until .* after 3 failures in a row; fire stops are still tried/).waitFor()
    await page.context().close()
  })
})
