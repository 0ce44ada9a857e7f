/** A web server on a free port that keeps what it is sent and answers as it is told. */
import { once } from 'node:events'
import { createServer, type IncomingHttpHeaders } from 'node:http'
import type { AddressInfo } from 'node:net'
import { Agent } from 'undici'
import type { Network } from '#edges/delivery/ask.ts'

export interface Heard {
  readonly headers: IncomingHttpHeaders
  readonly body: Buffer
  readonly path: string
}

export async function listener(answer: { status: number; headers?: Record<string, string> } = { status: 201 }) {
  const heard: Heard[] = []
  const server = createServer((request, response) => {
    const parts: Buffer[] = []
    request.on('data', (part: Buffer) => parts.push(part))
    request.on('end', () => {
      heard.push({ headers: request.headers, body: Buffer.concat(parts), path: request.url ?? '' })
      response.writeHead(answer.status, answer.headers).end('bye')
    })
  })
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const dispatcher = new Agent()
  // The guard is tried on its own; here this machine itself must be reached.
  const network: Network = { dispatcher, faultOf: () => undefined }
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    heard,
    network,
    close: async () => {
      await dispatcher.close()
      server.close()
    },
  }
}
