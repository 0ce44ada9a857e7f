/** A page that stands open while the plan changes, in a browser. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Shown } from '#app/service.ts'
import { liveFeed, planMark } from '#edges/web/live/feed.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'
import {
  complaintsOf,
  type SiteInBrowser,
  seriousFaults,
  siteInBrowser,
} from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip } from '#tests/support/browser.ts'

const chromium = browserOrSkip()

describe.skipIf(chromium === undefined)('a page that stands open', async () => {
  const service = await demoService()
  const made = await service.current()
  const later = made.day!.plan.runs.map((run) => ({ ...run, startEpochH: run.startEpochH + 1 }))
  const againAt = (h: number) => ({ ...made, message: { ...made.message, nowEpochH: made.message.nowEpochH + h } })
  const another = { ...againAt(1), day: { ...made.day!, plan: { ...made.day!.plan, runs: later } } }
  const live = liveFeed()
  let shown: Shown = { made, outdated: false, version: 0 }
  let inBrowser: SiteInBrowser
  beforeAll(async () => {
    const site = await siteOf({ ...service, shown: async () => shown }, { live, openReading: true })
    inBrowser = await siteInBrowser(chromium!, site)
  })
  afterAll(async () => {
    live.close()
    await inBrowser?.close()
  })

  it('says when something was told, when there is a newer plan, and shows it when asked; not when it is the same', async () => {
    live.hear({ kind: 'day-made', made })
    const context = await inBrowser.context()
    const page = await context.newPage()
    const complaints = complaintsOf(page)
    const listening = page.waitForResponse('**/api/live')
    await page.goto('/')
    await listening
    const making = page.getByText('Something was told since')
    const newer = page.getByText('There is a newer plan.')
    expect([await making.isVisible(), await newer.isVisible()]).toEqual([false, false])

    live.hear({ kind: 'told' })
    await making.waitFor({ state: 'visible' })
    live.hear({ kind: 'day-made', made: againAt(0.5) })
    await making.waitFor({ state: 'hidden' })
    expect(await newer.isVisible()).toBe(false)

    shown = { made: another, outdated: false, version: 1 }
    live.hear({ kind: 'told' })
    live.hear({ kind: 'day-made', made: another })
    await newer.waitFor({ state: 'visible' })
    expect(await seriousFaults(page)).toEqual([])
    await page.getByRole('link', { name: 'Show it' }).click()
    await page.locator(`#news[data-plan="${planMark(another)}"]`).waitFor({ state: 'attached' })
    expect(await newer.isVisible()).toBe(false)
    expect(complaints).toEqual([])
    await context.close()
  })

  it('that was drawn while a newer plan was made offers it whatever it is', async () => {
    shown = { made: another, outdated: true, version: 2 }
    const context = await inBrowser.context()
    const page = await context.newPage()
    await page.goto('/fields')
    await page.getByText('Something was told since').waitFor({ state: 'visible' })
    shown = { made: another, outdated: false, version: 2 }
    live.hear({ kind: 'day-made', made: { ...another, message: againAt(2).message } })
    await page.getByText('There is a newer plan.').waitFor({ state: 'visible' })
    await context.close()
  })
})
