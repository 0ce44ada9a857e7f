/** Letters as a phone shows them: 320 px, light and dark, with pictures and without. Skipped, loudly, without Chromium. */
import axe, { type AxeResults } from 'axe-core'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { farmFileAddresses } from '#app/addresses.ts'
import { eveningOf } from '#app/evening.ts'
import { noLinks } from '#app/links.ts'
import type { Letter } from '#app/mail-port.ts'
import { postMorning } from '#app/morning.ts'
import { alertHtml } from '#core/messages/alerts/render.ts'
import { renderEvening } from '#core/messages/render-evening.ts'
import { openPainter } from '#edges/delivery/painter.ts'
import { type DayTables, dayStore } from '#edges/storage/day-store.ts'
import { openAt } from '#edges/storage/open.ts'
import type { OutboxTables } from '#edges/storage/outbox-store.ts'
import { outboxStore } from '#edges/storage/outbox-store.ts'
import { demoDay } from '#tests/app/support/demo.ts'
import { browserOrSkip, openBrowser } from '#tests/support/browser.ts'

const chromium = browserOrSkip()
const WIDTH = 320

/** Of rank serious or critical, as axe-core finds them. A letter has no page around it, so no landmarks are asked for. */
async function faultsOf(page: Page): Promise<string[]> {
  await page.evaluate(axe.source)
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  )
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} (${nodes[0]?.html})`)
}

describe.skipIf(chromium === undefined)('a letter on a phone', () => {
  let browser: Browser
  let letters: ReadonlyMap<string, string>

  beforeAll(async () => {
    browser = await openBrowser(chromium!)
    const made = await demoDay('2010-09-30T05:30-05:00')
    const database = await openAt<DayTables & OutboxTables>(':memory:')
    const outbox = outboxStore(database)
    const people = made.farm.people.map((person) => ({
      ...person,
      language: person.role === 'owner' ? ('es' as const) : ('en' as const),
    }))
    const tools = {
      days: dayStore(database),
      outbox,
      addresses: farmFileAddresses,
      links: noLinks,
      paint: await openPainter(),
    }
    await postMorning({ ...made.farm, people }, made, tools, made.day!.nowEpochH)
    const mornings = (await outbox.recent(made.farm.id, 9)).map(({ recipient, body }) => {
      const { html, pictures = [] } = JSON.parse(body) as Letter
      const [picture] = pictures
      return [
        `morning to ${recipient}`,
        html.replace(`cid:${picture!.cid}`, `data:image/png;base64,${picture!.base64}`),
      ] as const
    })
    const evening = renderEvening(eveningOf(made.day!))
    letters = new Map([
      ...mornings,
      ['morning, pictures off', mornings[0]![1].replace(/src="data:[^"]*"/, 'src="https://blocked.invalid/a.png"')],
      ['evening', alertHtml(evening, 'en')],
    ])
  })
  afterAll(async () => {
    await browser?.close()
  })

  it.each(['morning to orla-fenn', 'morning to wim-tallow', 'morning, pictures off', 'evening'])(
    '%s fits and reads, light and dark',
    async (name) => {
      const page = await browser.newPage({ viewport: { width: WIDTH, height: 700 } })
      await page.route('**/blocked.invalid/**', (route) => route.abort())
      await page.setContent(letters.get(name)!)
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        expect(await faultsOf(page)).toEqual([])
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(WIDTH)
        const ground = await page.evaluate('getComputedStyle(document.body).backgroundColor')
        if (name.startsWith('morning'))
          expect(ground).toBe(colorScheme === 'dark' ? 'rgb(29, 27, 23)' : 'rgb(251, 248, 241)')
      }
      // What to do stands before the first scroll, picture or not.
      const headline = await page.getByRole('heading', { level: 1 }).boundingBox()
      expect(headline!.y + headline!.height).toBeLessThan(700)
      await page.close()
    },
  )
})
