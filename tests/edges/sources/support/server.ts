/** A loopback HTTP server that answers as a test tells it to, and counts. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface Loopback {
  readonly url: URL
  readonly asked: IncomingMessage[]
  readonly stop: () => Promise<void>
}

export async function loopback(
  answer: (request: IncomingMessage, response: ServerResponse, count: number) => void,
): Promise<Loopback> {
  const asked: IncomingMessage[] = []
  const server = createServer((request, response) => {
    asked.push(request)
    response.on('error', () => undefined)
    answer(request, response, asked.length)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return {
    url: new URL(`http://127.0.0.1:${port}/`),
    asked,
    stop: () =>
      new Promise((resolve) => {
        server.closeAllConnections()
        server.close(() => resolve())
      }),
  }
}
