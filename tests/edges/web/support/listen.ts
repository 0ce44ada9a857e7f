/** A service's pages on a free port of loopback. */
import { serve } from '@hono/node-server'
import type { Hono } from 'hono'
import type { WebEnv } from '#edges/web/sign-in/guard.ts'

export interface Listening {
  readonly origin: string
  close(): Promise<void>
}

export function listenApp(app: Pick<Hono<WebEnv>, 'fetch'>): Promise<Listening> {
  return new Promise((resolve) => {
    const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: 0 }, ({ port }) =>
      resolve({
        origin: `http://127.0.0.1:${port}`,
        close: () => new Promise((closed) => server.close(() => closed())),
      }),
    )
  })
}
