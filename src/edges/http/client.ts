/**
 * The one way out to weather services: polite (names its operator, keeps to caches and limits), patient for a
 * bounded time, and strict about what it lets in. Every failure leaves as one of the classes in `app/failures.ts`.
 */
import { createHash } from 'node:crypto'
import { Agent, cacheStores, type Dispatcher, interceptors, request } from 'undici'
import { SourceFailure, SourceRefused, SourceUnreachable, SourceUnreadable } from '#app/failures.ts'
import type { Silence } from '#app/source-fault.ts'
import { BodyFault, bytesOf, decoded, jsonOf, saidIn } from './body.ts'
import { CONTACT } from './contact.ts'
import { expiresAtMs, type Headers, headerOf, retryAfterS } from './headers.ts'
import { type Clock, PerHost } from './per-host.ts'

export interface HttpSettings {
  /** Mail or web address of the operator: the services ask to know whom to write to. */
  readonly contact: string
  readonly clock: Clock
  /** 0-1, for the jitter of waits. */
  readonly random: () => number
  readonly limits?: Partial<HttpLimits>
  /** File of the response cache; in memory only if not given. */
  readonly cachePath?: string
}

export interface HttpLimits {
  readonly connectMs: number
  readonly headersMs: number
  /** Longest silence inside a body. */
  readonly bodyMs: number
  /** For one question with all its redirects, waits and tries, once it is its turn. */
  readonly totalMs: number
  readonly maxBytes: number
  readonly redirects: number
  /** Tries after the first. */
  readonly retries: number
  readonly firstRetryMs: number
  /** A longer Retry-After is not waited for but remembered: until then nothing is asked. */
  readonly longestWaitMs: number
  readonly atOncePerHost: number
  readonly gapPerHostMs: number
}

const LIMITS = {
  connectMs: 10_000,
  headersMs: 20_000,
  bodyMs: 15_000,
  totalMs: 60_000,
  maxBytes: 8_000_000,
  redirects: 3,
  retries: 2,
  firstRetryMs: 1_000,
  longestWaitMs: 15_000,
  atOncePerHost: 4,
  // MET Norway allows 20 questions a second for all of an application together.
  gapPerHostMs: 60,
} as const satisfies HttpLimits

export interface Question<T> {
  readonly url: URL
  /** Name of the supplier, for errors. */
  readonly source: string
  readonly accept?: string
  readonly signal?: AbortSignal | undefined
  /** Forget what is cached, because it proved wrong. */
  readonly fresh?: boolean
  /** Makes sense of the JSON or throws; what it refuses is also dropped from the cache. */
  readonly read: (json: unknown) => T
}

export interface Answer<T> {
  readonly value: T
  /** SHA-256 of the body, hex. An answer confirmed as unchanged (304) looks like any other: compare this. */
  readonly rawHash: string
  readonly expiresAtEpochH?: number
  readonly notes: readonly string[]
}

interface Raw {
  readonly status: number
  readonly headers: Headers
  readonly bytes: Buffer
}

const RETRY_STATUS = new Set([429, 500, 502, 503, 504])
const MS_PER_HOUR = 3_600_000
const MAX_CACHE_BYTES = 64_000_000
const MAX_REFUSAL_BYTES = 65_536

export class HttpClient {
  readonly #clock: Clock
  readonly #random: () => number
  readonly #limits: HttpLimits
  readonly #perHost: PerHost
  readonly #store: InstanceType<typeof cacheStores.MemoryCacheStore> | InstanceType<typeof cacheStores.SqliteCacheStore>
  readonly #dispatcher: Dispatcher
  readonly #userAgent: string

