import ical from 'ical.js'
import { describe, expect, it } from 'vitest'
import { keepCalendar } from '#app/calendar.ts'
import type { LinkDeed } from '#app/links.ts'
import { renderText } from '#core/messages/render-text.ts'
import { renderShort } from '#core/messages/short.ts'
import { linkRoutes } from '#edges/delivery/link-routes.ts'
import { newLinkKey, sealedLinks } from '#edges/delivery/links.ts'
import { type AlertTables, alertStore } from '#edges/storage/alert-store.ts'
import { type CalendarTables, calendarStore } from '#edges/storage/calendar-store.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { type SubscriptionTables, subscriptions } from '#edges/storage/subscriptions.ts'
import { demoDay } from '#tests/app/support/demo.ts'

const made = await demoDay('2010-09-30T05:30-05:00')
const { farm, day } = made

async function setUp() {
  const database = openDatabase<AlertTables & CalendarTables & SubscriptionTables>(':memory:')
  await migrate(database)
  const links = sealedLinks(newLinkKey(), 'https://farm.example')
  const [alerts, book, calendar] = [alertStore(database), subscriptions(database), calendarStore(database)]
  const app = linkRoutes({
    farm,
    links,
    subscriptions: book,
    alerts,
    calendar,
    current: async () => made,
    clock: () => 100,
  })
  const pathOf = (deed: LinkDeed) => new URL(links.to(deed)!).pathname
  return { app, alerts, book, calendar, pathOf }
}

const acknowledge = { deed: 'acknowledge', farmId: farm.id, personId: 'chayo-lindero', alert: 'fire-stop//3' } as const
const unsubscribe = { deed: 'unsubscribe', farmId: farm.id, personId: 'orla-fenn' } as const

it('there are these routes and no others outside the table of roles, and a wrong link opens none of them', async () => {
  const { app } = await setUp()
  const routes = app.routes.filter(({ method }) => method !== 'ALL').map(({ method, path }) => `${method} ${path}`)
  expect([...new Set(routes)].toSorted()).toEqual([
    'GET /calendar/:file',
    'GET /do/:token',
    'GET /text/:file',
    'POST /do/:token',
  ])
  for (const route of routes) {
    const [method, path] = route.split(' ')
    for (const wrong of ['x', 'x.ics', `${'A'.repeat(120)}.txt`, '..%2F..%2Fetc']) {
      const { status } = await app.request(path!.replace(/:\w+/, wrong), { method: method! })
      expect([route, status]).toEqual([route, 404])
    }
  }
})

describe('a link in a message', () => {
  it('asks on GET and does nothing: programs that scan mail follow every link', async () => {
    const { app, alerts, book, pathOf } = await setUp()
    for (const deed of [acknowledge, unsubscribe]) {
      const response = await app.request(pathOf(deed))
      expect(response.status).toBe(200)
      expect(await response.text()).toContain('<form method="post">')
      expect(response.headers.get('cache-control')).toBe('no-store')
      expect(response.headers.get('referrer-policy')).toBe('no-referrer')
    }
    expect(await alerts.isAcknowledged(farm.id, acknowledge.alert)).toBe(false)
    expect(await book.addressesOf(farm, farm.people[0]!, 'morning')).toHaveLength(1)
  })

  it('acknowledges a fire stop on POST, in the language of the reader', async () => {
    const { app, alerts, pathOf } = await setUp()
    const response = await app.request(pathOf(acknowledge), { method: 'POST' })
    expect(await response.text()).toContain('usted leyó el alto por fuego')
    expect(await alerts.isAcknowledged(farm.id, acknowledge.alert)).toBe(true)
  })

  it('ends the morning mail with the one click of RFC 8058, without cookie or redirect', async () => {
    const { app, book, pathOf } = await setUp()
    const response = await app.request(pathOf(unsubscribe), {
      method: 'POST',
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      body: 'List-Unsubscribe=One-Click',
    })
    expect(response.status).toBe(200)
    expect(response.headers.get('set-cookie')).toBeNull()
    expect(await book.addressesOf(farm, farm.people[0]!, 'morning')).toEqual([])
  })

  it('that is not ours does nothing', async () => {
    const { app, pathOf } = await setUp()
    const path = pathOf(unsubscribe)
    for (const wrong of [`${path}x`, path.slice(0, -2), '/do/abc', '/do/a.b.c', '/calendar/abc.ics']) {
      expect((await app.request(wrong)).status).toBe(404)
      if (wrong.startsWith('/do')) expect((await app.request(wrong, { method: 'POST' })).status).toBe(404)
    }
  })
})

