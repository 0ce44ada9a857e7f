import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Alert, AlertKind, SaidAlert } from '#core/messages/alerts/alert.ts'
import { isQuiet } from '#core/messages/alerts/audience.ts'
import { admit, MOST_PER_HOUR, NO_POST } from '#core/messages/alerts/rate.ts'

const alert = (id: string, phase: Alert['phase'] = 'start', kind: AlertKind = 'rain'): Alert => ({
  phase,
  id,
  sinceEpochH: 0,
  atEpochH: 0,
  said: { kind } as SaidAlert,
})
const on = (...ids: string[]) => new Set(ids)

describe('how much one person is told', () => {
  it('is one message for all that happens at once', () => {
    expect(admit(NO_POST, [alert('a'), alert('b')], on('a', 'b'), 0, false).tell.map(({ id }) => id)).toEqual([
      'a',
      'b',
    ])
  })

  it('is held back once an hour is full, and folded into one message when there is room', () => {
    let post = NO_POST
    for (let i = 0; i < MOST_PER_HOUR; i++) post = admit(post, [alert(`${i}`)], on(`${i}`), i * 0.1, false).post
    const held = admit(post, [alert('x')], on('x'), 0.4, false)
    expect(held.tell).toEqual([])
    const more = admit(held.post, [alert('y')], on('x', 'y'), 0.6, false)
    expect(more.tell).toEqual([])
    expect(admit(more.post, [], on('x', 'y'), 1.01, false).tell.map(({ id }) => id)).toEqual(['x', 'y'])
  })

  it('leaves out what was over before it could be told', () => {
    const held = admit(NO_POST, [alert('a'), alert('b')], on('a', 'b'), 0, true)
    expect(held.tell).toEqual([])
    const after = admit(held.post, [alert('a', 'end')], on('b'), 5, false)
    expect(after.tell.map(({ id, phase }) => `${id} ${phase}`)).toEqual(['b start'])
    // An end without a word before it (its start lapsed) is dropped with it.
    expect(admit(held.post, [], on(), 5, false).tell).toEqual([])
  })

  it('lets a fire stop and an official warning through at any hour, over any number; not the end of one', () => {
    let post = NO_POST
    for (let i = 0; i < MOST_PER_HOUR; i++) post = admit(post, [alert(`${i}`)], on(`${i}`), 0, false).post
    for (const kind of ['fire-stop', 'official-warning'] as const) {
      const told = admit(post, [alert('r'), alert('s', 'start', kind)], on('r', 's'), 0.1, true)
      expect(told.tell.map(({ id }) => id)).toEqual(['s'])
      expect(admit(told.post, [alert('s', 'end', kind)], on('r'), 0.2, true).tell).toEqual([])
    }
  })

  it('never passes the number an hour but for urgent ones, and loses no alert that stays on', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ wait: fc.double({ min: 0.01, max: 0.5, noNaN: true }), quiet: fc.boolean() })),
        (ticks) => {
          let post = NO_POST
          let now = 0
          const ids = new Set<string>()
          const told: string[] = []
          const times: number[] = []
          for (const [i, { wait, quiet }] of [...ticks, { wait: 1.1, quiet: false }].entries()) {
            now += wait
            ids.add(`${i}`)
            const admitted = admit(post, [alert(`${i}`)], ids, now, quiet)
            post = admitted.post
            told.push(...admitted.tell.map(({ id }) => id))
            if (admitted.tell.length > 0) times.push(now)
          }
          const crowded = times.some((at, i) => i >= MOST_PER_HOUR && at - times[i - MOST_PER_HOUR]! < 1 - 1e-9)
          return !crowded && told.length === ids.size && new Set(told).size === ids.size
        },
      ),
    )
  })
})

describe('quiet hours', () => {
  const person = (startMinute: number, endMinute: number) =>
    ({ id: 'a', name: 'A', role: 'crew', language: 'en', quietHours: { startMinute, endMinute } }) as const
  const at = (text: string) => Temporal.Instant.from(text).epochMilliseconds / 3_600_000
  it.each([
    ['2026-09-28T03:00Z', true],
    ['2026-09-28T04:59Z', true],
    ['2026-09-28T05:00Z', false],
    ['2026-09-28T21:59Z', false],
    ['2026-09-28T22:00Z', true],
  ])('over midnight: %s is %s', (time, quiet) => expect(isQuiet(person(22 * 60, 5 * 60), at(time), 'UTC')).toBe(quiet))
  it('within a day, and none', () => {
    expect(isQuiet(person(12 * 60, 13 * 60), at('2026-09-28T12:30Z'), 'UTC')).toBe(true)
    expect(isQuiet(person(12 * 60, 13 * 60), at('2026-09-28T11:30Z'), 'UTC')).toBe(false)
    expect(isQuiet({ ...person(0, 0) }, at('2026-09-28T11:30Z'), 'UTC')).toBe(false)
  })
})
