/** So many tries in so long, by any key: an address, a name. Kept in memory: a restart forgives. */
export interface RateLimit {
  readonly most: number
  readonly perH: number
}

/** More keys than this are forgotten together, oldest windows first. */
const MOST_KEYS = 10_000

export class Tries {
  readonly #limit: RateLimit
  readonly #clock: () => number
  readonly #windows = new Map<string, { startEpochH: number; count: number }>()

  constructor(limit: RateLimit, clock: () => number) {
    this.#limit = limit
    this.#clock = clock
  }

  /** Counts a try. @returns false when it is one too many. */
  take(key: string): boolean {
    const now = this.#clock()
    const window = this.#windows.get(key)
    if (window && now - window.startEpochH < this.#limit.perH) {
      window.count++
      return window.count <= this.#limit.most
    }
    this.#windows.delete(key)
    this.#windows.set(key, { startEpochH: now, count: 1 })
    for (const [old] of this.#windows) {
      if (this.#windows.size <= MOST_KEYS) break
      this.#windows.delete(old)
    }
    return true
  }
}
