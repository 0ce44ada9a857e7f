/**
 * What stands behind links in messages: a page that asks (GET) and the deed (POST, also RFC 8058 one click); the calendar
 * feed and today's message as plain text. The seal of the link is the right to it; nobody signs in here.
 */
import { Hono } from 'hono'
import { etag } from 'hono/etag'
import { secureHeaders } from 'hono/secure-headers'
import type { Subscriptions } from '#app/addresses.ts'
import type { CalendarStore } from '#app/calendar.ts'
import { followLink, type LinkTools } from '#app/follow-link.ts'
import type { LinkDeed, PersonalLink } from '#app/links.ts'
import type { DayMade } from '#app/morning.ts'
import { plainMessage } from '#core/messages/plain.ts'
import { escapeHtml } from '#core/messages/render-html.ts'
import { linkWordsOf } from '#core/messages/words/words.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { renderCalendar } from './calendar.ts'

export interface LinkRoutesParts extends LinkTools {
  readonly farm: Farm
  readonly calendar: Pick<CalendarStore, 'entries'>
  readonly subscriptions: Pick<Subscriptions, 'setMorningMail' | 'linksNth'>
  /** Everybody of the farm; those of its file where absent. */
  readonly people?: () => Promise<readonly Person[]>
  /** The newest day. */
  readonly current: () => Promise<Pick<DayMade, 'message'>>
  readonly clock: () => number
}

const CALENDAR_CACHE = 'private, max-age=900'
/** Asked for again each time, and answered in a word where nothing is new. */
const ASK_AGAIN = 'private, no-cache'
const NEVER_KEPT = 'no-store'

export function linkRoutes(parts: LinkRoutesParts): Hono {
  const { farm, links, calendar, clock } = parts
  const app = new Hono()
  for (const path of ['/do/*', '/calendar/*', '/text/*']) {
    app.use(
      path,
      secureHeaders({
        contentSecurityPolicy: { defaultSrc: ["'none'"], formAction: ["'self'"], frameAncestors: ["'none'"] },
        referrerPolicy: 'no-referrer',
        xFrameOptions: 'DENY',
      }),
    )
  }

  app.get('/do/:token', async (context) => {
    const deed = links.read(context.req.param('token'))
    context.header('cache-control', NEVER_KEPT)
    if (!deed || deed.deed === 'calendar' || deed.deed === 'text') return context.html(notOurs(farm), 404)
    const { language } = (await personOf(deed)) ?? farm
    const words = linkWordsOf(language)
    const { title, text, button } = deed.deed === 'unsubscribe' ? words.unsubscribeAsk : words.acknowledgeAsk
    // The form goes back to the address it came from.
    const form = `<form method="post"><button type="submit">${escapeHtml(button)}</button></form>`
    return context.html(page(language, title, `<p>${escapeHtml(text)}</p>${form}`))
  })

  app.post('/do/:token', async (context) => {
    const deed = await followLink(context.req.param('token'), parts, clock())
    context.header('cache-control', NEVER_KEPT)
    if (!deed) return context.html(notOurs(farm), 404)
    const { language } = (await personOf(deed)) ?? farm
    const words = linkWordsOf(language)
    const done = deed.deed === 'unsubscribe' ? words.unsubscribeDone : words.acknowledgeDone
    return context.html(page(language, farm.name, `<p>${escapeHtml(done)}</p>`))
  })

  app.get('/calendar/:file', etag(), async (context) => {
    const reader = await readerOf(context.req.param('file').replace(/\.ics$/, ''), 'calendar')
    if (typeof reader === 'number') return context.html(notOurs(farm), reader)
    const body = renderCalendar(farm, reader, await calendar.entries(farm.id))
    return context.body(body, 200, { 'content-type': 'text/calendar; charset=utf-8', 'cache-control': CALENDAR_CACHE })
  })

  app.get('/text/:file', etag(), async (context) => {
    const reader = await readerOf(context.req.param('file').replace(/\.txt$/, ''), 'text')
    if (typeof reader === 'number') return context.html(notOurs(farm), reader)
    const { message } = await parts.current()
    const body = plainMessage(message, reader.language, context.req.query('short') !== undefined)
    return context.body(body, 200, { 'content-type': 'text/plain; charset=utf-8', 'cache-control': ASK_AGAIN })
  })

  /** Whose link it is; 410 for one that was ended, 404 for one that is not ours. */
  async function readerOf(token: string, deed: PersonalLink['deed']): Promise<Person | 404 | 410> {
    const link = links.read(token)
    if (link?.deed !== deed || link.farmId !== farm.id) return 404
    const nth = await parts.subscriptions.linksNth(farm.id, link.personId)
    return (link.nth ?? 0) === nth ? ((await personOf(link)) ?? 410) : 410
  }

  async function personOf(deed: LinkDeed): Promise<Person | undefined> {
    const people = (await parts.people?.()) ?? farm.people
    return deed.farmId === farm.id ? people.find(({ id }) => id === deed.personId) : undefined
  }
  return app
}

const notOurs = ({ language, name }: Farm): string =>
  page(language, name, `<p>${escapeHtml(linkWordsOf(language).notOurs)}</p>`)

const page = (language: string, title: string, body: string): string => `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<meta name="robots" content="noindex">
<title>${escapeHtml(title)}</title>
</head>
<body>
<h1>${escapeHtml(title)}</h1>
${body}
</body>
</html>
`
