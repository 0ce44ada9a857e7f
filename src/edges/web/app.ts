/** The pages, and the day as JSON. */
import { Hono } from 'hono'
import { dayJson } from '#work/day-json.ts'
import type { Service } from '#work/service.ts'
import { ASSETS } from './assets.ts'
import { todayPage } from './today-page.ts'

const FOR_EVER = 'public, max-age=31536000, immutable'

export function webApp(service: Service): Hono {
  const app = new Hono()
  app.get('/', async (context) => context.html(todayPage(service.farm, await service.current())))
  app.get('/assets/:name', (context) => {
    const asset = ASSETS.get(context.req.path)
    if (!asset) return context.notFound()
    return context.body(asset.body, 200, { 'content-type': asset.type, 'cache-control': FOR_EVER })
  })
  app.get('/health', (context) => context.json({ live: true }))
  app.get('/today.json', async (context) => {
    const { day, message } = await service.current()
    return day ? context.json(dayJson(day)) : context.json({ headline: message.headline }, 503)
  })
  return app
}
