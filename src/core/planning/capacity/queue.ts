/** Waiting: combines for a cart, trucks at the buyer. */

export interface FiniteSourceQueue {
  /** Mean number of combines that wait for a cart. */
  readonly waiting: number
  /** Mean number of combines that wait or are being served. */
  readonly atServer: number
  /** Share of time a combine cuts when unloading on the go does not stop it [0-1]. */
  readonly useOnTheGo: number
  /** Share of time a combine cuts when it stands still to unload [0-1]. */
  readonly useStopped: number
}

/**
 * Few machines, few servers: the machine-repairman queue M/M/c//N.
 *
 * @param machines combines [whole number, 1 or more].
 * @param servers carts [whole number, 1 or more].
 * @param fillMin mean time between calls of one combine [min, above 0].
 * @param serviceMin mean time a cart is taken up by a call [min, 0 or more].
 * @returns means of the steady state; all NaN when an input is not known or out of range.
 * Form: P_n ~ C(N,n) r^n for n <= c, times n!/(c! c^(n-c)) beyond, r = service / fill; textbook queueing theory.
 * On the go a combine's round is fill + wait, so its use is fill / (fill + wait) = (N - L) / (N - L + L_q).
 * Times are taken as exponential, so real, more even cycles wait less: read `use` as the low end.
 * Checked: tests/truth/capacity.ts (finite queuing table of Peck & Hazelwood 1958, thirteen rows).
 */
export function finiteSourceQueue(
  machines: number,
  servers: number,
  fillMin: number,
  serviceMin: number,
): FiniteSourceQueue {
  const whole = Number.isInteger(machines) && Number.isInteger(servers) && machines >= 1 && servers >= 1
  if (!(whole && fillMin > 0 && serviceMin >= 0)) {
    return { waiting: Number.NaN, atServer: Number.NaN, useOnTheGo: Number.NaN, useStopped: Number.NaN }
  }
  const r = serviceMin / fillMin
  let weight = 1
  let total = 1
  let atServer = 0
  let waiting = 0
  for (let n = 1; n <= machines; n++) {
    weight *= ((machines - n + 1) * r) / Math.min(n, servers) // births over deaths, state n-1 to n
    total += weight
    atServer += n * weight
    waiting += Math.max(0, n - servers) * weight
  }
  atServer /= total
  waiting /= total
  const cutting = machines - atServer
  return {
    waiting,
    atServer,
    useOnTheGo: cutting / (cutting + waiting),
    useStopped: cutting / machines,
  }
}

/**
 * Time a truck waits in line at the buyer.
 *
 * @param arrivalsPerH trucks that come, all farms together [1/h, 0 or more].
 * @param servedPerH trucks the buyer can take [1/h, above the arrivals].
 * @param service whether dumping takes an even time (M/D/1) or any time (M/M/1).
 * @returns mean wait before service [min]; NaN when an input is not known, or when more come than can be served, where
 *   the line only grows.
 * Form: W_q = rho / (mu - lambda) for M/M/1, half of it for M/D/1 (Pollaczek-Khinchine). Checked: tests/truth/capacity.ts.
 */
export function truckQueueMin(arrivalsPerH: number, servedPerH: number, service: 'even' | 'any'): number {
  if (!(arrivalsPerH >= 0 && servedPerH > arrivalsPerH)) return Number.NaN
  const anyMin = (60 * (arrivalsPerH / servedPerH)) / (servedPerH - arrivalsPerH)
  return service === 'even' ? anyMin / 2 : anyMin
}
