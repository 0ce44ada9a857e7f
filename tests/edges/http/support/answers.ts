import type { IncomingMessage, ServerResponse } from 'node:http'
import { afterEach } from 'vitest'
import { SourceFailure } from '#app/failures.ts'
import type { Answer, HttpClient, HttpLimits } from '#edges/http/client.ts'
import { TestClock, testClient } from '#tests/edges/sources/support/http.ts'
import { type Loopback, loopback } from '#tests/edges/sources/support/server.ts'

export type Respond = (request: IncomingMessage, response: ServerResponse, count: number) => void

export const NOW_H = 443_000
const open: { client: HttpClient; server: Loopback }[] = []
afterEach(async () => {
  for (const { client, server } of open.splice(0)) {
    await client.close()
    await server.stop()
  }
})

/** A client and a server on this machine that answers as told; both end with the test. */
export async function set(respond: Respond, limits: Partial<HttpLimits> = {}, clock = new TestClock(NOW_H)) {
  const server = await loopback(respond)
  const client = testClient(clock, limits)
  open.push({ client, server })
  const ask = (path = 'forecast?lat=41.2', signal?: AbortSignal, fresh = false): Promise<Answer<unknown>> =>
    client.getJson({ url: new URL(path, server.url), source: 'Service', signal, fresh, read: (json) => json })
  return { server, client, clock, ask }
}
export const json =
  (text: string, headers: { [name: string]: string } = {}, status = 200): Respond =>
  (_, response) => {
    response.writeHead(status, { 'content-type': 'application/json', ...headers }).end(text)
  }

/** @returns what was told instead of an answer. */
export async function failureOf(promise: Promise<unknown>): Promise<SourceFailure> {
  try {
    await promise
  } catch (error) {
    if (error instanceof SourceFailure) return error
    throw error
  }
  throw new Error('nothing was refused')
}
