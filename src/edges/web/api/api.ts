/** The API for programs: all that a page can do, in JSON. */
import { OpenAPIHono } from '@hono/zod-openapi'
import { etag } from 'hono/etag'
import { problem } from '#edges/web/errors.ts'
import type { LiveFeed } from '#edges/web/live/feed.ts'
import { liveRoute, liveStream } from '#edges/web/live/route.ts'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'
import { dayApi, wholeDayApi } from './day-api.ts'
import { fieldsApi } from './fields-api.ts'
import { messagesApi } from './messages-api.ts'
import { type Api, type ApiParts, shapeFaults } from './parts.ts'
import { peopleApi } from './people-api.ts'
import { planApi } from './plan-api.ts'
import { reachApi } from './reach-api.ts'
import { recordsApi } from './records-api.ts'
import { seasonApi } from './season-api.ts'

export const API_INFO = {
  openapi: '3.1.0',
  info: {
    title: 'Threshday',
    version: '1',
    description:
      'Which field is fit to cut, from when to when. SI units, moisture in % wet basis, times as RFC 3339. Sign in with `Authorization: Bearer` and a token from the page of people. Errors are problems (RFC 9457). Lists come in pages: `limit`, and `next` as `after` for the one that follows. Answers carry an ETag: `If-None-Match` saves sending them again.',
  },
}

export function apiRoutes(parts: ApiParts, live: LiveFeed): Api {
  const api: Api = new OpenAPIHono<WebEnv>({
    defaultHook: (result, context) => {
      if (result.success) return undefined
      return problem(context, 'not-valid', { errors: shapeFaults(result.error) })
    },
  })
  // Before the tags: a stream has no end to make one of.
  api.openapi(liveRoute, (context) => liveStream(context, live) as never)
  // Large, and made once: it has a tag of its own.
  wholeDayApi(api, parts)
  api.use(etag({ weak: true }))
  dayApi(api, parts)
  fieldsApi(api, parts)
  recordsApi(api, parts)
  seasonApi(api, parts)
  messagesApi(api, parts)
  const { service, desk, people, reach } = parts
  if (desk) planApi(api, service, desk)
  if (people) peopleApi(api, people)
  if (reach) reachApi(api, service, reach)
  return api
}
