/** Slow errors: each hour keeps a share of the hour before and gets the rest anew, so that a warm member stays warm. */
import type { Random } from '#core/units/random.ts'

export interface RedNoise {
  /** Now; mean 0 and variance 1 at every hour. */
  readonly value: number
  /** Goes on one hour. */
  next(): void
}

/** @param memoryH time in which the correlation falls to 1/e [h], above 0. First-order autoregressive. */
export function redNoise(memoryH: number, random: Random): RedNoise {
  const keep = Math.exp(-1 / memoryH)
  const fresh = Math.sqrt(1 - keep * keep)
  let value = random.normal()
  return {
    get value() {
      return value
    },
    next() {
      value = keep * value + fresh * random.normal()
    },
  }
}
