/** The first minute of a newcomer: the service started as `npm start` does, the page opened in a browser. */
import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SIMPLE_RULES } from '#core/planning/optimiser/simple-rules.ts'
import { complaintsOf, seriousFaults } from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip, openBrowser } from '#tests/support/browser.ts'

/** As the farmer was promised [ms]. */
const PATIENCE_MS = 5000
const START_MS = 60_000

const chromium = browserOrSkip()

describe.skipIf(chromium === undefined)('a newcomer', () => {
  const folder = mkdtempSync(join(tmpdir(), 'threshday-newcomer-'))
  let service: ChildProcess
  let browser: Browser
  let origin: string
  beforeAll(async () => {
    // Nothing of this machine's own settings: a fresh clone has none.
    const env = { PATH: process.env.PATH, HOME: folder, THRESHDAY_DATA: folder, THRESHDAY_PORT: '0' }
    service = spawn(process.execPath, ['src/main.ts', 'serve'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
    ;[origin, browser] = await Promise.all([addressOf(service), openBrowser(chromium!)])
  }, START_MS)
  afterAll(async () => {
    await browser?.close()
    service?.kill()
    rmSync(folder, { recursive: true, force: true })
  })

  it('sees the field to run within five seconds of opening the page, and no error on the console', async () => {
    const page = await browser.newPage()
    const complaints = complaintsOf(page)
    const started = performance.now()
    await page.goto(origin)
    const sentence = page.getByRole('heading', { level: 1, name: /^Run .+, \d+:\d\d to \d+:\d\d\./ })
    await sentence.waitFor({ timeout: PATIENCE_MS })
    expect(performance.now() - started).toBeLessThan(PATIENCE_MS)
    const box = await sentence.boundingBox()
    expect(box!.y + box!.height).toBeLessThan(page.viewportSize()!.height)
    await page.waitForLoadState('networkidle')
    expect(complaints).toEqual([])
    await page.close()
  })

  it(
    'finds every page that is linked at the top, without a complaint or a serious fault of access',
    async () => {
      const page = await browser.newPage()
      await page.goto(origin)
      const links = await page.getByRole('navigation').getByRole('link').all()
      const paths = await Promise.all(links.map((link) => link.getAttribute('href')))
      expect(paths).toEqual(expect.arrayContaining(['/', '/week', '/fields', '/cab', '/season']))
      await page.close()
      for (const path of paths) {
        // A page of its own: leaving one breaks off its stream of news, which is no complaint.
        const opened = await browser.newPage()
        const complaints = complaintsOf(opened)
        const answer = await opened.goto(`${origin}${path}`)
        expect(answer!.status(), path!).toBe(200)
        expect(await opened.getByRole('heading', { level: 1 }).count(), path!).toBe(1)
        expect(await seriousFaults(opened), path!).toEqual([])
        expect(complaints, path!).toEqual([])
        await opened.close()
      }
    },
    START_MS,
  )

  it('is told what the first plan is expected to save against the simple rules', async () => {
    const season = (await (await fetch(`${origin}/api/season`)).json()) as {
      saved: { days: number; against: unknown[] }
    }
    expect(season.saved).toMatchObject({ days: 1 })
    expect(season.saved.against).toHaveLength(SIMPLE_RULES.length)
    const page = await browser.newPage()
    await page.goto(`${origin}/season`)
    await page.getByText(/ expected to bring \$[\d,]+ more than /).waitFor()
    await page.close()
  })
})

/** @returns the address that the service prints once it listens. */
function addressOf(service: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = ''
    const listen = (chunk: Buffer) => {
      said += chunk.toString()
      const found = /^Threshday for .+: (http:\/\/\S+)\/$/m.exec(said)
      if (found) resolve(found[1]!)
    }
    service.stdout?.on('data', listen)
    service.stderr?.on('data', (chunk: Buffer) => {
      said += chunk.toString()
    })
    service.once('exit', (code) => reject(new Error(`It ended with ${code} before it listened:\n${said}`)))
  })
}
