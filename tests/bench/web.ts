/**
 * How fast today's page of a 200-field farm is sent, against a bare route that sends the same bytes, and while the day is
 * made anew in its own thread. Medians of several rounds, since others may use the machine too.
 * `node tests/bench/web.ts`; figures are printed, and it fails when one of them is missed.
 */

import { availableParallelism, loadavg } from 'node:os'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import autocannon, { type Result } from 'autocannon'
import { Hono } from 'hono'
import type { Farm } from '#core/operation/farm.ts'
import { NO_RULES } from '#core/planning/optimiser/plan-rules.ts'
import { preparedBy } from '#edges/maker/day-thread.ts'
import { openThread } from '#edges/maker/thread.ts'
import { webApp } from '#edges/web/app.ts'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { listenApp } from '#tests/edges/web/support/listen.ts'

const FIELDS = 200
const SECONDS = 3
const ROUNDS = 5
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

const THREAD = new URL('../../src/day-worker.ts', import.meta.url)

/** The same answers while the day of all fields is foreseen and planned again and again, in its own thread. */
async function whileMade(): Promise<void> {
  const { day } = await service.current()
  if (!day) throw new Error('No day was made')
  const { farm, nowEpochH, standingHa, past, ahead } = day
  const thread = openThread(THREAD, { seconds: 1, explain: false }, say)
  const prepare = preparedBy(thread)
  const delay = monitorEventLoopDelay({ resolution: 1 })
  let making = true
  let times = 0
  const input = { farm, nowEpochH, standingHa, weather: { past, ahead } }
  await prepare(input, [], NO_RULES)
  const all = (async () => {
    while (making) {
      await prepare(input, [], NO_RULES)
      times++
    }
  })()
  delay.enable()
  const steady = await run(`${pages.origin}/`, { connections: 20, overallRate: RATE_PER_S, duration: 2 * SECONDS })
  delay.disable()
  making = false
  await all
  await thread.close()
  say(
    `while the day is made ${times} times over: p50 ${steady.latency.p50} ms, p99 ${steady.latency.p99} ms, longest stop of the loop ${(delay.max / 1e6).toFixed(0)} ms`,
  )
}

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
  const perRequest = (result: Result) => (result.duration * 1000) / result.requests.total
  const rounds: { p50: number; over: number; p99: number; bareP99: number; ratio: number; most: number }[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const one = await run(`${pages.origin}/`, { connections: 1 })
    const oneBare = await run(`${bareRoute.origin}/`, { connections: 1 })
    const steadyBare = await run(`${bareRoute.origin}/`, { connections: 20, overallRate: RATE_PER_S })
    const steady = await run(`${pages.origin}/`, { connections: 20, overallRate: RATE_PER_S })
    if (steady.requests.average < RATE_PER_S * 0.95) faults.push(`only ${steady.requests.average} requests a second`)
    const most = await run(`${pages.origin}/`, { connections: 20 })
    const mostBare = await run(`${bareRoute.origin}/`, { connections: 20 })
    rounds.push({
      p50: one.latency.p50,
      over: perRequest(one) - perRequest(oneBare),
      p99: steady.latency.p99,
      bareP99: steadyBare.latency.p99,
      most: most.requests.average,
      ratio: most.requests.average / mostBare.requests.average,
    })
  }
  const middle = (of: (round: (typeof rounds)[number]) => number) => rounds.map(of).sort((a, b) => a - b)[ROUNDS >> 1]!
  say(`medians of ${ROUNDS} rounds; load of the machine ${loadavg()[0]!.toFixed(1)} on ${availableParallelism()} cores`)
  check(
    'median answer',
    middle(({ p50 }) => p50),
    MOST_MEDIAN_MS,
    'ms',
  )
  check(
    'mean over the bare route',
    middle(({ over }) => over),
    MOST_OVER_BARE_MS,
    'ms',
  )
  say(`p99 at 300 requests a second, bare route: ${middle(({ bareP99 }) => bareP99).toFixed(2)} ms`)
  check(
    'p99 at 300 requests a second',
    middle(({ p99 }) => p99),
    MOST_P99_MS,
    'ms',
  )
  say(
    `most: ${middle(({ most }) => most).toFixed(0)} requests a second, ratio to the bare route ${middle(({ ratio }) => ratio).toFixed(2)}`,
  )
  await whileMade()
} finally {
  await pages.close()
  await bareRoute.close()
}
if (faults.length > 0) {
  process.stderr.write(`Missed: ${faults.join('; ')}\n`)
  process.exitCode = 1
}
