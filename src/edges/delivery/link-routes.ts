/**
 * What stands behind links in messages: a page that asks (GET) and the deed (POST, also RFC 8058 one click), and the
 * calendar feed. The seal of the link is the right to it; nobody signs in here.
 */
import { createHash } from 'node:crypto'
import { Hono } from 'hono'
import { secureHeaders } from 'hono/secure-headers'
import type { Farm, Person } from '#core/farm/farm.ts'
import { escapeHtml } from '#core/messages/render-html.ts'
import { linkWordsOf } from '#core/messages/words/words.ts'
import type { CalendarStore } from '#work/calendar.ts'
import { followLink, type LinkTools } from '#work/follow-link.ts'
import type { LinkDeed } from '#work/links.ts'
import { renderCalendar } from './calendar.ts'

export interface LinkRoutesParts extends LinkTools {
  readonly farm: Farm
  readonly calendar: Pick<CalendarStore, 'entries'>
  readonly clock: () => number
}

const CALENDAR_CACHE = 'private, max-age=900'
const NEVER_KEPT = 'no-store'

export function linkRoutes(parts: LinkRoutesParts): Hono {
  const { farm, links, calendar, clock } = parts
  const app = new Hono()
  for (const path of ['/do/*', '/calendar/*']) {
    app.use(
      path,
      secureHeaders({
        contentSecurityPolicy: { defaultSrc: ["'none'"], formAction: ["'self'"], frameAncestors: ["'none'"] },
        referrerPolicy: 'no-referrer',
        xFrameOptions: 'DENY',
      }),
    )
  }

  app.get('/do/:token', (context) => {
    const deed = links.read(context.req.param('token'))
    context.header('cache-control', NEVER_KEPT)
    if (!deed || deed.deed === 'calendar') return context.html(notOurs(farm), 404)
    const { language } = personOf(farm, deed) ?? farm
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
    const { language } = personOf(farm, deed) ?? farm
    const words = linkWordsOf(language)
    const done = deed.deed === 'unsubscribe' ? words.unsubscribeDone : words.acknowledgeDone
    return context.html(page(language, farm.name, `<p>${escapeHtml(done)}</p>`))
  })

  app.get('/calendar/:file', async (context) => {
    const deed = links.read(context.req.param('file').replace(/\.ics$/, ''))
    const person = deed?.deed === 'calendar' ? personOf(farm, deed) : undefined
    if (!person) return context.html(notOurs(farm), 404)
    const body = renderCalendar(farm, person, await calendar.entries(farm.id))
    const etag = `"${createHash('sha256').update(body).digest('base64url')}"`
    const headers = { etag, 'cache-control': CALENDAR_CACHE, 'content-type': 'text/calendar; charset=utf-8' }
    return context.req.header('if-none-match') === etag
      ? context.body(null, 304, { etag, 'cache-control': CALENDAR_CACHE })
      : context.body(body, 200, headers)
  })
  return app
}

const personOf = (farm: Farm, deed: LinkDeed): Person | undefined =>
  deed.farmId === farm.id ? farm.people.find(({ id }) => id === deed.personId) : undefined

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
