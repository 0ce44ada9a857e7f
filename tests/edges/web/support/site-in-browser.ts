/** The demo behind a real socket, with a browser on it: signed in as whom a test asks for. */
import type { AxeResults } from 'axe-core'
import axe from 'axe-core'
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import { expect } from 'vitest'
import type { Role } from '#app/people-port.ts'
import { openBrowser } from '#tests/support/browser.ts'
import { demoService } from './demo-service.ts'
import { type Listening, listenApp } from './listen.ts'
import { type Site, siteOf } from './people.ts'

export interface SiteInBrowser {
  readonly site: Site
  readonly origin: string
  readonly browser: Browser
  /** A fresh context, signed in as the role if one is given. */
  context(role?: Role | 'spanish', options?: BrowserContextOptions): Promise<BrowserContext>
  close(): Promise<void>
}

/** @param given the demo unless told. */
export async function siteInBrowser(executablePath: string, given?: Site): Promise<SiteInBrowser> {
  const site = given ?? (await siteOf(await demoService(), { openReading: true }))
  await postSome(site)
  const [listening, browser] = await Promise.all([listenApp(site.app), openBrowser(executablePath)])
  return {
    site,
    origin: listening.origin,
    browser,
    context: async (role, options = {}) => {
      const context = await browser.newContext({ baseURL: listening.origin, ...options })
      if (role) {
        const [name, value] = site.cookies[role].split('=')
        await context.addCookies([{ name: name!, value: value!, url: listening.origin }])
      }
      return context
    },
    close: () => closeBoth(browser, listening),
  }
}

/** A morning message that is waiting and one that came too late, so that the page of messages has something to show. */
async function postSome({ outbox, people }: Site): Promise<void> {
  const now = people.clock()
  const base = {
    farmId: people.farm.id,
    kind: 'morning',
    subject: '',
    channel: 'mail',
    body: '{}',
    urgent: false,
  } as const
  const parcels = people.farm.people.flatMap(({ id, email }, index) =>
    email === undefined
      ? []
      : [
          {
            ...base,
            date: '2010-09-29',
            recipient: id,
            target: email,
            createdEpochH: now - 24,
            closesEpochH: index === 0 ? now - 12 : now + 6,
          },
        ],
  )
  await outbox.post(parcels)
  await outbox.lapse(now)
}

async function closeBoth(browser: Browser, listening: Listening): Promise<void> {
  await browser.close()
  await listening.close()
}

/** What a page complains of: errors on its console, requests that failed or were refused by its policy. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(String(error)))
  page.on('requestfailed', (request) => {
    // Whoever leaves a page ends its stream of events.
    const isLeft = request.url().endsWith('/api/live') && request.failure()?.errorText === 'net::ERR_ABORTED'
    if (!isLeft) complaints.push(`${request.url()} failed`)
  })
  return complaints
}

/** A page has no serious fault of access and fits any width, light and dark. */
export async function expectReadable(page: Page): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    expect(await seriousFaults(page)).toEqual([])
  }
  for (const width of [320, 2560]) {
    await page.setViewportSize({ width, height: 800 })
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width)
  }
}

/** Opens a page: it can be read and complains of nothing. @param prepare before it is opened. */
export async function expectSound(
  here: SiteInBrowser,
  path: string,
  role: Role | 'spanish' | undefined,
  prepare?: (context: BrowserContext) => Promise<unknown>,
): Promise<void> {
  const context = await here.context(role)
  await prepare?.(context)
  const page = await context.newPage()
  const complaints = complaintsOf(page)
  await page.goto(path)
  await expectReadable(page)
  expect(complaints).toEqual([])
  await context.close()
}

/** Faults of rank serious or critical that axe-core finds, each with the first place where it is. */
export async function seriousFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe.source)
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  )
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} (${nodes.length}, first ${nodes[0]?.html})`)
}
