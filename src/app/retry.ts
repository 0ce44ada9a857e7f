/** When to try again: soon at first, then ever later, each time shifted a little so that many do not come at once. */

const MINUTE = 1 / 60

/**
 * Waits after the first, second, ... failed try [min]; the last one repeats. A mail server that greylists takes the
 * second or third try (common practice, no source); RFC 5321, 4.5.4.1 asks half an hour of a relay, which the last is.
 */
const WAITS_MIN = [1, 2, 4, 8, 15, 30] as const
const URGENT_WAIT_MIN = 1
/** Share by which a wait is made shorter or longer. */
const SHIFT = 0.2
export const MOST_TRIES = 16
/** An urgent parcel is tried every minute, for hours. */
export const MOST_URGENT_TRIES = 240

/**
 * @param attempts tries so far, 1 or more. @param chance a draw from [0, 1).
 * @returns the wait before the next try [h], or undefined when there shall be none.
 */
export function waitBefore(attempts: number, urgent: boolean, chance: number): number | undefined {
  if (attempts >= (urgent ? MOST_URGENT_TRIES : MOST_TRIES)) return undefined
  if (urgent) return URGENT_WAIT_MIN * MINUTE
  const wait = WAITS_MIN[Math.min(attempts, WAITS_MIN.length) - 1]!
  return wait * MINUTE * (1 + SHIFT * (2 * chance - 1))
}
