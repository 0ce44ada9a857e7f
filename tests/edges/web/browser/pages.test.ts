/** Every page as a browser shows it. Skipped, loudly, where there is no Chromium; a failure in CI. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '#app/people-port.ts'
import { expectSound, type SiteInBrowser, siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip } from '#tests/support/browser.ts'

const PAGES: readonly (readonly [path: string, role: Role | 'spanish' | undefined])[] = [
  ['/', undefined],
  ['/week', undefined],
  ['/fields', undefined],
  ['/fields/creek-bottom', undefined],
  ['/fields/wheat-hill', undefined],
  ['/cab', undefined],
  ['/cab/reading', 'crew'],
  ['/cab/cut', 'crew'],
  ['/cab/problem', 'crew'],
  ['/', 'spanish'],
  ['/cab', 'spanish'],
  ['/sign-in', undefined],
  ['/messages', 'planner'],
  ['/messages', 'owner'],
  ['/messages/hooks', 'owner'],
  ['/you/messages', 'crew'],
  ['/you/messages', 'spanish'],
  ['/settings', 'planner'],
  ['/api', undefined],
  ['/sources', undefined],
  ['/sources', 'spanish'],
  ['/skill', undefined],
  ['/skill', 'spanish'],
  ['/you', 'crew'],
  ['/people', 'owner'],
]

const chromium = browserOrSkip()

describe.skipIf(chromium === undefined)('in a browser', () => {
  let here: SiteInBrowser
  beforeAll(async () => {
    here = await siteInBrowser(chromium!)
  })
  afterAll(async () => {
    await here?.close()
  })

  for (const [path, role] of PAGES) {
    it(`${path}${role ? ` for ${role}` : ''} complains of nothing, has no serious fault of access and fits any width, light and dark`, async () => {
      await expectSound(here, path, role)
    })
  }

  it('is read with scripts off', async () => {
    const context = await here.context(undefined, { javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto('/')
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toMatch(/^Run /)
    expect(await page.locator('svg.ribbon').count()).toBeGreaterThan(5)
    await context.close()
  })

  it('shows a newcomer the field to run within five seconds', async () => {
    const context = await here.context()
    const page = await context.newPage()
    const started = performance.now()
    await page.goto('/')
    await page.getByRole('heading', { level: 1, name: /^Run .+, \d+:\d\d to \d+:\d\d\./ }).waitFor()
    expect(performance.now() - started).toBeLessThan(5000)
    await context.close()
  })

  it('is walked by keyboard from today to a field on the map', async () => {
    const context = await here.context()
    const page = await context.newPage()
    await page.goto('/fields')
    await page.keyboard.press('Tab')
    await page.keyboard.press('Enter')
    expect(page.url()).toMatch(/#text$/)
    for (let tabs = 0; tabs < 30; tabs++) {
      await page.keyboard.press('Tab')
      if (await page.evaluate(`document.activeElement?.closest('svg.map') !== null`)) break
    }
    await page.keyboard.press('Enter')
    await page.waitForURL(/\/fields\/.+/)
    await context.close()
  })
})
