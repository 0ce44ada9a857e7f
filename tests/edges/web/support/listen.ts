/** A service's pages on a free port of loopback. */
import { serve } from '@hono/node-server'
import { webApp } from '#edges/web/app.ts'
import type { Service } from '#work/service.ts'

export interface Listening {
  readonly origin: string
  close(): Promise<void>
}

export function listen(service: Service): Promise<Listening> {
  const app = webApp(service)
  return new Promise((resolve) => {
    const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port: 0 }, ({ port }) =>
      resolve({
        origin: `http://127.0.0.1:${port}`,
        close: () => new Promise((closed) => server.close(() => closed())),
      }),
    )
  })
}
