/** The pages, and the day as JSON. */
import { Hono } from 'hono'
import { dayJson } from '#work/day-json.ts'
import type { Service } from '#work/service.ts'

export function webApp(service: Service): Hono {
  const app = new Hono()
  app.get('/health', (context) => context.json({ live: true }))
  app.get('/today.json', async (context) => {
    const { day, message } = await service.current()
    return day ? context.json(dayJson(day)) : context.json({ headline: message.headline }, 503)
  })
  return app
}
