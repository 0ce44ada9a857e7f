import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { invite, join } from '#app/people.ts'
import type { Role } from '#app/people-port.ts'
import { partsOf } from '#core/field/parts.ts'
import type { Farm } from '#core/operation/farm.ts'
import { likeliest } from '#core/planning/optimiser/changes.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { PASSWORD } from '#tests/edges/web/support/people.ts'
import { fewFields, type PlanningSite, planningSite } from '#tests/edges/web/support/planning-site.ts'
import { DEMO_NOW } from '#tests/support/demo-day.ts'
import { demoSeason } from '#tests/support/demo-planning.ts'

const solver = createHighsSolver()
afterAll(() => solver.close())

let here: PlanningSite
beforeAll(async () => {
  here = await planningSite(solver)
}, 60_000)

const get = async (path: string, role: Role | 'spanish' = 'planner') =>
  await (await here.site.as(role, path, { headers: { accept: 'text/html' } })).text()
const post = (path: string, form: Record<string, string>, role: Role = 'planner') =>
  here.site.as(role, path, {
    method: 'POST',
    body: new URLSearchParams(form),
    headers: { 'sec-fetch-site': 'same-origin', accept: 'text/html' },
  })
const standing = async () => (await here.planning.desk.standing())!
const FIELDS_WITH_CORN: ReadonlySet<string> = new Set(['mill-forty', 'lone-oak'])
const TODAY = '2010-09-30'
const PIN = { kind: 'pin', part: 'long-eighty', date: TODAY }
const headline = (page: string) => /<h1[^>]*>([^<]*)<\/h1>/.exec(page)![1]!
const keyIn = (page: string) => /name="key" value="([^"]+)"/.exec(page)![1]!

