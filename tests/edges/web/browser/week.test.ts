/** The planner at the week in a browser. Skipped, loudly, where there is no Chromium; a failure in CI. */
import type { Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { PASSWORD } from '#tests/edges/web/support/people.ts'
import { fewFields, type PlanningSite, planningSite } from '#tests/edges/web/support/planning-site.ts'
import {
  complaintsOf,
  expectReadable,
  type SiteInBrowser,
  siteInBrowser,
} from '#tests/edges/web/support/site-in-browser.ts'
import { browserOrSkip } from '#tests/support/browser.ts'
import { DEMO_NOW } from '#tests/support/demo-day.ts'

const chromium = browserOrSkip()
const PATIENCE_MS = 60_000

describe.skipIf(chromium === undefined)('the planner at the week', { timeout: PATIENCE_MS }, () => {
  const solver = createHighsSolver()
  let demo: PlanningSite
  let here: SiteInBrowser
  let page: Page
  let complaints: string[]
  let laterH = 0
  beforeAll(async () => {
    demo = await planningSite(solver, { farm: fewFields, openReading: true })
    here = await siteInBrowser(chromium!, demo.site)
  }, PATIENCE_MS)
  afterAll(async () => {
    await here?.close()
    await solver.close()
  })

  async function open(role: 'planner' | 'crew' | undefined, options = {}): Promise<void> {
    const context = await here.context(role, options)
    context.setDefaultTimeout(PATIENCE_MS / 2)
    page = await context.newPage()
    complaints = complaintsOf(page)
    await page.goto('/week')
  }
  /** Each test decides a little later than the one before: plans of one moment are one. */
  beforeEach(() => {
    laterH += 0.001
    demo.planning.setClock(DEMO_NOW + laterH)
  })
  afterEach(async () => {
    for (const { key } of (await demo.planning.desk.standing())!.decisions) await demo.planning.desk.undo('pat', key)
    await page?.context().close()
  })

  /** A stream of news that ends because its page was left is no complaint. */
  const complained = () => complaints.filter((line) => !line.endsWith('/api/live failed'))

  const FIELD = 'long-eighty'
  const tagOf = (key = FIELD) => page.locator(`.tag[data-part="${key}"]`)
  const columnOf = async (tag: Locator) => Number(await tag.getAttribute('data-at'))
  const sentence = () => page.getByRole('heading', { level: 1 })
  const heard = () => page.locator('[role=status]').last().textContent()
  const focused = () => page.evaluate('document.activeElement.textContent')
  const pins = async () => (await demo.planning.desk.standing())!.rules.pins.map(({ date }) => date.toString())
  const keepIt = () => page.getByRole('button', { name: 'Keep it' })

  it('signs in, reads today, and finds the same field first in the week', async () => {
    page = await (await here.context()).newPage()
    await page.goto('/sign-in')
    await page.getByLabel('Your name').fill('Pat Planner')
    await page.getByLabel('Password').fill(PASSWORD)
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.goto('/')
    const [, first] = /^Run (.+?),/.exec((await sentence().textContent())!)!
    await page.getByText(`Why ${first} first:`).waitFor()
    await page.getByRole('link', { name: 'Week' }).click()
    expect(await sentence().textContent()).toMatch(new RegExp(`^${first}.* today\\.`))
    expect(await page.locator('.ribbons li strong').first().textContent()).toBe(first)
  })

  it('moves a field by keyboard: looks at the days, leaves it, asks what it costs, keeps it, undoes it', async () => {
    await open('planner')
    const tag = page.getByRole('slider', { name: 'Day of Long Eighty', exact: true })
    const at = await columnOf(tag)
    await tag.focus()
    await page.keyboard.press('ArrowRight')
    expect(await tag.getAttribute('aria-valuenow')).toBe(String(at + 1))
    expect(await tag.getAttribute('aria-valuetext')).toMatch(/^[A-Z][a-z]+day: fit /)
    await page.keyboard.press('Escape')
    expect(await tag.getAttribute('aria-valuenow')).toBe(String(at))
    // Nothing was asked, so nothing has changed.
    expect(await keepIt().count()).toBe(0)

    await page.keyboard.press('Home')
    await page.keyboard.press('Enter')
    await keepIt().waitFor()
    expect(await sentence().textContent()).toMatch(
      /^Long Eighty on Thursday (costs (about \$[\d,]+|nothing)|gains about \$[\d,]+)/,
    )
    expect(await heard()).toBe(await sentence().textContent())
    expect(await focused()).toBe('Keep it')
    expect(await pins()).toEqual([])

    await page.keyboard.press('Enter')
    await page
      .locator('.last', { hasText: /^Pat Planner, Sep 30 5:30: Long Eighty on Thursday\. It (costs|gains)/ })
      .waitFor()
    expect(await pins()).toEqual(['2010-09-30'])
    expect(await heard()).toContain('Long Eighty on Thursday')
    expect(await tagOf().getAttribute('class')).toContain('pinned')
    expect(new URL(page.url()).pathname).toBe('/week')

    await page.getByRole('button', { name: 'Undo: Long Eighty on Thursday' }).first().click()
    await page.locator('.last').waitFor({ state: 'detached' })
    expect(await pins()).toEqual([])
    expect(await columnOf(tagOf())).toBe(at)
    expect(complained()).toEqual([])
  })

  it('moves a field by drag, and back again leaves it as it was', async () => {
    await open('planner')
    const at = await columnOf(tagOf())
    const to = at === 4 ? 5 : 4
    await drag(to)
    await keepIt().waitFor()
    const day = ['Thursday', 'Friday', 'Saturday', 'Sunday', 'Monday', 'Tuesday'][to]
    expect(await sentence().textContent()).toContain(`Long Eighty on ${day}`)
    expect(await columnOf(tagOf())).toBe(to)
    // From where it came is still to be seen.
    expect(await page.locator(`.tag.ghost.d${at}`).count()).toBeGreaterThan(0)
    await page.getByRole('link', { name: 'Leave it' }).click()
    await keepIt().waitFor({ state: 'detached' })
    expect(await columnOf(tagOf())).toBe(at)
    expect(await pins()).toEqual([])
    expect(complained()).toEqual([])
  })

  async function drag(column: number): Promise<void> {
    await tagOf().scrollIntoViewIfNeeded()
    const [from, row] = [(await tagOf().boundingBox())!, (await tagOf().locator('..').boundingBox())!]
    const y = from.y + from.height / 2
    await page.mouse.move(from.x + from.width / 2, y)
    await page.mouse.down()
    await page.mouse.move(row.x + (row.width * (column + 0.5)) / 7, y, { steps: 5 })
    await page.mouse.up()
  }

  it('moves a field by touch on a phone', async () => {
    await open('planner', { viewport: { width: 360, height: 760 }, hasTouch: true, isMobile: true })
    const at = await columnOf(tagOf())
    const to = at === 4 ? 5 : 4
    await tagOf().scrollIntoViewIfNeeded()
    const [from, row] = [(await tagOf().boundingBox())!, (await tagOf().locator('..').boundingBox())!]
    const y = from.y + from.height / 2
    const touch = await page.context().newCDPSession(page)
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', x?: number) =>
      touch.send('Input.dispatchTouchEvent', { type, touchPoints: x === undefined ? [] : [{ x, y }] })
    const [start, end] = [from.x + from.width / 2, row.x + (row.width * (to + 0.5)) / 7]
    await send('touchStart', start)
    for (let step = 1; step <= 5; step++) await send('touchMove', start + ((end - start) * step) / 5)
    await send('touchEnd')
    await keepIt().waitFor()
    expect(await columnOf(tagOf())).toBe(to)
  })

  it('does all of it by plain forms with scripts off', async () => {
    await open('planner', { javaScriptEnabled: false })
    // Without a script the tag leads to the form.
    await tagOf().click()
    const form = page.locator('form', { has: page.locator('input[value="pin"]') })
    expect(await form.getByLabel('Field').inputValue()).toBe(FIELD)
    await form.getByLabel('Day').selectOption('2010-09-30')
    await form.getByRole('button', { name: 'See what it costs' }).click()
    expect(await sentence().textContent()).toContain('Long Eighty on Thursday')
    expect(await pins()).toEqual([])
    await keepIt().click()
    await page.getByText(/^Pat Planner, .*: Long Eighty on Thursday\./).waitFor()
    expect(await pins()).toEqual(['2010-09-30'])
    await page.getByRole('button', { name: 'Free Long Eighty' }).click()
    expect(await sentence().textContent()).toMatch(/^Long Eighty without a pin (gains|costs)/)
    await page.getByRole('link', { name: 'Leave it' }).click()
    await page.getByRole('button', { name: 'Undo: Long Eighty on Thursday' }).first().click()
    expect(await pins()).toEqual([])
  })

  it('keeps a field off, and sees the days crossed out', async () => {
    await open('planner')
    await page.getByText('Keep a field off').click()
    const form = page.locator('form', { has: page.locator('input[value="keep-off"]') })
    await form.getByLabel('Field').selectOption(FIELD)
    await form.getByLabel('From').selectOption('2010-10-01')
    await form.getByLabel('To').selectOption('2010-10-02')
    await form.getByRole('button').click()
    await keepIt().click()
    await page
      .getByText(/Long Eighty kept off from Friday to Saturday\./)
      .first()
      .waitFor()
    const cells = tagOf().locator('..').locator('.cell.off')
    expect(await cells.count()).toBe(2)
    expect(['1', '2']).not.toContain(await tagOf().getAttribute('data-at'))
  })

  it('tries other hours, days off and one more cart, and asks what one more would be worth', async () => {
    await open('planner')
    const crew = page.locator('details', { hasText: 'Crew and machines: Main outfit' })
    await page.getByText('Crew and machines: Main outfit').click()
    await crew.getByLabel('Ends').fill('23:00')
    await crew.getByLabel('Ends').locator('xpath=ancestor::form').getByRole('button').click()
    await keepIt().waitFor()
    expect(await sentence().textContent()).toMatch(/^Main outfit from \d+:\d\d to 23:00 /)
    await page.getByRole('link', { name: 'Leave it' }).click()
    await page.getByText('Crew and machines: Main outfit').click()
    await crew.getByRole('checkbox', { name: 'Monday' }).check()
    await crew.getByRole('checkbox', { name: 'Monday' }).locator('xpath=ancestor::form').getByRole('button').click()
    await keepIt().waitFor()
    expect(await sentence().textContent()).toMatch(/^Main outfit off on Monday( and Sunday)? /)
    await page.getByRole('link', { name: 'Leave it' }).click()
    await page.getByText('Crew and machines: Main outfit').click()
    await page.getByRole('button', { name: 'Try one more cart' }).click()
    await keepIt().waitFor()
    expect(await sentence().textContent()).toMatch(/^one more cart for Main outfit /i)
    await page.getByRole('link', { name: 'Leave it' }).click()
    await page.getByRole('link', { name: /^Reckon what one more/ }).click()
    await page.getByText(/^One more cart for Main outfit: (about \$|worth nothing)/).waitFor()
    expect(complained()).toEqual([])
  })

  it('adds an outfit and takes it back again', async () => {
    await open('planner')
    await page.getByText('Add an outfit').click()
    const form = page.locator('details', { hasText: 'Add an outfit' })
    await form.getByLabel('Name').fill('Hired crew')
    await form.getByRole('group', { name: 'Combines' }).getByLabel('How many').fill('2')
    await form.getByLabel('Tank (bu)').fill('410')
    await form.getByRole('button', { name: 'See what it costs' }).click()
    await keepIt().waitFor()
    expect(await sentence().textContent()).toMatch(/^Hired crew as one more outfit /)
    await keepIt().click()
    await page.getByText('Crew and machines: Hired crew').waitFor()
    // Another one may start with what this one has: the form is open, and in sight.
    await page.getByText('Add an outfit').click()
    await page.getByRole('link', { name: 'Start with those of Hired crew' }).click()
    await page.getByRole('link', { name: 'Start with those of Main outfit' }).waitFor()
    expect(await form.getByLabel('Tank (bu)').inputValue()).toBe('410')
    expect(await page.evaluate('window.scrollY')).toBeGreaterThan(500)
    await page.getByRole('button', { name: 'Undo: Hired crew as one more outfit' }).first().click()
    await page.getByText('Crew and machines: Hired crew').waitFor({ state: 'detached' })
    expect(complained()).toEqual([])
  })

  it('takes an outfit with machines of its own on a phone with scripts off', async () => {
    await open('planner', { javaScriptEnabled: false, viewport: { width: 390, height: 800 }, isMobile: true })
    await page.getByText('Add an outfit').click()
    const form = page.locator('details', { hasText: 'Add an outfit' })
    const group = (name: string) => form.getByRole('group', { name })
    expect(await group('Carts').getByLabel('Holds (bu)').inputValue()).toBe('850')
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390)
    await form.getByLabel('Name').fill('Hired crew')
    await group('Carts').getByLabel('How many').fill('0')
    await group('Trucks').getByLabel('How many').fill('3')
    await group('Trucks').getByLabel('Holds (bu)').fill('900')
    await group('Trucks').getByLabel('On the road (mph)').fill('45')
    await form.getByRole('button', { name: 'See what it costs' }).click()
    await keepIt().click()
    const { farm } = (await demo.planning.desk.standing())!
    const { carts, trucks } = farm.outfits.at(-1)!
    // A bushel is 35.239 07 L (NIST Handbook 44, appendix C), a mile an hour 0.447 04 m/s.
    const truck = {
      name: 'Hired crew',
      capacityL: expect.closeTo(31_715.163, 2),
      roadSpeedMs: expect.closeTo(20.1168, 6),
    }
    expect([carts, trucks]).toEqual([[], [truck, truck, truck]])
  })

  for (const javaScriptEnabled of [true, false]) {
    it(`brings a refused form back as it was typed, on a phone with scripts ${javaScriptEnabled ? 'on' : 'off'}`, async () => {
      await open('planner', { javaScriptEnabled, viewport: { width: 390, height: 800 }, isMobile: true })
      await page.getByText('Add an outfit').click()
      const form = page.locator('details', { hasText: 'Add an outfit' })
      await form.getByLabel('Name').fill('Hired crew')
      await form.getByLabel('Tank (bu)').fill('5700')
      await form.getByLabel('Field efficiency (%)').fill('68,5')
      await form.getByRole('checkbox', { name: 'Wednesday' }).check()
      await form.getByLabel('Ends').fill('21:40')
      await form.getByRole('button', { name: 'See what it costs' }).click()
      await page.getByRole('alert').waitFor()
      const tank = form.getByLabel('Tank (bu)')
      expect(await page.evaluate('document.activeElement.name')).toBe('tank')
      expect(await tank.evaluate((input) => input.getBoundingClientRect().top)).toBeLessThan(800)
      expect(await tank.getAttribute('aria-invalid')).toBe('true')
      const why = page.locator(`#${await tank.getAttribute('aria-describedby')}`)
      expect(await why.textContent()).toBe('Write a number above 0, at most 5,675.5.')
      expect(await why.isVisible()).toBe(true)
      expect(await form.getByLabel('Name').inputValue()).toBe('Hired crew')
      expect(await tank.inputValue()).toBe('5700')
      expect(await form.getByLabel('Field efficiency (%)').inputValue()).toBe('68,5')
      expect(await form.getByRole('checkbox', { name: 'Wednesday' }).isChecked()).toBe(true)
      expect(await form.getByLabel('Ends').inputValue()).toBe('21:40')
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390)
      if (javaScriptEnabled) {
        expect(await heard()).toContain('at most 5,675.5')
        await expectReadable(page)
      }
      await tank.fill('410')
      await form.getByRole('button', { name: 'See what it costs' }).click()
      await keepIt().waitFor()
      expect(await sentence().textContent()).toMatch(/^Hired crew as one more outfit /)
    })
  }

  it('gives up what was asked before when a newer question comes', async () => {
    await open('planner')
    await page.evaluate(`{
      const tag = document.querySelector('.tag[data-part="${FIELD}"]')
      for (const key of ['Home', 'Enter', 'End', 'Enter']) tag.dispatchEvent(new KeyboardEvent('keydown', { key }))
    }`)
    await keepIt().waitFor()
    // 2010-10-06 was a Wednesday.
    expect(await sentence().textContent()).toMatch(/^Long Eighty on Wednesday /)
    expect(complained()).toEqual([`${here.origin}/week/try failed`])
    expect(await pins()).toEqual([])
    // The service is well after it.
    await page.getByRole('link', { name: 'Leave it' }).click()
    await keepIt().waitFor({ state: 'detached' })
  })

  it('says when no answer comes, and leaves the tag where it was', async () => {
    await open('planner')
    const at = await columnOf(tagOf())
    await page.context().setOffline(true)
    await tagOf().focus()
    await page.keyboard.press(at === 0 ? 'End' : 'Home')
    await page.keyboard.press('Enter')
    await page.getByText('No answer came; nothing was changed.').waitFor({ state: 'attached' })
    expect(await tagOf().getAttribute('aria-valuenow')).toBe(String(at))
    expect(await page.locator('main').getAttribute('aria-busy')).toBeNull()
  })

  it('is not for the crew: invited by the owner, a crew member reads the plan and can not change it', async () => {
    const owner = await (await here.context('owner')).newPage()
    await owner.goto('/people')
    await owner.getByRole('button', { name: 'Make a link' }).click()
    const link = new URL((await owner.locator('code').textContent())!)
    await owner.context().close()
    page = await (await here.context()).newPage()
    await page.goto(link.pathname)
    await page.getByLabel('Your name').fill(`Kit ${laterH.toFixed(3)}`)
    await page.getByLabel('Password').fill(PASSWORD)
    await page.getByRole('button', { name: 'Join' }).click()
    await page.goto('/week')
    expect(await sentence().textContent()).toMatch(/ today\./)
    expect(await page.locator('.tag').count()).toBeGreaterThan(3)
    expect(await page.locator('a.tag, main form, [role=slider]').count()).toBe(0)
    const status = await page.evaluate(
      `fetch('/week/try', { method: 'POST', body: new URLSearchParams({ kind: 'pin', part: '${FIELD}', date: '2010-09-30' }) }).then(({ status }) => status)`,
    )
    expect(status).toBe(403)
    expect(await pins()).toEqual([])
  })

  it('speaks Spanish to who chose it, answers to a tried change too', async () => {
    const { invite, join } = await import('#app/people.ts')
    const { people } = demo.site
    const owner = (await people.store.accounts(people.farm.id)).find(({ role }) => role === 'owner')!
    const joined = await join(people, await invite(people, 'planner', 'es', owner), 'Pilar', PASSWORD)
    if (joined.kind === 'refused') throw new Error(joined.fault)
    const context = await here.context()
    await context.addCookies([{ name: 'threshday_session', value: joined.session, url: here.origin }])
    page = await context.newPage()
    await page.goto('/week')
    expect(await sentence().textContent()).toMatch(/^Hoy .+\. El (viernes|sábado|lunes), /)
    await page.getByRole('slider', { name: 'Día de Long Eighty', exact: true }).focus()
    await page.keyboard.press('Home')
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'Que quede así' }).waitFor()
    expect(await sentence().textContent()).toMatch(/^Long Eighty el jueves: (cuesta|gana|no cuesta)/)
    const text = await page.locator('main').textContent()
    for (const english of [/\bcosts\b/, /\bKeep\b/, /\bThursday\b/, /\bfit\b/]) expect(text).not.toMatch(english)
  })

  for (const role of ['planner', undefined] as const) {
    it(`has no serious fault of access and fits any width, light and dark, for ${role ?? 'who only looks'}`, async () => {
      await open(role)
      await expectReadable(page)
      if (role) {
        await page.getByText('Crew and machines: Main outfit').click()
        await page.getByText('Add an outfit').click()
        await expectReadable(page)
        await tagOf().focus()
        await page.keyboard.press('Home')
        await page.keyboard.press('Enter')
        await keepIt().waitFor()
        await expectReadable(page)
      }
      await page.goto('/plans')
      await expectReadable(page)
      expect(complained()).toEqual([])
    })
  }

  it('prints the ribbons and the plan, and none of the forms', async () => {
    await open('planner')
    await page.emulateMedia({ media: 'print' })
    expect(await page.locator('.ribbons').isVisible()).toBe(true)
    expect(await tagOf().isVisible()).toBe(true)
    for (const form of await page.locator('main form').all()) expect(await form.isVisible()).toBe(false)
  })

  it('has less than 10 KB of script', async () => {
    const text = await (await demo.site.as('planner', '/week')).text()
    const scripts = [...text.matchAll(/<script src="([^"]+)"/g)].map(([, path]) => path!)
    let bytes = 0
    for (const path of scripts) bytes += (await (await demo.site.app.request(path)).arrayBuffer()).byteLength
    expect(scripts.length).toBeGreaterThan(0)
    expect(bytes).toBeLessThan(10 * 1024)
  })
})