  constructor(settings: HttpSettings) {
    if (!CONTACT.test(settings.contact))
      throw new RangeError(`contact "${settings.contact}" is neither a mail nor a web address`)
    this.#limits = { ...LIMITS, ...settings.limits }
    this.#clock = settings.clock
    this.#random = settings.random
    this.#userAgent = `threshday/0.1 (${settings.contact})`
    this.#perHost = new PerHost(settings.clock, this.#limits.atOncePerHost, this.#limits.gapPerHostMs)
    this.#store =
      settings.cachePath === undefined
        ? new cacheStores.MemoryCacheStore({ maxEntrySize: this.#limits.maxBytes, maxSize: MAX_CACHE_BYTES })
        : new cacheStores.SqliteCacheStore({ location: settings.cachePath, maxEntrySize: this.#limits.maxBytes })
    this.#dispatcher = new Agent({
      connect: { timeout: this.#limits.connectMs },
      headersTimeout: this.#limits.headersMs,
      bodyTimeout: this.#limits.bodyMs,
      allowH2: false,
      connections: this.#limits.atOncePerHost,
    }).compose(interceptors.cache({ store: this.#store, methods: ['GET'], type: 'private' }))
  }

  async close(): Promise<void> {
    await this.#dispatcher.close()
    if (this.#store instanceof cacheStores.SqliteCacheStore) this.#store.close()
  }

  async getJson<T>(question: Question<T>): Promise<Answer<T>> {
    const { source, url } = question
    const where = shown(url)
    const asked = question.signal ?? new AbortController().signal
    try {
      if (question.fresh === true) await this.#forget(url)
      return await this.#perHost.inTurn(url.host, asked, async () => {
        const signal = AbortSignal.any([asked, AbortSignal.timeout(this.#limits.totalMs)])
        return await this.#read(question, await this.#tryAndTryAgain(question, signal))
      })
    } catch (cause) {
      if (cause instanceof SourceFailure) throw cause
      if (cause instanceof BodyFault)
        throw new SourceUnreadable(`its answer ${cause.message}`, { source, where, cause })
      if (asked.aborted) {
        throw new SourceUnreachable('was no longer waited for', { source, where, cause, silence: { why: 'left' } })
      }
      const { what, silence } = whyUnreachable(cause, this.#limits)
      throw new SourceUnreachable(what, { source, where, cause, silence })
    }
  }

  async #read<T>(question: Question<T>, raw: Raw): Promise<Answer<T>> {
    const { url } = question
    try {
      const bytes = await decoded(raw.bytes, headerOf(raw.headers, 'content-encoding'), this.#limits.maxBytes)
      const value = question.read(jsonOf(new TextDecoder('utf-8', { fatal: false }).decode(bytes)))
      const expires = expiresAtMs(raw.headers, this.#clock.nowMs())
      return {
        value,
        rawHash: createHash('sha256').update(bytes).digest('hex'),
        ...(expires === undefined ? {} : { expiresAtEpochH: expires / MS_PER_HOUR }),
        notes: raw.status === 203 ? [`${shown(url)} answered 203: this product is deprecated or a trial.`] : [],
      }
    } catch (cause) {
      // A broken body must not be served from the cache until it expires.
      await this.#forget(url)
      throw cause
    }
  }

  async #forget(url: URL): Promise<void> {
    await this.#store.delete({ origin: url.origin, method: 'GET', path: `${url.pathname}${url.search}` })
  }

  /**
   * Asks as a whole again. Not by undici's retry interceptor: it takes up a body that broke off by `Range` without a
   * validator, so that halves of two forecasts come out as one good answer (measured on 8.13.1), and cannot be told not to.
   */
  async #tryAndTryAgain(question: Question<unknown>, signal: AbortSignal): Promise<Raw> {
    const { source, url } = question
    const where = shown(url)
    const silentS = this.#perHost.silentForS(url.host)
    if (silentS > 0) throw new SourceRefused(429, 'asked for silence earlier', { source, where, retryAfterS: silentS })
    for (let failed = 0; ; failed++) {
      const backOffMs = this.#limits.firstRetryMs * 4 ** failed * (0.75 + 0.5 * this.#random())
      const last = failed >= this.#limits.retries
      try {
        const raw = await this.#follow(question, signal)
        if (raw.status === 200 || raw.status === 203) return raw
        const waitS = retryAfterS(raw.headers, this.#clock.nowMs())
        const waitMs = waitS === undefined ? backOffMs : Math.max(waitS * 1000, backOffMs)
        if (!RETRY_STATUS.has(raw.status) || last || waitMs > this.#limits.longestWaitMs) {
          if (waitS !== undefined) this.#perHost.silence(url.host, waitS)
          throw refusalOf(raw, source, where, waitS)
        }
        await this.#clock.wait(waitMs, signal)
      } catch (cause) {
        if (last || cause instanceof SourceFailure || cause instanceof BodyFault || signal.aborted) throw cause
        await this.#clock.wait(backOffMs, signal)
      }
    }
  }

  async #follow(question: Question<unknown>, signal: AbortSignal): Promise<Raw> {
    const { source } = question
    let url = question.url
    for (let hops = 0; hops <= this.#limits.redirects; hops++) {
      const response = await request(url, {
        dispatcher: this.#dispatcher,
        signal,
        headers: {
          'user-agent': this.#userAgent,
          accept: question.accept ?? 'application/json',
          'accept-encoding': 'gzip',
        },
      })
      const { statusCode: status, headers } = response
      const location = status >= 300 && status < 400 ? headerOf(headers, 'location') : ''
      if (location === '') {
        const maxBytes = status === 200 || status === 203 ? this.#limits.maxBytes : MAX_REFUSAL_BYTES
        return { status, headers, bytes: await bytesOf(response.body, maxBytes) }
      }
      await response.body.dump({ limit: MAX_REFUSAL_BYTES })
      const next = URL.parse(location, url)
      // Never from https to something weaker, and never to a file or another scheme.
      if (next === null || (next.protocol !== 'https:' && next.protocol !== question.url.protocol))
        throw new SourceUnreadable('sends us on to an address that is not safe', {
          source,
          where: shown(url),
          why: 'sent-on',
        })
      url = next
    }
    throw new SourceUnreadable(`sends us on more than ${this.#limits.redirects} times`, {
      source,
      where: shown(question.url),
      why: 'sent-on',
    })
  }
}

function refusalOf(raw: Raw, source: string, where: string, waitS: number | undefined): SourceRefused {
  const said = saidIn(raw.bytes.toString('utf8'))
  return new SourceRefused(raw.status, said, { source, where, ...(waitS === undefined ? {} : { retryAfterS: waitS }) })
}

function whyUnreachable(cause: unknown, limits: HttpLimits): { what: string; silence?: Silence } {
  const code = (cause as NodeJS.ErrnoException)?.code
  const name = (cause as Error)?.name
  const waited = (why: Exclude<Silence['why'], 'no-name' | 'left'>, ms: number, say: (s: number) => string) => ({
    what: say(ms / 1000),
    silence: { why, afterS: ms / 1000 },
  })
  if (name === 'TimeoutError') return waited('slow', limits.totalMs, (s) => `took longer than ${s} s in all`)
  switch (code) {
    case 'UND_ERR_CONNECT_TIMEOUT':
      return waited('no-connection', limits.connectMs, (s) => `did not take the connection within ${s} s`)
    case 'UND_ERR_HEADERS_TIMEOUT':
      return waited('no-start', limits.headersMs, (s) => `did not start to answer within ${s} s`)
    case 'UND_ERR_BODY_TIMEOUT':
      return waited('stopped', limits.bodyMs, (s) => `stopped for more than ${s} s inside its answer`)
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return { what: 'has no address: its name cannot be resolved', silence: { why: 'no-name' } }
    default:
      return { what: `cannot be reached${code === undefined ? '' : `, ${code}`}` }
  }
}

const SECRET_PARAMETERS = ['apikey', 'api_key', 'key', 'token']

/** @returns the address as it may be logged: no credentials, no keys. */
export function shown(url: URL): string {
  const copy = new URL(url)
  copy.username = ''
  copy.password = ''
  for (const name of SECRET_PARAMETERS) if (copy.searchParams.has(name)) copy.searchParams.set(name, 'hidden')
  return copy.href
}
