/** Measurements for Prometheus: of the process, of the requests by route, and of the day shown. */
import type { MiddlewareHandler } from 'hono'
import { routePath } from 'hono/route'
import { collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client'
import type { OutboxStore, ParcelState } from '#app/outbox-port.ts'
import { type Service, shownBy } from '#app/service.ts'
import type { LiveSources } from './sources-page.ts'

/** From a tenth of a millisecond, what a page kept ready takes, to ten seconds. */
const SECONDS = [0.0001, 0.0003, 0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1, 3, 10]
const SECONDS_PER_HOUR = 3600

export interface Metrics {
  /** Times every request under its route, not its path, so that there are few series. */
  readonly timed: MiddlewareHandler
  text(): Promise<string>
  readonly type: string
}

export interface MeasuredParts {
  readonly outbox?: Pick<OutboxStore, 'recent'> | undefined
  readonly sources?: Pick<LiveSources, 'states'> | undefined
}

/** Messages of late that are counted by their state. */
const MOST_MESSAGES = 1000
const STATES: readonly ParcelState[] = ['waiting', 'sending', 'sent', 'dead', 'lapsed']

export function metricsOf(service: Service, { outbox, sources }: MeasuredParts = {}): Metrics {
  const registry = new Registry()
  collectDefaultMetrics({ register: registry })
  // Names and labels: OpenTelemetry semantic conventions for HTTP, as Prometheus writes them.
  const duration = new Histogram({
    name: 'http_server_request_duration_seconds',
    help: 'Time to answer a request.',
    labelNames: ['http_request_method', 'http_route', 'http_response_status_code'],
    buckets: SECONDS,
    registers: [registry],
  })
  const ready = new Gauge({
    name: 'threshday_day_ready',
    help: '1 when a field can be named from weather young enough.',
    registers: [registry],
  })
  const age = new Gauge({
    name: 'threshday_weather_age_seconds',
    help: 'Time since the forecast in use was issued.',
    registers: [registry],
  })
  const parts = new Gauge({
    name: 'threshday_parts_standing',
    help: 'Fields and patches with crop still standing.',
    registers: [registry],
  })

  const messages = new Gauge({
    name: 'threshday_messages',
    help: `Messages by state, of the last ${MOST_MESSAGES}.`,
    labelNames: ['state'],
    registers: [registry],
  })
  const failed = new Gauge({
    name: 'threshday_source_failed_ratio',
    help: 'Share of the calls to a weather source that failed, of the last week.',
    labelNames: ['source', 'kind'],
    registers: [registry],
  })
  const sourceAge = new Gauge({
    name: 'threshday_source_weather_age_seconds',
    help: 'Time since the newest weather of a source was issued.',
    labelNames: ['source', 'kind'],
    registers: [registry],
  })

  async function read(): Promise<void> {
    const { day } = (await shownBy(service)).made
    const recent = (await outbox?.recent(service.farm.id, MOST_MESSAGES)) ?? []
    for (const state of STATES) messages.set({ state }, recent.filter((parcel) => parcel.state === state).length)
    for (const { sourceId: source, kind, failedShare, ageH } of (await sources?.states(service.clock())) ?? []) {
      failed.set({ source, kind }, failedShare)
      sourceAge.set({ source, kind }, ageH * SECONDS_PER_HOUR)
    }
    ready.set(day ? 1 : 0)
    age.set(day ? (service.clock() - day.ahead.provenance.issuedAtEpochH) * SECONDS_PER_HOUR : Number.NaN)
    parts.set(day?.outlooks.length ?? Number.NaN)
  }

  return {
    timed: async (context, next) => {
      const started = performance.now()
      await next()
      duration.observe(
        {
          http_request_method: context.req.method,
          http_route: routePath(context, -1),
          http_response_status_code: context.res.status,
        },
        (performance.now() - started) / 1000,
      )
    },
    text: async () => {
      await read()
      return registry.metrics()
    },
    type: registry.contentType,
  }
}
