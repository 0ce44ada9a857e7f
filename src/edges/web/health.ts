/** Whether the process lives, and whether it can do its job: a day made from weather young enough. */
import { Hono } from 'hono'
import { type Service, shownBy } from '#app/service.ts'

export interface Health {
  readonly live: true
  readonly ready: boolean
  /** Why it is not ready, in words; empty when it is. */
  readonly reasons: readonly string[]
  readonly weatherAgeH: number | null
}

export async function healthOf(service: Service): Promise<Health> {
  try {
    const { message, day } = (await shownBy(service)).made
    const { headline } = message
    const reasons = headline.kind === 'no-forecast' ? [headline.reason] : []
    const ageH = day === undefined ? message.weather.ageH : service.clock() - day.ahead.provenance.issuedAtEpochH
    return { live: true, ready: reasons.length === 0, reasons, weatherAgeH: finite(ageH) }
  } catch {
    // What broke is logged where it happened; here it only matters that no day could be made.
    return { live: true, ready: false, reasons: ['the day could not be made, see the log'], weatherAgeH: null }
  }
}

const finite = (ageH: number): number | null => (Number.isFinite(ageH) ? Math.round(ageH * 100) / 100 : null)

/** `/health/live` for whoever restarts, `/health/ready` for whoever sends people here, `/health` for both at once. */
export function healthRoutes(service: Service): Hono {
  const routes = new Hono()
  routes.use(async (context, next) => {
    await next()
    context.header('cache-control', 'no-store')
  })
  routes.get('/', async (context) => context.json(await healthOf(service)))
  routes.get('/live', (context) => context.json({ live: true }))
  routes.get('/ready', async (context) => {
    const health = await healthOf(service)
    return context.json(health, health.ready ? 200 : 503)
  })
  return routes
}
