/** The pages of a farm in the midst of its harvest, with a map under its fields, in a browser. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '#app/people-port.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'
import { expectSound, type SiteInBrowser, siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import { toldSeason } from '#tests/edges/web/support/told-season.ts'
import { browserOrSkip } from '#tests/support/browser.ts'

const PAGES: readonly (readonly [path: string, role: Role | 'spanish' | undefined])[] = [
  ['/season', undefined],
  ['/season', 'spanish'],
  ['/fields', undefined],
  ['/fields', 'spanish'],
  ['/fields/creek-bottom', undefined],
  ['/fields/creek-bottom', 'spanish'],
  ['/fields/mill-forty', undefined],
  ['/settings', 'planner'],
]
const BASE_MAP = { tileUrl: 'https://tiles.example.org/{z}/{x}/{y}.svg', credit: 'Example Survey', deepestZoom: 17 }
const TILE =
  '<svg xmlns="http://www.w3.org/2000/svg" width="256" height="256"><rect width="256" height="256" fill="#cdb"/></svg>'

const chromium = browserOrSkip()

describe.skipIf(chromium === undefined)('a season in a browser', () => {
  let here: SiteInBrowser
  beforeAll(async () => {
    const { service, records, forecasts } = await toldSeason()
    const made = await service.current()
    const farm = { ...service.farm, baseMap: BASE_MAP }
    const day = made.day && { ...made.day, farm: { ...made.day.farm, baseMap: BASE_MAP } }
    const mapped = { ...service, farm, current: () => Promise.resolve({ ...made, day }) }
    const site = await siteOf(mapped, { forecasts, openReading: true }, undefined, { records })
    here = await siteInBrowser(chromium!, site)
  }, 60_000)
  afterAll(async () => {
    await here?.close()
  })

  for (const [path, role] of PAGES) {
    it(`${path}${role ? ` for ${role}` : ''} complains of nothing, has no serious fault of access and fits any width, light and dark`, async () => {
      await expectSound(here, path, role, (context) =>
        context.route('https://tiles.example.org/**', (route) =>
          route.fulfill({ contentType: 'image/svg+xml', body: TILE }),
        ),
      )
    }, 60_000)
  }

  it('shows the map of the host that the farm chose, and of no other', async () => {
    const context = await here.context()
    const asked: string[] = []
    await context.route(/^https:/, (route) => {
      asked.push(new URL(route.request().url()).host)
      return route.fulfill({ contentType: 'image/svg+xml', body: TILE })
    })
    const page = await context.newPage()
    const refused: string[] = []
    page.on('console', (message) => refused.push(message.text()))
    await page.goto('/fields')
    await expect.poll(() => asked.length).toBeGreaterThan(3)
    expect(new Set(asked)).toEqual(new Set(['tiles.example.org']))
    await page.evaluate(`{
      const image = document.createElementNS('http://www.w3.org/2000/svg', 'image')
      image.setAttribute('href', 'https://elsewhere.example.net/1/2/3.png')
      document.querySelector('svg.map').append(image)
    }`)
    await expect.poll(() => refused.join()).toContain('elsewhere.example.net')
    expect(new Set(asked)).toEqual(new Set(['tiles.example.org']))
    await context.close()
  })

  it('opens a patch by keyboard, with scripts off', async () => {
    const context = await here.context(undefined, { javaScriptEnabled: false })
    const page = await context.newPage()
    await page.goto('/fields/creek-bottom')
    const patch = page.locator('details', { hasText: 'The slump' })
    expect(await patch.locator('table').isVisible()).toBe(false)
    await patch.locator('summary').focus()
    await page.keyboard.press('Enter')
    await patch.locator('table').waitFor()
    await context.close()
  })
})
