/** What may be wrong with an answer, and the refusals that it may end in. */
import { gzipSync } from 'node:zlib'
import {
  type SourceFailure,
  SourceRefused,
  SourceTooOld,
  SourceTooThin,
  SourceUnitUnknown,
  SourceUnreachable,
  SourceUnreadable,
} from '#app/failures.ts'
import { type Answering, json } from './msw-world.ts'
import { cutOff, emptied, HUMIDITIES, infinite, moved, numbers, TEMPERATURES, unknownUnits, without } from './spoil.ts'

const HTML = '<!DOCTYPE html><html><head><title>Access Denied</title></head><body>no</body></html>'
export const status =
  (code: number, body: unknown = '', headers: { [name: string]: string } = {}): Answering =>
  () =>
    json(body, { status: code, headers })
export const changed =
  (change: (body: unknown) => unknown): Answering =>
  (good) =>
    json(change(good))

export type Failure = abstract new (...args: never[]) => SourceFailure
export type Faults = readonly (readonly [name: string, answer: Answering, failures: readonly Failure[]])[]

/** Of any answer. */
export const OF_TRANSPORT: Faults = [
  ['JSON cut off', (good) => json(cutOff(good)), [SourceUnreadable]],
  ['a web page for data', () => json(HTML, { headers: { 'content-type': 'text/html' } }), [SourceUnreadable]],
  ['an empty body', status(200), [SourceUnreadable]],
  ['an empty object', status(200, '{}'), [SourceUnreadable]],
  ['a body that is no JSON: nan', status(200, '{"latitude":nan,"longitude":nan}'), [SourceUnreadable]],
  [
    'packed data cut off',
    (good) =>
      new Response(gzipSync(JSON.stringify(good)).subarray(0, 200), { headers: { 'content-encoding': 'gzip' } }),
    [SourceUnreadable],
  ],
  ['400', status(400, '{"error":true,"reason":"wrong"}'), [SourceRefused]],
  ['401', status(401, '{"reason":"no key"}'), [SourceRefused]],
  ['403 as a web page', status(403, HTML), [SourceRefused]],
  ['404', status(404, '{"title":"Not Found"}'), [SourceRefused]],
  ['422', status(422), [SourceRefused]],
  ['429 with Retry-After', status(429, '{"reason":"limit"}', { 'retry-after': '3600' }), [SourceRefused]],
  ['429 without', status(429), [SourceRefused]],
  ['500', status(500, '{"title":"Unexpected Problem"}'), [SourceRefused]],
  ['502 as a web page', status(502, HTML), [SourceRefused]],
  ['503', status(503), [SourceRefused]],
  ['504', status(504), [SourceRefused]],
  [
    'a redirect loop',
    (_, request) => new Response(null, { status: 302, headers: { location: request.url } }),
    [SourceUnreadable],
  ],
  [
    'a redirect to an unsafe address',
    () => new Response(null, { status: 302, headers: { location: 'http://weather.example.org/' } }),
    [SourceUnreadable],
  ],
  ['a connection that breaks', () => Response.error(), [SourceUnreachable]],
]

/** Of bodies with weather in them. */
export const OF_WEATHER: Faults = [
  ['no temperature', changed(without(TEMPERATURES)), [SourceUnreadable, SourceTooThin]],
  ['no humidity', changed(without(HUMIDITIES)), [SourceUnreadable, SourceTooThin]],
  ['empty lists', changed(emptied), [SourceUnreadable, SourceTooThin]],
  ['null for every number', changed(numbers(() => null)), [SourceUnreadable, SourceTooThin]],
  ['an unknown unit', changed(unknownUnits), [SourceUnitUnknown]],
  ['absurdly high numbers', changed(numbers((n) => (n === 0 ? 0 : n * 1e6 + 1e6))), [SourceUnreadable, SourceTooThin]],
  ['absurdly low numbers', changed(numbers((n) => (n === 0 ? 0 : -1e6))), [SourceUnreadable, SourceTooThin]],
  ['the fill value -9999', changed(numbers(() => -9999)), [SourceUnreadable, SourceTooThin]],
  ['infinity', (good) => json(infinite(good)), [SourceUnreadable, SourceTooThin]],
  ['words for numbers', changed(numbers(String)), [SourceUnreadable]],
  // Stale ones are told by their issue; what has no issue no longer reaches now.
  ['last week', changed(moved(-24 * 16)), [SourceTooOld, SourceTooThin]],
]
