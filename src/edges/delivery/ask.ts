/** One POST to an address that somebody else gave us, and what its answer means for the outbox. */
import { type Dispatcher, request } from 'undici'
import type { Answer } from '#app/outbox-port.ts'
import { ClosedAddressError, faultOfTarget } from './guard.ts'

export interface Post {
  readonly url: string
  readonly headers: Readonly<Record<string, string>>
  readonly body: string | Uint8Array
}

/** How addresses are reached; tests put a machine of their own in its place. */
export interface Network {
  readonly dispatcher: Dispatcher
  readonly faultOf: (url: string) => string | undefined
}

export const network = (dispatcher: Dispatcher): Network => ({ dispatcher, faultOf: faultOfTarget })

const TIMEOUT_MS = 20_000
const SECONDS_PER_HOUR = 3600
/** Nobody may make us wait for longer [h]. */
const LONGEST_WAIT_H = 6

export async function post({ url, headers, body }: Post, { dispatcher, faultOf }: Network): Promise<Answer> {
  const fault = faultOf(url)
  if (fault) return { kind: 'refused', reason: fault }
  try {
    const response = await request(url, {
      method: 'POST',
      headers,
      body,
      dispatcher,
      signal: AbortSignal.timeout(TIMEOUT_MS),
    })
    await response.body.dump()
    return answerOf(response.statusCode, header(response.headers['retry-after']), header(response.headers.location))
  } catch (failure) {
    if (isClosed(failure)) return { kind: 'refused', reason: 'not in the open network' }
    const reason = failure instanceof Error ? failure.message : String(failure)
    // One address that does not answer says nothing of the others.
    return { kind: 'later', reason, wholeChannel: false }
  }
}

const isClosed = (failure: unknown): boolean =>
  failure instanceof ClosedAddressError || (failure instanceof Error && failure.cause instanceof ClosedAddressError)

const header = (value: string | string[] | undefined): string =>
  Array.isArray(value) ? (value[0] ?? '') : (value ?? '')

function answerOf(status: number, retryAfter: string, location: string): Answer {
  if (status >= 200 && status < 300) return { kind: 'taken', reference: location || `${status}` }
  if (status === 404 || status === 410) return { kind: 'gone', reason: `answered ${status}` }
  if (status === 413) return { kind: 'refused', reason: 'answered 413, too large' }
  const seconds = Number(retryAfter)
  const waitH = Number.isFinite(seconds) && retryAfter !== '' ? Math.min(LONGEST_WAIT_H, seconds / SECONDS_PER_HOUR) : 0
  return { kind: 'later', reason: `answered ${status}`, wholeChannel: false, ...(waitH > 0 ? { waitH } : {}) }
}
