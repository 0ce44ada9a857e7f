import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { webApp } from '#edges/web/app.ts'
import { demoService } from './support/demo-service.ts'

const PAGES = ['/', '/fields', '/fields/mill-forty']

describe('every answer', () => {
  it('carries a policy without inline script or style, and no framing', async () => {
    const app = webApp(await demoService())
    for (const path of [...PAGES, '/nowhere', '/today.json', '/health']) {
      const { headers } = await app.request(path)
      const policy = headers.get('content-security-policy') ?? ''
      expect(policy).toContain("default-src 'none'")
      expect(policy).toContain("frame-ancestors 'none'")
      expect(policy).not.toMatch(/unsafe|\*|data:/)
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('referrer-policy')).toBe('same-origin')
    }
  })

  it('hides what a bug said, and logs it', async () => {
    const told: string[] = []
    const service = await demoService()
    const broken = { ...service, current: () => Promise.reject(new Error('password 1234')) }
    const response = await webApp(broken, { log: (line) => told.push(line) }).request('/', {
      headers: { accept: 'text/html' },
    })
    expect(response.status).toBe(500)
    expect(await response.text()).not.toContain('1234')
    expect(told.join()).toContain('password 1234')
  })
})

describe('pages kept ready', () => {
  it('are sent compressed as asked, with the same text', async () => {
    const app = webApp(await demoService())
    const plain = await (await app.request('/')).text()
    const asked = async (coding: string) => {
      const response = await app.request('/', { headers: { 'accept-encoding': coding } })
      return { coding: response.headers.get('content-encoding'), body: Buffer.from(await response.arrayBuffer()) }
    }
    const gzip = await asked('gzip')
    const brotli = await asked('gzip, deflate, br')
    expect([gzip.coding, brotli.coding]).toEqual(['gzip', 'br'])
    expect(gunzipSync(gzip.body).toString()).toBe(plain)
    expect(brotliDecompressSync(brotli.body).toString()).toBe(plain)
    // "br;q=0" refuses it (RFC 9110, 12.5.3).
    expect((await asked('br;q=0')).coding).toBeNull()
  })

  it('are not sent again while their tag matches (RFC 9110, 13.1.2)', async () => {
    const app = webApp(await demoService())
    const first = await app.request('/')
    const etag = first.headers.get('etag')!
    for (const asked of [etag, etag.replace('W/', ''), `"other", ${etag}`, '*']) {
      const again = await app.request('/', { headers: { 'if-none-match': asked } })
      expect(again.status).toBe(304)
      expect(await again.text()).toBe('')
    }
    expect((await app.request('/', { headers: { 'if-none-match': '"other"' } })).status).toBe(200)
  })

  it('need less than 60 kB for the first page with all it loads', async () => {
    const app = webApp(await demoService())
    const size = async (path: string) =>
      (await (await app.request(path, { headers: { 'accept-encoding': 'gzip' } })).arrayBuffer()).byteLength
    const page = await (await app.request('/')).text()
    const loaded = [...page.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map(([, path]) => path!)
    const sizes = await Promise.all(['/', ...loaded].map(size))
    expect(loaded.length).toBeGreaterThan(0)
    expect(sizes.reduce((sum, bytes) => sum + bytes, 0)).toBeLessThan(60_000)
  })

  it('keep style sheets for ever, under an address that carries their hash', async () => {
    const app = webApp(await demoService())
    const page = await (await app.request('/')).text()
    const [, path] = /rel="stylesheet" href="([^"]+)"/.exec(page)!
    const response = await app.request(path!)
    expect(path).toMatch(/\.[0-9a-f]{12}\.css$/)
    expect(response.headers.get('cache-control')).toContain('immutable')
    expect((await app.request('/assets/style.000000000000.css')).status).toBe(404)
  })
})

describe('health', () => {
  it('is live and ready with a day made from young weather', async () => {
    const app = webApp(await demoService())
    expect(await (await app.request('/health')).json()).toMatchObject({ live: true, ready: true, reasons: [] })
    expect((await app.request('/health/ready')).status).toBe(200)
  })

  it('is live but not ready without weather, and says why', async () => {
    const app = webApp(await demoService({ noWeather: true }))
    const response = await app.request('/health/ready')
    expect(response.status).toBe(503)
    expect(await response.json()).toMatchObject({ live: true, ready: false, reasons: ['no weather source answered'] })
    expect((await app.request('/health')).status).toBe(200)
  })
})

describe('metrics', () => {
  it('counts requests by route, in the text format of Prometheus', async () => {
    const app = webApp(await demoService())
    await app.request('/fields/mill-forty')
    await app.request('/fields/long-eighty')
    const response = await app.request('/metrics')
    const text = await response.text()
    // Prometheus text exposition format 0.0.4: "# TYPE name kind", then name{label="value"} number.
    expect(response.headers.get('content-type')).toContain('version=0.0.4')
    expect(text).toContain('# TYPE http_server_request_duration_seconds histogram')
    expect(text).toMatch(
      /http_server_request_duration_seconds_count\{http_request_method="GET",http_route="\/fields\/:id",http_response_status_code="200"\} 2/,
    )
    expect(text).toMatch(/threshday_day_ready 1/)
    for (const line of text.trim().split('\n'))
      expect(line).toMatch(/^(#.*|[a-zA-Z_:][a-zA-Z0-9_:]*(\{[^}]*\})? \S+)?$/)
  })
})
