/** A line of the log for every request, under its route and never its path: a path may carry the right to something. */
import { randomUUID } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import type { Log, LogLevel } from '#app/log.ts'
import type { WebEnv } from './sign-in/guard.ts'

/** Asked every few seconds by machines, or once by every browser: no news. */
const QUIET: ReadonlySet<string> = new Set(['/health/live', '/health/ready', '/health', '/metrics', '/assets/:name'])
/** A caller's own id is taken over where it is plainly one. */
const ID = /^[\w-]{8,64}$/
const REQUEST_ID = 'x-request-id'

export function requestLog(log: Log): MiddlewareHandler<WebEnv> {
  return async (context, next) => {
    const asked = context.req.header(REQUEST_ID) ?? ''
    const requestId = ID.test(asked) ? asked : randomUUID()
    context.set('requestId', requestId)
    const started = performance.now()
    await next()
    const { method } = context.req
    const { status } = context.res
    context.header(REQUEST_ID, requestId)
    const route = matchedRoutes(context).findLast((matched) => matched.method !== 'ALL')?.path ?? '(none)'
    const ms = Math.round((performance.now() - started) * 1000) / 1000
    const who = context.get('who')?.name || undefined
    const level: LogLevel = status >= 500 ? 'error' : QUIET.has(route) ? 'debug' : 'info'
    log(`${method} ${route} ${status}`, { event: 'request', level, requestId, method, route, status, ms, who })
  }
}
