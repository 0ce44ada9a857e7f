/**
 * Who may ask which host when: few questions at once, a gap between starts, and silence for as long as a host
 * asked for (Retry-After).
 */
export interface Clock {
  nowMs(): number
  /** Resolves after the time, or rejects with the signal's reason. */
  wait(ms: number, signal: AbortSignal): Promise<void>
}

interface Host {
  running: number
  nextStartMs: number
  silentUntilMs: number
  readonly queue: (() => void)[]
}

export class PerHost {
  readonly #hosts = new Map<string, Host>()
  readonly #clock: Clock
  readonly #atOnce: number
  readonly #gapMs: number

  constructor(clock: Clock, atOnce: number, gapMs: number) {
    this.#clock = clock
    this.#atOnce = atOnce
    this.#gapMs = gapMs
  }

  /** Runs the work when it is the caller's turn. */
  async inTurn<T>(host: string, signal: AbortSignal, work: () => Promise<T>): Promise<T> {
    const state = this.#hostOf(host)
    await this.#slot(state, signal)
    try {
      const startMs = Math.max(this.#clock.nowMs(), state.nextStartMs)
      state.nextStartMs = startMs + this.#gapMs
      const waitMs = startMs - this.#clock.nowMs()
      if (waitMs > 0) await this.#clock.wait(waitMs, signal)
      return await work()
    } finally {
      const next = state.queue.shift()
      if (next === undefined) state.running -= 1
      else next()
    }
  }

  /** The host asked for silence. */
  silence(host: string, seconds: number): void {
    const state = this.#hostOf(host)
    state.silentUntilMs = Math.max(state.silentUntilMs, this.#clock.nowMs() + seconds * 1000)
  }

  /** @returns how long the host still wants silence [s]; 0 if it does not. */
  silentForS(host: string): number {
    return Math.max(0, Math.ceil((this.#hostOf(host).silentUntilMs - this.#clock.nowMs()) / 1000))
  }

  #slot(state: Host, signal: AbortSignal): Promise<void> {
    signal.throwIfAborted()
    if (state.running < this.#atOnce) {
      state.running += 1
      return Promise.resolve()
    }
    return new Promise((resolve, reject) => {
      const enter = () => {
        signal.removeEventListener('abort', leave)
        resolve()
      }
      const leave = () => {
        const at = state.queue.indexOf(enter)
        if (at >= 0) state.queue.splice(at, 1)
        reject(signal.reason)
      }
      state.queue.push(enter)
      signal.addEventListener('abort', leave, { once: true })
    })
  }

  #hostOf(name: string): Host {
    let host = this.#hosts.get(name)
    if (host === undefined) {
      host = { running: 0, nextStartMs: 0, silentUntilMs: 0, queue: [] }
      this.#hosts.set(name, host)
    }
    return host
  }
}
