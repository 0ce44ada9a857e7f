/** The stream of events of one listener: bounded in what it holds back, alive by its heartbeat, ended in time. */
import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { createRoute, refusal, refusals, text } from '#edges/web/api/parts.ts'
import { problem } from '#edges/web/errors.ts'
import type { LiveFeed, Told } from './feed.ts'

export interface LiveTimes {
  /** A line that says nothing, so that neither side nor what is between takes the other for gone [ms]. */
  readonly heartbeatMs: number
  /** Then it ends and the listener comes again, with rights that are looked at anew [ms]. */
  readonly longestMs: number
}

const TIMES: LiveTimes = { heartbeatMs: 20_000, longestMs: 15 * 60_000 }
/** A listener that takes nothing off is dropped with so many waiting. */
const MOST_WAITING = 64
/** How soon a browser comes again [ms]. */
const RETRY_MS = 5_000

export const liveRoute = createRoute({
  method: 'get',
  path: '/live',
  tags: ['Day'],
  summary: 'What happens, as it happens: server-sent events',
  description:
    '`day`: a day was made, `plan` differs when its plan does. `message`: one was sent or failed. `told`: something was told, a new day follows. `missed`: events since `Last-Event-ID` are gone; ask anew. A comment every 20 seconds.',
  request: {
    headers: z.object({
      'last-event-id': z.string().max(100).optional().openapi({ description: 'Events after it are told first.' }),
    }),
  },
  responses: {
    200: text('text/event-stream', 'WHATWG HTML, 9.2.'),
    ...refusals,
    429: refusal('Too many listen already.'),
  },
})

export function liveStream(context: Context, feed: LiveFeed, { heartbeatMs, longestMs }: LiveTimes = TIMES): Response {
  const encoder = new TextEncoder()
  let leave: (() => void) | undefined
  let end = () => {}
  const stream = new ReadableStream<Uint8Array>(
    {
      start(controller) {
        const send = (line: string) => {
          if ((controller.desiredSize ?? 0) <= 0) return false
          controller.enqueue(encoder.encode(line))
          return true
        }
        const heartbeat = setInterval(() => send(': \n\n') || end(), heartbeatMs).unref()
        const longest = setTimeout(() => end(), longestMs).unref()
        end = () => {
          clearInterval(heartbeat)
          clearTimeout(longest)
          leave?.()
          end = () => {}
          try {
            controller.close()
          } catch {
            // The listener went first.
          }
        }
        send(`retry: ${RETRY_MS}\n\n`)
        leave = feed.listen(
          (told) => send(eventText(told)),
          context.req.header('last-event-id'),
          () => end(),
        )
        if (!leave) end()
      },
      cancel: () => end(),
    },
    new CountQueuingStrategy({ highWaterMark: MOST_WAITING }),
  )
  if (!leave) return problem(context, 'too-many')
  return context.body(stream, 200, {
    'content-type': 'text/event-stream',
    'cache-control': 'no-store',
    // Some proxies gather an answer before they pass it on.
    'x-accel-buffering': 'no',
  })
}

/** JSON has no line breaks, so the data is one line. */
const eventText = ({ id, event, data }: Told): string => `id: ${id}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`
