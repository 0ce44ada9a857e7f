/**
 * Refuses what another site makes a browser send here: the browser itself says where a request comes from, in
 * Sec-Fetch-Site (W3C Fetch Metadata) or, where it does not trust the address, in Origin (RFC 6454).
 */
import type { MiddlewareHandler } from 'hono'
import type { Farm } from '#core/operation/farm.ts'
import { failure } from '#edges/web/errors.ts'

const SAFE: readonly string[] = ['GET', 'HEAD', 'OPTIONS']

export function sameOrigin(farm: Farm): MiddlewareHandler {
  return async (context, next) => {
    const { req } = context
    // A bearer token is never sent by a browser on its own.
    if (SAFE.includes(req.method) || req.header('authorization') !== undefined) return await next()
    const site = req.header('sec-fetch-site')
    const fromHere = site === undefined ? sameHost(req.header('origin'), req.header('host')) : site === 'same-origin'
    return fromHere ? await next() : failure(context, farm, 'not-allowed')
  }
}

function sameHost(origin: string | undefined, host: string | undefined): boolean {
  if (origin === undefined || host === undefined || !URL.canParse(origin)) return false
  return new URL(origin).host === host
}