describe('the week with its plan', () => {
  it('has a tag for each field on its likeliest day, and a cell for each of seven days', async () => {
    const { week, view } = await standing()
    const page = await get('/week')
    expect(page.match(/class="cell d/g)).toHaveLength(7 * view.parts.length)
    for (const { partKey } of view.parts) {
      const date = likeliest(week, partKey)?.date
      const days = date ? week.day.date.until(date).days : 7
      const tag = new RegExp(`class="tag d(\\d)[^>]*data-part="${partKey}" data-at="(\\d)"`).exec(page)!
      expect([tag[1], tag[2]]).toEqual([String(Math.min(7, days)), String(Math.min(7, days))])
    }
    expect(page).not.toMatch(/NaN|undefined|style=|<script>| on\w+="/)
    for (const { partKey } of week.visits) {
      const part = here.planning.farm.fields.flatMap(partsOf).find(({ key }) => key === partKey)!
      expect(headline(page)).toContain(part.field.name)
    }
  })

  it('is the same for the crew, without anything to change it by', async () => {
    const page = await get('/week', 'crew')
    expect(page).toContain('class="tag')
    expect(page).not.toMatch(/<form|week\.[0-9a-f]+\.js|<a class="tag/)
    expect(headline(page)).toBe(headline(await get('/week')))
  })

  it('chooses the field that is asked for, and only one that there is', async () => {
    expect(await get('/week?part=far-half')).toContain('<option value="far-half" selected>')
    expect(await get('/week?part=%3Cb%3E')).not.toMatch(/ selected|<b>/)
  })

  it('tries a change and keeps nothing; keeps it once, however often it is sent; undoes it', async () => {
    const tried = await (await post('/week/try', PIN)).text()
    expect(headline(tried)).toMatch(/^Long Eighty on Thursday /)
    expect((await standing()).decisions).toEqual([])
    here.planning.setClock(DEMO_NOW + 0.01)
    const key = keyIn(tried)
    for (let times = 0; times < 2; times++) {
      const kept = await post('/week/keep', { ...PIN, key })
      expect([kept.status, kept.headers.get('location')]).toEqual([303, '/week'])
    }
    expect((await standing()).decisions.map((decision) => [decision.key, decision.by])).toEqual([[key, 'pat-planner']])
    const page = await get('/week')
    expect(page).toMatch(/Pat Planner, Sep 30 5:30: Long Eighty on Thursday\. It (costs|gains)/)
    expect(page).toMatch(/class="tag d0 pinned"[^>]*data-part="long-eighty"/)
    const cost = Math.round(await here.planning.desk.costOfPins()).toLocaleString('en-US')
    expect(page.includes(`The pins cost about $${cost} against a plan without them.`)).toBe(cost !== '0')
    here.planning.setClock(DEMO_NOW + 0.02)
    expect((await post('/week/undo', { key })).status).toBe(303)
    expect((await standing()).decisions).toEqual([])
  })

  it('says of a pin that can not be kept that it can not, and why', async () => {
    // 2010-10-03 was a Sunday: the crew is off.
    const page = await (await post('/week/try', { ...PIN, date: '2010-10-03' })).text()
    expect(headline(page)).toBe('Long Eighty on Sunday can’t be kept.')
    expect(page).toContain('The crew is off that day.')
  })

  it('answers what does not hold up on the page, with the reason', async () => {
    for (const [form, piece] of [
      [{ ...PIN, part: 'nowhere' }, 'No field is called'],
      [{ ...PIN, date: '2010-09-01' }, '2010-09-01 has passed'],
      [{ ...PIN, part: 'home-place' }, 'Nothing of Home Place stands any more'],
      [{ kind: 'hours', outfit: 'main-outfit', start: '20:00', end: '08:00' }, 'A crew starts before it ends'],
    ] as const) {
      for (const path of ['/week/try', '/week/keep']) {
        const answer = await post(path, { ...form, key: `k ${piece}` })
        expect(answer.status).toBe(422)
        expect(await answer.text()).toMatch(new RegExp(`role="alert"[^>]*>[^<]*${piece}`))
      }
    }
    expect((await post('/week/keep', PIN)).status).toBe(422)
    expect((await post('/week/try', { kind: 'sell' })).status).toBe(422)
    expect((await post('/week/undo', {})).status).toBe(422)
    expect((await post('/week/undo', { key: 'never' })).status).toBe(422)
    expect((await standing()).decisions).toEqual([])
  })

  it('tells a planner who reads Spanish in Spanish why something was not taken', async () => {
    const { people, app } = here.site
    const owner = (await people.store.accounts(people.farm.id)).find(({ role }) => role === 'owner')!
    const joined = await join(people, await invite(people, 'planner', 'es', owner), 'Pilar Surco', PASSWORD)
    if (joined.kind === 'refused') throw new Error(joined.fault)
    const answer = await app.request('/week/try', {
      method: 'POST',
      body: new URLSearchParams({ ...PIN, date: '2010-09-01' }),
      headers: { 'sec-fetch-site': 'same-origin', accept: 'text/html', cookie: `threshday_session=${joined.session}` },
    })
    expect(answer.status).toBe(422)
    expect(await answer.text()).toMatch(/role="alert"[^>]*>El 1 sept ya pasó\./)
  })

  it('escapes the names of the farm wherever it says them', async () => {
    const hostile = await planningSite(solver, {
      farm: (farm) => ({
        ...fewFields(farm),
        fields: fewFields(farm).fields.map((field) => ({ ...field, name: `<i>${field.id}"'` })),
        outfits: farm.outfits.map((outfit) => ({ ...outfit, name: '<i>crew"' })),
      }),
    })
    const form = new URLSearchParams(PIN)
    const headers = { 'sec-fetch-site': 'same-origin', accept: 'text/html' }
    const tried = await hostile.site.as('planner', '/week/try', { method: 'POST', body: form, headers })
    for (const page of [await (await hostile.site.as('planner', '/week')).text(), await tried.text()]) {
      expect(page).not.toContain('<i>')
      expect(page).toContain('&lt;i&gt;')
    }
  })

  it('without weather has no plan, and says so', async () => {
    const blind = await planningSite(undefined, { noWeather: true })
    expect(await (await blind.site.as('planner', '/week')).text()).toContain('No usable weather.')
    const headers = { 'sec-fetch-site': 'same-origin', accept: 'text/html' }
    const body = new URLSearchParams(PIN)
    expect((await blind.site.as('planner', '/week/try', { method: 'POST', body, headers })).status).toBe(503)
    expect(await (await blind.site.as('planner', '/plans')).text()).toContain('No plan was published yet.')
  })
})

describe('the plans published', () => {
  it('are told newest first, each with who or what changed it', async () => {
    const page = await get('/plans')
    const reasons = [...page.matchAll(/<h2>Sep 30 5:3\d · ([^<]*)<\/h2>/g)].map(([, reason]) => reason)
    expect(reasons).toEqual([
      'Pat Planner: Long Eighty on Thursday, taken back',
      'Pat Planner: Long Eighty on Thursday',
      'the first plan',
    ])
    const spanish = await get('/plans', 'spanish')
    expect(spanish).toContain('Pat Planner: Long Eighty el jueves')
    expect(spanish).not.toMatch(/the first plan|costs/)
  })

  it('lead on to older ones, each shown once', async () => {
    const { planning } = here
    const last = (await planning.plans.last(planning.farm.id))!
    for (let n = 1; n <= 25; n++) {
      const plan = { ...last, publishedAtEpochH: DEMO_NOW + n, reason: { kind: 'new-weather' } as const }
      await planning.plans.keep(planning.farm.id, plan)
    }
    const first = await get('/plans')
    const older = /href="(\/plans\?before=[^"]+)"/.exec(first)![1]!
    const second = await get(older)
    const count = (page: string) => page.match(/<h2>/g)?.length
    expect([count(first), count(second)]).toEqual([20, 8])
    expect(second).not.toContain('/plans?before=')
    const titles = [first, second].flatMap((page) => [...page.matchAll(/<h2>([^<]*)/g)].map(([, title]) => title))
    expect(new Set(titles).size).toBe(28)
  })
})

describe('the days behind the week', () => {
  const withCorn = (farm: Farm) => ({ ...farm, fields: farm.fields.filter(({ id }) => FIELDS_WITH_CORN.has(id)) })

  it('are told from past years, with what they rest on, in the page and to programs', async () => {
    const { site } = await planningSite(solver, { farm: withCorn, seasonOf: demoSeason })
    const read = async (path: string, accept: string) =>
      await (await site.as('planner', path, { headers: { accept } })).text()
    const page = await read('/week', 'text/html')
    expect(page).toMatch(/that some stands after these days: likely fit about \w+, \w+ \d+ \(/)
    expect(page).toContain('by the weather of 14 past years at the place')
    const plan = JSON.parse(await read('/api/plan', 'application/json'))
    expect(plan.season).toMatchObject({ years: 14, few: false })
    const corn = plan.parts.find(({ partKey }: { partKey: string }) => partKey === 'lone-oak')
    expect(corn.tail.middle > plan.to).toBe(true)
    const spanish = await (await site.as('spanish', '/week', { headers: { accept: 'text/html' } })).text()
    expect(spanish).toContain('14 años pasados')
  })

  it('are not guessed at where no past year is known', async () => {
    expect(await get('/week')).not.toContain('past years')
  })
})

describe('the forms of the week', () => {
  beforeAll(async () => {
    here = await planningSite(solver)
  }, 60_000)

  const hiddenIn = (page: string): Record<string, string> =>
    Object.fromEntries(
      [...page.matchAll(/<input type="hidden" name="([^"]+)" value="([^"]*)">/g)].map(([, name, value]) => [
        name!,
        value!.replaceAll('&quot;', '"'),
      ]),
    )

  it('pins only so much of a field, says so, and refuses more than stands there', async () => {
    const page = await get('/week')
    expect(page).toContain('Only so many acres')
    const tried = await (await post('/week/try', { ...PIN, area: '20' })).text()
    expect(headline(tried)).toMatch(/^20 acres of Long Eighty on Thursday /)
    here.planning.setClock(DEMO_NOW + 0.03)
    const hidden = hiddenIn(tried)
    expect((await post('/week/keep', hidden)).status).toBe(303)
    // An acre is 0.404 685 642 24 ha (NIST SP 811, B.8).
    const { rules } = await standing()
    expect(rules.pins).toEqual([expect.objectContaining({ areaHa: expect.closeTo(8.0937128448, 9) })])
    expect(await get('/week')).toContain('<li>20 acres of Long Eighty on Thursday')
    here.planning.setClock(DEMO_NOW + 0.04)
    expect((await post('/week/undo', { key: hidden.key! })).status).toBe(303)
    const tooMuch = await post('/week/try', { ...PIN, area: '4000' })
    expect(tooMuch.status).toBe(422)
    expect(await tooMuch.text()).toMatch(/role="alert"[^>]*>4000 acres is more than/)
  })

  it('takes an outfit more by a plain form, tries it, keeps it, and lets it go again', async () => {
    const page = await get('/week')
    const form = /<form[^>]*><input type="hidden" name="kind" value="add-outfit">.*?<\/form>/s.exec(page)![0]
    const typed = Object.fromEntries(
      [...form.matchAll(/name="([^"]+)"[^>]*? value="([^"]*)"/g)].map(([, name, value]) => [name!, value!]),
    )
    // As the demo's farm file has its only outfit: its first combine, its last cart and truck.
    expect(typed).toMatchObject({ tank: '350', unload: '3.3', width: '35', speed: '4', efficiency: '70' })
    expect(typed).toMatchObject({ cartSize: '850', cartUnload: '6', truckSize: '450', roadSpeed: '34' })
    expect(page).not.toContain('/week?like=')
    const tried = await post('/week/try', { ...typed, name: 'Hired crew', tank: '410', carts: '0' })
    expect(tried.status).toBe(200)
    const shown = await tried.text()
    expect(headline(shown)).toMatch(/^Hired crew as one more outfit /)
    here.planning.setClock(DEMO_NOW + 0.05)
    const hidden = hiddenIn(shown)
    expect((await post('/week/keep', hidden)).status).toBe(303)
    expect((await standing()).farm.outfits.map(({ id }) => id)).toEqual(['main-outfit', 'hired-crew'])
    const more = await get('/week')
    expect(more).toContain('Crew and machines: Hired crew')
    expect(more).toMatch(/name="tank" value="350"/)
    // Or as the other one has it; it has no cart, so that is as the first.
    const like = await get(/href="([^"#]*like=hired-crew)/.exec(more)![1]!.replaceAll('&amp;', '&'))
    expect(like).toMatch(/<details[^>]* open><summary>Add an outfit/)
    expect(like).toMatch(/name="tank" value="410"/)
    expect(like).toMatch(/name="cartSize" value="850"/)
    expect(await get('/week?like=%3Cb%3E')).toMatch(/name="tank" value="350"/)
    const again = await post('/week/try', { ...typed, name: 'Hired crew' })
    expect(again.status).toBe(422)
    expect(await again.text()).toMatch(/role="alert"[^>]*>There is an outfit called/)
    here.planning.setClock(DEMO_NOW + 0.06)
    expect((await post('/week/undo', { key: hidden.key! })).status).toBe(303)
  })
})
