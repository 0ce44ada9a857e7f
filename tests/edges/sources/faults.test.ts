import { gzipSync } from 'node:zlib'
import { afterEach, describe, expect, it } from 'vitest'
import {
  SourceFailure,
  SourceRefused,
  SourceTooThin,
  SourceUnitUnknown,
  SourceUnreachable,
  SourceUnreadable,
} from '#app/failures.ts'
import type { HttpLimits } from '#edges/http/client.ts'
import { cutOff, emptied, HUMIDITIES, infinite, numbers, TEMPERATURES, unknownUnits, without } from './support/spoil.ts'
import { type Fault, SOURCES, type World, world } from './support/world.ts'

const open: World[] = []
afterEach(async () => {
  for (const one of open.splice(0)) await one.stop()
})
async function start(limits: Partial<HttpLimits> = {}): Promise<World> {
  const one = await world(limits)
  open.push(one)
  return one
}

const text =
  (status: number, body: string | Buffer, headers: { [name: string]: string } = {}): Fault =>
  (_, response) => {
    response.writeHead(status, { 'content-type': 'application/json', ...headers }).end(body)
  }
/** The good body with something done to it. */
const changed =
  (change: (body: unknown) => unknown): Fault =>
  (_, response, good) => {
    response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify(change(structuredClone(good))))
  }
const cut: Fault = (_, response, good) => void response.writeHead(200).end(cutOff(good))
const html = '<!DOCTYPE html><html><head><title>Access Denied</title></head><body>no</body></html>'

type Failure = abstract new (...args: never[]) => SourceFailure
const anything: readonly (readonly [string, Fault, readonly Failure[]])[] = [
  ['cut-off JSON', cut, [SourceUnreadable]],
  ['a web page', text(200, html, { 'content-type': 'text/html' }), [SourceUnreadable]],
  ['an empty body', text(200, ''), [SourceUnreadable]],
  ['an empty object', text(200, '{}'), [SourceUnreadable]],
  ['null', text(200, 'null'), [SourceUnreadable]],
  ['a bare nan', text(200, '{"latitude":nan,"longitude":nan}'), [SourceUnreadable]],
  ['damaged gzip', text(200, gzipSync('{}').subarray(0, 8), { 'content-encoding': 'gzip' }), [SourceUnreadable]],
  ['400', text(400, '{"error":true,"reason":"wrong"}'), [SourceRefused]],
  ['403 as a web page', text(403, html), [SourceRefused]],
  ['404', text(404, '{"title":"Not Found"}'), [SourceRefused]],
  ['422', text(422, ''), [SourceRefused]],
  [
    '429 with a long Retry-After',
    text(429, '{"error":true,"reason":"limit"}', { 'retry-after': '3600' }),
    [SourceRefused],
  ],
  ['500', text(500, '{"title":"Unexpected Problem"}'), [SourceRefused]],
  ['503', text(503, ''), [SourceRefused]],
  [
    'a redirect loop',
    (request, response) => void response.writeHead(302, { location: request.url! }).end(),
    [SourceUnreadable],
  ],
  ['a connection that drops', (request) => void request.socket.destroy(), [SourceUnreachable]],
  ['a number in words', changed(numbers(String)), [SourceUnreadable, SourceUnitUnknown, SourceTooThin]],
  ['numbers beyond all bounds', changed(numbers(() => '@')), [SourceUnreadable]],
]
/** For bodies with weather in them. */
const weather: typeof anything = [
  ['null for every number', changed(numbers(() => null)), [SourceUnreadable, SourceTooThin]],
  ['unknown units', changed(unknownUnits), [SourceUnitUnknown]],
  ['no temperature', changed(without(TEMPERATURES)), [SourceUnreadable, SourceTooThin]],
  ['no humidity', changed(without(HUMIDITIES)), [SourceUnreadable, SourceTooThin]],
  ['no values at all', changed(emptied), [SourceUnreadable, SourceTooThin]],
  ['absurd numbers', changed(numbers((n) => (n === 0 ? 0 : n * 1e6 + 1e6))), [SourceUnreadable, SourceTooThin]],
  ['negative absurd numbers', changed(numbers((n) => (n === 0 ? 0 : -1e6))), [SourceUnreadable, SourceTooThin]],
  [
    'infinity',
    (_, response, good) => void response.writeHead(200).end(infinite(good)),
    [SourceUnreadable, SourceTooThin],
  ],
]
describe.each(Object.entries(SOURCES))('%s', (name, { path, fetch }) => {
  it('answers well when the service does', async () => {
    await expect(fetch(await start())).resolves.toBeDefined()
  })

  const faults =
    name === 'NWS warnings' || name === 'NWS points' ? anything.slice(0, -2) : [...anything.slice(0, -1), ...weather]
  it.each(faults)('refuses %s', async (_, fault, classes) => {
    const one = await start()
    one.spoil(path, fault)
    const failure = await failureOf(fetch(one))
    expect(
      classes.some((kind) => failure instanceof kind),
      failure.message,
    ).toBe(true)
    expect(failure.message).toContain(failure.where)
    expect(failure.message).toContain(failure.cure)
    expect(failure.where.length * failure.cure.length).toBeGreaterThan(0)
  })

  it('gives up on a slow trickle', async () => {
    const one = await start({ totalMs: 300 })
    one.spoil(path, (_, response) => {
      response.writeHead(200)
      const timer = setInterval(() => response.write(' '), 20)
      response.on('close', () => clearInterval(timer))
    })
    expect(await failureOf(fetch(one))).toBeInstanceOf(SourceUnreachable)
  })

  it('refuses a huge body', async () => {
    const one = await start({ maxBytes: 400_000 })
    one.spoil(path, text(200, `{"a":"${'x'.repeat(500_000)}"}`))
    expect((await failureOf(fetch(one))).message).toContain('longer than the 0.4 MB')
  })
})

async function failureOf(promise: Promise<unknown>): Promise<SourceFailure> {
  let value: unknown
  try {
    value = await promise
  } catch (error) {
    if (error instanceof SourceFailure) return error
    throw error
  }
  throw new Error(`nothing was refused: ${JSON.stringify(value).slice(0, 300)}`)
}
