import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import type { LogFacts } from '#app/log.ts'
import type { SourceState } from '#app/source-states.ts'
import type { Farm } from '#core/operation/farm.ts'
import { webApp } from '#edges/web/app.ts'
import type { LiveSources } from '#edges/web/sources-page.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'
import { demoService } from './support/demo-service.ts'

/** The demo's fields over and over, each under a name of its own. */
const manyFields =
  (count: number) =>
  (farm: Farm): Farm => ({
    ...farm,
    fields: Array.from({ length: count }, (_, n) => {
      const field = farm.fields[n % farm.fields.length]!
      return { ...field, id: `${field.id}-${n}`, name: `${field.name} ${n}` }
    }),
  })

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

  it.each([
    ['the demo', undefined],
    ['a farm of 200 fields', { farm: manyFields(200) }],
  ])(
    'of %s need less than 60 kB for the first page with all it loads, and less than 10 kB of script',
    async (_, change) => {
      const app = webApp(await demoService(change))
      const size = async (path: string) =>
        (await (await app.request(path, { headers: { 'accept-encoding': 'gzip' } })).arrayBuffer()).byteLength
      const page = await (await app.request('/')).text()
      const loaded = [...page.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map(([, path]) => path!)
      const sizes = await Promise.all(['/', ...loaded].map(size))
      expect(loaded.length).toBeGreaterThan(1)
      expect(sizes.reduce((sum, bytes) => sum + bytes, 0)).toBeLessThan(60_000)
      const scripts = [...page.matchAll(/<script[^>]*src="([^"]+)"/g)].map(([, path]) => path!)
      expect(loaded).toEqual(expect.arrayContaining(scripts))
      const ofScripts = await Promise.all(scripts.map(size))
      expect(ofScripts.reduce((sum, bytes) => sum + bytes, 0)).toBeLessThan(10_000)
      // Nothing is written into the page by a script: it is whole as it comes.
      expect(page).toMatch(/<h1>Run [^<]+<\/h1>/)
      expect(page).not.toMatch(/<script(?![^>]*src=)|<noscript|\son\w+=/)
    },
  )

  it('are the day as JSON too, packed and tagged', async () => {
    const app = webApp(await demoService())
    const first = await app.request('/today.json', { headers: { 'accept-encoding': 'gzip' } })
    expect([first.headers.get('content-type'), first.headers.get('content-encoding')]).toEqual([
      'application/json',
      'gzip',
    ])
    expect(JSON.parse(gunzipSync(Buffer.from(await first.arrayBuffer())).toString())).toMatchObject({ headline: 'run' })
    const again = await app.request('/today.json', { headers: { 'if-none-match': first.headers.get('etag')! } })
    expect(again.status).toBe(304)
  })

  it('are shown as they were, and say so, while a newer day is made', async () => {
    const service = await demoService()
    const made = await service.current()
    let state = { made, outdated: true, version: 1 }
    const app = webApp({ ...service, shown: async () => state, current: () => Promise.reject(new Error('waits')) })
    for (const path of ['/', '/fields', '/fields/mill-forty', '/today.json', '/health/ready']) {
      expect((await app.request(path)).status).toBe(200)
    }
    const page = async () => (await app.request('/')).text()
    expect(await page()).toMatch(/<div class="news"[^>]*data-plan="[^"]{16}">\s*<p data-say="making">/)
    state = { made, outdated: false, version: 2 }
    expect(await page()).toMatch(/<div class="news"[^>]* hidden>/)
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

describe('the log', () => {
  it('has a line for every request: route, status, time, who, and an id that the answer carries', async () => {
    const told: LogFacts[] = []
    const site = await siteOf(await demoService(), { log: (_, facts) => told.push(facts!) })
    const answer = await site.as('crew', '/fields/mill-forty?x=1', { headers: { 'x-request-id': 'abc-12345' } })
    await site.as(undefined, '/join/some-token-of-mine', {
      headers: { 'x-request-id': 'bad id\nwith a break'.slice(0, 6) },
    })
    await site.as(undefined, '/nowhere/at/all')
    await site.as('crew', '/health/live')
    expect(answer.headers.get('x-request-id')).toBe('abc-12345')
    expect(told).toMatchObject([
      {
        event: 'request',
        level: 'info',
        method: 'GET',
        route: '/fields/:id',
        status: 200,
        who: 'cal-crew',
        requestId: 'abc-12345',
      },
      { event: 'request', route: '/join/:token', status: 404, requestId: expect.stringMatching(/^[0-9a-f-]{36}$/) },
      { event: 'request', route: '(none)', status: 404 },
      { event: 'request', level: 'debug', route: '/health/live', status: 200 },
    ])
    for (const { ms } of told) expect(ms).toBeGreaterThanOrEqual(0)
    expect(JSON.stringify(told)).not.toMatch(/some-token|mill-forty|Cal Crew/)
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
  it('tell how messages and weather sources are doing', async () => {
    const service = await demoService()
    const state = { sourceId: 'global', kind: 'forecast', failedShare: 0.25, ageH: 1.5 } as SourceState
    const sources = { states: async () => [state], lacks: async () => [], credits: [] } as unknown as LiveSources
    const site = await siteOf(service, { sources })
    const now = service.clock()
    await site.outbox.post([
      {
        farmId: service.farm.id,
        kind: 'morning',
        subject: '',
        date: '2010-09-30',
        channel: 'mail',
        recipient: 'ola',
        target: 'ola@example.org',
        body: '{}',
        urgent: false,
        createdEpochH: now,
        closesEpochH: now + 5,
      },
    ])
    const text = await (await site.as('owner', '/metrics')).text()
    expect(text).toContain('threshday_messages{state="waiting"} 1\n')
    expect(text).toContain('threshday_messages{state="dead"} 0\n')
    expect(text).toContain('threshday_source_failed_ratio{source="global",kind="forecast"} 0.25\n')
    expect(text).toContain('threshday_source_weather_age_seconds{source="global",kind="forecast"} 5400\n')
    expect(text).not.toContain('ola')
  })

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
