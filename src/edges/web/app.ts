/** The pages, the day as JSON, and what whoever runs the service looks at. */
import { Hono } from 'hono'
import { dayJson, noDayJson } from '#work/day-json.ts'
import type { Service } from '#work/service.ts'
import { ASSETS } from './assets.ts'
import { failure } from './errors.ts'
import { fieldPage } from './field-page.ts'
import { fieldsPage } from './fields-page.ts'
import { healthRoutes } from './health.ts'
import { metricsOf } from './metrics.ts'
import { RenderedPages } from './rendered.ts'
import { securityHeaders } from './security.ts'
import { todayPage } from './today-page.ts'

const FOR_EVER = 'public, max-age=31536000, immutable'

export interface WebOptions {
  /** Told of every bug a request met. */
  readonly log?: (line: string) => void
}

export function webApp(service: Service, { log = () => {} }: WebOptions = {}): Hono {
  const { farm } = service
  const app = new Hono()
  const rendered = new RenderedPages()
  const metrics = metricsOf(service)

  app.use(metrics.timed)
  app.use(securityHeaders())
  app.notFound((context) => failure(context, farm, 'not-found'))
  app.onError((bug, context) => {
    log(`${context.req.method} ${context.req.path}: ${bug.stack ?? bug.message}`)
    return failure(context, farm, 'bug')
  })

  app.get('/', async (context) => {
    const made = await service.current()
    return rendered.send(context, made, '/', () => todayPage(farm, made))
  })
  app.get('/fields', async (context) => {
    const made = await service.current()
    return rendered.send(context, made, '/fields', () => fieldsPage(farm, made))
  })
  app.get('/fields/:id', async (context) => {
    const field = farm.fields.find(({ id }) => id === context.req.param('id'))
    if (!field) return context.notFound()
    const made = await service.current()
    return rendered.send(context, made, `/fields/${field.id}`, () => fieldPage(farm, field, made))
  })
  app.get('/assets/:name', (context) => {
    const asset = ASSETS.get(context.req.path)
    if (!asset) return context.notFound()
    return context.body(asset.body, 200, { 'content-type': asset.type, 'cache-control': FOR_EVER })
  })
  app.route('/health', healthRoutes(service))
  app.get('/metrics', async (context) => context.body(await metrics.text(), 200, { 'content-type': metrics.type }))
  app.get('/today.json', async (context) => {
    const { day, message } = await service.current()
    return context.json(day ? dayJson(day) : noDayJson(farm, message))
  })
  return app
}
