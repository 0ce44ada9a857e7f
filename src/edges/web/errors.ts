/** What a request that can't be served gets: a problem (RFC 9457) for programs, a page for people. */
import type { Context } from 'hono'
import { html } from 'hono/html'
import type { ContentfulStatusCode } from 'hono/utils/http-status'
import type { Farm } from '#core/operation/farm.ts'
import { languageOf } from './language.ts'
import { layout, stranger } from './layout.ts'
import { wordsOf } from './words/of.ts'

/** The problems there are; `type` is the last part of its address in the API's documentation. */
export const PROBLEMS = {
  'not-found': { status: 404, title: 'There is nothing here' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'not-allowed': { status: 403, title: 'Your role may not do this' },
  'bad-request': { status: 400, title: 'The request can not be read' },
  'not-valid': { status: 422, title: 'Something in the request is not valid' },
  conflict: { status: 409, title: 'Something else has changed meanwhile' },
  'too-many': { status: 429, title: 'Too many requests' },
  'no-weather': { status: 503, title: 'There is no usable weather' },
  bug: { status: 500, title: 'Something broke here' },
} as const satisfies { readonly [type: string]: { readonly status: ContentfulStatusCode; readonly title: string } }
export type ProblemType = keyof typeof PROBLEMS

/** One fault in a request, where it is and what is wrong (RFC 9457, 3.2, extension member). */
export interface ProblemFault {
  readonly pointer: string
  readonly detail: string
}

export interface ProblemDetail {
  readonly detail?: string
  readonly errors?: readonly ProblemFault[]
}

export function problem(context: Context, type: ProblemType, said: ProblemDetail = {}): Response {
  const { status, title } = PROBLEMS[type]
  return context.body(JSON.stringify({ type: `/api#${type}`, title, status, ...said }), status, {
    'content-type': 'application/problem+json',
    'cache-control': 'no-store',
  })
}

/** A page where the asker reads pages, a problem otherwise. */
export function failure(context: Context, farm: Farm, type: ProblemType): Response | Promise<Response> {
  if (!wantsPage(context)) return problem(context, type)
  const { status } = PROBLEMS[type]
  const language = languageOf(context, farm)
  const words = wordsOf(language)
  const { title, text } = words.failures[type]
  return context.html(
    layout({
      farm,
      viewer: stranger({ language }),
      title,
      body: html`<h1>${title}</h1><p>${text}</p><p><a href="/">${words.pages.today}</a></p>`,
    }),
    status,
    { 'cache-control': 'no-store' },
  )
}

export const wantsPage = (context: Context): boolean =>
  !context.req.path.startsWith('/api/') && (context.req.header('accept') ?? '').includes('text/html')
