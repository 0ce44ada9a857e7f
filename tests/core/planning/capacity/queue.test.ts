import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { finiteSourceQueue, truckQueueMin } from '#core/planning/capacity/queue.ts'
import { FINITE_QUEUE_OF_FIVE, ONE_SERVER } from '#tests/truth/capacity.ts'

describe('combines that wait for a cart', () => {
  it.each(FINITE_QUEUE_OF_FIVE)('X $x, $servers served at once: F $f (Peck & Hazelwood)', ({ x, servers, f }) => {
    // X = T / (T + U): with a fill of 1 the service is X / (1 - X). F = (N - L_q) / N.
    const { waiting } = finiteSourceQueue(5, servers, 1, x / (1 - x))
    expect((5 - waiting) / 5).toBeCloseTo(f, 3)
  })

  it('one combine with one cart never waits', () => {
    const queue = finiteSourceQueue(1, 1, 9, 3)
    expect(queue.waiting).toBe(0)
    expect(queue.useOnTheGo).toBe(1)
    expect(queue.useStopped).toBeCloseTo(9 / 12, 12) // fill / (fill + service), by hand
  })

  it('carts for all leave nobody waiting', () => {
    const queue = finiteSourceQueue(4, 4, 9, 3)
    expect(queue.waiting).toBe(0)
    expect(queue.atServer).toBeCloseTo(4 * (3 / 12), 12) // each on its own, by hand
  })

  it('keeps its flows in balance: calls made are calls served', () => {
    const n = fc.integer({ min: 1, max: 12 })
    const time = fc.double({ min: 0.1, max: 60, noNaN: true })
    fc.assert(
      fc.property(n, n, time, time, (machines, servers, fill, service) => {
        const { waiting, atServer, useOnTheGo, useStopped } = finiteSourceQueue(machines, servers, fill, service)
        const calls = (machines - atServer) / fill
        const served = (atServer - waiting) / service
        expect(calls / served).toBeCloseTo(1, 6)
        expect(atServer - waiting).toBeLessThanOrEqual(servers + 1e-9)
        expect(useStopped).toBeLessThanOrEqual(useOnTheGo + 1e-12)
        expect(useOnTheGo).toBeLessThanOrEqual(1)
        expect(useStopped).toBeGreaterThan(0)
      }),
    )
  })

  it('waits less with one cart more', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 8 }), (machines, servers) => {
        const few = finiteSourceQueue(machines, servers, 9, 5).useOnTheGo
        expect(finiteSourceQueue(machines, servers + 1, 9, 5).useOnTheGo).toBeGreaterThanOrEqual(few - 1e-12)
      }),
    )
  })

  it('is unknown where an input is unknown or out of range', () => {
    for (const queue of [
      finiteSourceQueue(0, 1, 9, 3),
      finiteSourceQueue(2.5, 1, 9, 3),
      finiteSourceQueue(3, Number.NaN, 9, 3),
      finiteSourceQueue(3, 1, 0, 3),
      finiteSourceQueue(3, 1, 9, -1),
      finiteSourceQueue(3, 1, 9, Number.NaN),
    ]) {
      expect(Object.values(queue).every(Number.isNaN)).toBe(true)
    }
  })
})

describe('trucks in line', () => {
  it('wait 1.39 min in the worked example', () => {
    const { arrivalsPerMin, servedPerMin, waitMin } = ONE_SERVER
    expect(truckQueueMin(60 * arrivalsPerMin, 60 * servedPerMin, 'any')).toBeCloseTo(waitMin, 2)
  })

  it('wait half as long when every dump takes the same time, and longer the more come', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 9, noNaN: true }), (arrivals) => {
        const any = truckQueueMin(arrivals, 10, 'any')
        expect(truckQueueMin(arrivals, 10, 'even')).toBeCloseTo(any / 2, 12)
        expect(truckQueueMin(arrivals + 0.5, 10, 'any')).toBeGreaterThan(any)
      }),
    )
  })

  it('have no mean wait when more come than are served', () => {
    expect(truckQueueMin(10, 10, 'any')).toBeNaN()
    expect(truckQueueMin(11, 10, 'even')).toBeNaN()
    expect(truckQueueMin(Number.NaN, 10, 'any')).toBeNaN()
    expect(truckQueueMin(1, Number.NaN, 'any')).toBeNaN()
  })
})