describe('a link of a person’s own', () => {
  const personId = 'wim-tallow'
  it('ends when it is renewed: gone, where one that was never ours is not found', async () => {
    const { app, book, pathOf } = await setUp()
    for (const deed of ['calendar', 'text'] as const) {
      const nth = await book.linksNth(farm.id, personId)
      const old = pathOf({ deed, farmId: farm.id, personId, nth })
      expect((await app.request(old)).status).toBe(200)
      await book.renewLinks(farm.id, personId)
      expect((await app.request(old)).status).toBe(410)
      expect((await app.request(pathOf({ deed, farmId: farm.id, personId, nth: nth + 1 }))).status).toBe(200)
      expect((await app.request(old.replace(/[^/]{4}(\.\w+)$/, 'AAAA$1'))).status).toBe(404)
    }
  })

  it('made before any was renewed goes on until then', async () => {
    const { app, book, pathOf } = await setUp()
    const old = pathOf({ deed: 'calendar', farmId: farm.id, personId })
    expect((await app.request(old)).status).toBe(200)
    await book.renewLinks(farm.id, personId)
    expect((await app.request(old)).status).toBe(410)
  })

  it('is for what it was made for alone, and ends with the person', async () => {
    const { app, pathOf } = await setUp()
    const calendar = pathOf({ deed: 'calendar', farmId: farm.id, personId, nth: 0 })
    expect((await app.request(calendar.replace('/calendar/', '/text/').replace('.ics', '.txt'))).status).toBe(404)
    expect((await app.request(calendar.replace('/calendar/', '/do/').replace('.ics', ''))).status).toBe(404)
    expect((await app.request(pathOf({ deed: 'text', farmId: farm.id, personId: 'left', nth: 0 }))).status).toBe(410)
    expect((await app.request(pathOf({ deed: 'text', farmId: 'elsewhere', personId, nth: 0 }))).status).toBe(404)
  })
})

describe('today as plain text', () => {
  it('is the message in the language of the person, and in one word when nothing is new', async () => {
    const { app, pathOf } = await setUp()
    const [owner, spanish] = ['orla-fenn', 'chayo-lindero'].map((personId) =>
      pathOf({ deed: 'text', farmId: farm.id, personId, nth: 0 }),
    )
    const first = await app.request(owner!)
    expect(first.headers.get('content-type')).toBe('text/plain; charset=utf-8')
    expect(await first.text()).toBe(renderText(made.message))
    const again = await app.request(owner!, { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect([again.status, await again.text()]).toEqual([304, ''])
    const other = await app.request(spanish!, { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect(await other.text()).toBe(renderText({ ...made.message, language: 'es' }))
  })

  it('has a short form that fits one text message', async () => {
    const { app, pathOf } = await setUp()
    const path = pathOf({ deed: 'text', farmId: farm.id, personId: 'orla-fenn', nth: 0 })
    const text = await (await app.request(`${path}?short`)).text()
    expect(text).toBe(`${renderShort(made.message)}\n`)
    expect(text.trim().length).toBeLessThanOrEqual(160)
  })
})

describe('the calendar behind its link', () => {
  it('is a calendar, and unchanged is told in one word', async () => {
    const { app, calendar, pathOf } = await setUp()
    await keepCalendar(day!, calendar, day!.nowEpochH)
    const path = pathOf({ deed: 'calendar', farmId: farm.id, personId: 'wim-tallow' })
    const first = await app.request(path)
    expect(first.headers.get('content-type')).toBe('text/calendar; charset=utf-8')
    expect(new ical.Component(ical.parse(await first.text())).getAllSubcomponents('vevent').length).toBeGreaterThan(0)
    const again = await app.request(path, { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect(again.status).toBe(304)
    expect(await again.text()).toBe('')
  })
})
