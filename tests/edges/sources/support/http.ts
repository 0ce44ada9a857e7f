/** A client for tests: no gaps, short waits, a clock that does not really wait. */
import { HttpClient, type HttpLimits } from '#edges/http/client.ts'
import type { Clock } from '#edges/http/per-host.ts'

export class TestClock implements Clock {
  ms: number
  readonly waits: number[] = []

  constructor(epochH: number) {
    this.ms = epochH * 3_600_000
  }

  nowMs(): number {
    return this.ms
  }

  async wait(ms: number, signal: AbortSignal): Promise<void> {
    signal.throwIfAborted()
    this.waits.push(ms)
    this.ms += ms
  }
}

export function testClient(clock: Clock, limits: Partial<HttpLimits> = {}): HttpClient {
  return new HttpClient({
    contact: 'operator@example.org',
    clock,
    random: () => 0.5,
    limits: { gapPerHostMs: 0, connectMs: 1_000, headersMs: 1_000, bodyMs: 1_000, totalMs: 4_000, ...limits },
  })
}
