/** The cab without signal, in a browser. Skipped, loudly, where there is no Chromium; a failure in CI. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type SiteInBrowser, siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip } from '#tests/support/browser.ts'

const chromium = browserOrSkip()

describe.skipIf(chromium === undefined)('the cab in a browser', () => {
  let here: SiteInBrowser
  beforeAll(async () => {
    here = await siteInBrowser(chromium!)
  })
  afterAll(async () => {
    await here?.close()
  })

  it('keeps a reading typed without signal and sends it once when the signal is back', async () => {
    const context = await here.context('crew')
    const page = await context.newPage()
    await page.goto('/cab')
    await page.evaluate('navigator.serviceWorker.ready')
    await page.goto('/cab/reading')
    await context.setOffline(true)
    await page.reload()
    await page.getByText(/No signal\. This page is \d+ min old\./).waitFor()
    await page.getByLabel('Moisture, %').fill('11.7')
    await page.getByRole('button', { name: 'Send' }).click()
    await page.getByText('1 to send when the signal is back.').waitFor()
    // The page is left and opened again before the signal comes.
    await page.goto('/cab')
    await page.getByText('1 to send when the signal is back.').waitFor()
    const readings = () => here.site.records.history(here.site.people.farm.id, 'reading')
    expect(await readings()).toHaveLength(0)
    await context.setOffline(false)
    await page.evaluate(`window.dispatchEvent(new Event('online'))`)
    await page.getByText('1 to send when the signal is back.').waitFor({ state: 'hidden' })
    await page.reload()
    await page.waitForTimeout(300)
    const kept = await readings()
    expect(kept.map(({ body }) => body?.moistureWb)).toEqual([11.7])
    await context.close()
  })

  it('sends a reading as a plain form with scripts off', async () => {
    const context = await here.context('crew', { javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto('/cab/reading')
    await page.getByLabel('Moisture, %').fill('12,2')
    await page.getByRole('button', { name: 'Send' }).click()
    await page.getByText('Reading taken.').waitFor()
    await context.close()
  })

  it('shows a reading that can not be, and does not send it again', async () => {
    const context = await here.context('crew')
    const page = await context.newPage()
    await page.goto('/cab/reading')
    await page.getByLabel('Moisture, %').fill('99')
    await page.getByRole('button', { name: 'Send' }).click()
    await page.getByText(/99 % is not the moisture of a standing crop/).waitFor()
    await page.getByText(/to send when the signal is back/).waitFor({ state: 'hidden' })
    await context.close()
  })

  it('brings back what was refused to be mended, but over nothing that was typed meanwhile', async () => {
    const context = await here.context('crew')
    const page = await context.newPage()
    await page.goto('/cab/reading')
    const moisture = page.getByLabel('Moisture, %')
    await page.getByLabel('Field').selectOption('far-half')
    await page.getByLabel('Read by').selectOption('ticket')
    await moisture.fill('98,5')
    await page.getByRole('button', { name: 'Send' }).click()
    await page.getByText(/98.5 % is not the moisture of a standing crop/).waitFor()
    await page.waitForFunction(`document.querySelector('[name=moisture]').value !== ''`)
    expect(await moisture.inputValue()).toBe('98,5')
    expect(await page.getByLabel('Field').inputValue()).toBe('far-half')
    expect(await page.getByLabel('Read by').inputValue()).toBe('ticket')

    await context.setOffline(true)
    await page.getByRole('button', { name: 'Send' }).click()
    await page.getByText('1 to send when the signal is back.').waitFor()
    await moisture.fill('12,1')
    await context.setOffline(false)
    await page.evaluate(`window.dispatchEvent(new Event('online'))`)
    await page.getByText(/98.5 % is not the moisture of a standing crop/).waitFor()
    expect(await moisture.inputValue()).toBe('12,1')
    await context.close()
  })

  it('can be installed: manifest, icon and worker are there', async () => {
    const answer = await here.site.app.request('/manifest.webmanifest')
    const manifest = (await answer.json()) as { icons: { src: string }[] }
    expect(manifest).toMatchObject({ start_url: '/cab', display: 'standalone' })
    expect((await here.site.app.request(manifest.icons[0]!.src)).status).toBe(200)
    const worker = await here.site.app.request('/sw.js')
    expect(worker.headers.get('content-type')).toContain('javascript')
  })
})
