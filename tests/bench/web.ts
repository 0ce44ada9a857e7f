/**
 * How fast today's page of a 200-field farm is sent, against a bare route that sends the same bytes.
 * `node tests/bench/web.ts`; figures are printed, and it fails when one of them is missed.
 */
import autocannon, { type Result } from 'autocannon'
import { Hono } from 'hono'
import type { Farm } from '#core/farm/farm.ts'
import { webApp } from '#edges/web/app.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { listenApp } from '#tests/edges/web/support/listen.ts'

const FIELDS = 200
const SECONDS = 5
const RATE_PER_S = 300
const MOST_MEDIAN_MS = 20
const MOST_OVER_BARE_MS = 5
const MOST_P99_MS = 100

const manyFields = (farm: Farm): Farm => ({
  ...farm,
  fields: Array.from({ length: FIELDS }, (_, index) => {
    const field = farm.fields[index % farm.fields.length]!
    return { ...field, id: `${field.id}-${index}`, name: `${field.name} ${index}` }
  }),
})

const run = (url: string, options: Partial<autocannon.Options>): Promise<Result> =>
  autocannon({ url, duration: SECONDS, workers: 1, headers: { 'accept-encoding': 'br' }, ...options })

const service = await demoService({ farm: manyFields })
const app = webApp(service)
const madeFrom = performance.now()
await service.current()
const made = performance.now()
const first = await app.request('/', { headers: { 'accept-encoding': 'br' } })
const bytes = new Uint8Array(await first.arrayBuffer())
const renderedMs = performance.now() - made

const bare = new Hono()
bare.get('/', (context) =>
  context.body(bytes, 200, { 'content-type': 'text/html; charset=utf-8', 'content-encoding': 'br' }),
)
const [pages, bareRoute] = await Promise.all([listenApp(app), listenApp(bare as unknown as typeof app)])
const say = (line: string) => process.stdout.write(`${line}\n`)
const faults: string[] = []
const check = (what: string, value: number, most: number, unit: string) => {
  say(`${what}: ${value.toFixed(2)} ${unit} (at most ${most})`)
  if (!(value <= most)) faults.push(what)
}
try {
  say(
    `${FIELDS} fields: day made in ${(made - madeFrom).toFixed(0)} ms, page first rendered and packed in ${renderedMs.toFixed(0)} ms, ${bytes.length} bytes sent`,
  )
  await run(`${pages.origin}/`, { connections: 4, duration: 2 })
  await run(`${bareRoute.origin}/`, { connections: 4, duration: 2 })
  const one = await run(`${pages.origin}/`, { connections: 1 })
  const oneBare = await run(`${bareRoute.origin}/`, { connections: 1 })
  const perRequest = (result: Result) => (result.duration * 1000) / result.requests.total
  check('median answer', one.latency.p50, MOST_MEDIAN_MS, 'ms')
  check('mean over the bare route', perRequest(one) - perRequest(oneBare), MOST_OVER_BARE_MS, 'ms')
  const steadyBare = await run(`${bareRoute.origin}/`, { connections: 20, overallRate: RATE_PER_S })
  say(`p99 at 300 requests a second, bare route: ${steadyBare.latency.p99.toFixed(2)} ms`)
  const steady = await run(`${pages.origin}/`, { connections: 20, overallRate: RATE_PER_S })
  check('p99 at 300 requests a second', steady.latency.p99, MOST_P99_MS, 'ms')
  if (steady.requests.average < RATE_PER_S * 0.95) faults.push(`only ${steady.requests.average} requests a second`)
  const most = await run(`${pages.origin}/`, { connections: 20 })
  const mostBare = await run(`${bareRoute.origin}/`, { connections: 20 })
  say(
    `most: ${most.requests.average.toFixed(0)} requests a second, bare route ${mostBare.requests.average.toFixed(0)}, ratio ${(most.requests.average / mostBare.requests.average).toFixed(2)}`,
  )
} finally {
  await pages.close()
  await bareRoute.close()
}
if (faults.length > 0) {
  process.stderr.write(`Missed: ${faults.join('; ')}\n`)
  process.exitCode = 1
}
