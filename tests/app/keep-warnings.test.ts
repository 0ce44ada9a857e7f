import { describe, expect, it } from 'vitest'
import { SourceUnreachable } from '#app/failures.ts'
import type { Warning } from '#app/ports.ts'
import { testWarning, warningSource, watchOver, watchStore } from '#tests/app/support/watch.ts'

const NOW = 500_000
const PLACES = [
  { latDeg: 40, lonDeg: -88, elevationM: 200 },
  { latDeg: 41, lonDeg: -88, elevationM: 200 },
]
const warning = (more: Partial<Warning> = {}): Warning =>
  testWarning({ sentAtEpochH: NOW - 1, effectiveAtEpochH: NOW - 1, expiresAtEpochH: NOW + 12.25, ...more })

/** A source that can be silenced, and says what a test lets it say. */
function setUp() {
  const state = { silent: false, says: [warning()] as readonly Warning[], asked: 0 }
  const source = warningSource(async () => {
    state.asked++
    if (state.silent) throw new SourceUnreachable('is silent', { source: 'S', where: 'https://example.org/' })
    return state.says
  })
  const store = watchStore()
  const start = () => watchOver([source], store)
  let watch = start()
  return {
    state,
    store,
    at: (hours: number) => watch({ places: PLACES, nowEpochH: NOW + hours }),
    restart: () => {
      watch = start()
    },
  }
}

describe('the watch over warnings', () => {
  it('tells one warning once, and keeps what it knew while the issuer is silent, until it is over', async () => {
    const { state, at } = setUp()
    expect(await at(0)).toMatchObject({ warnings: [{ id: 'one' }], failures: [] })
    state.silent = true
    const held = await at(10)
    expect([held.warnings.length, held.failures.length]).toEqual([1, 1])
    expect(held.failures[0]).toContain('is silent')
    expect((await at(13)).warnings).toEqual([])
  })

  it('does not forget a warning in force over a restart, though the issuer is silent', async () => {
    const { state, at, restart } = setUp()
    await at(0)
    state.silent = true
    restart()
    const held = await at(3)
    expect(held.warnings.map(({ id }) => id)).toEqual(['one'])
    expect(held.failures[0]).toContain('is silent')
    expect((await at(13)).warnings).toEqual([])
  })

  it('drops what the issuer no longer lists, and says that it may not know all only while it does not', async () => {
    const { state, at } = setUp()
    await at(0)
    state.silent = true
    expect((await at(1)).failures).toHaveLength(1)
    state.silent = false
    state.says = []
    expect(await at(2)).toEqual({ warnings: [], failures: [] })
  })

  it('asks again within minutes, not at every look, and still says that it failed in between', async () => {
    const { state, at } = setUp()
    for (let minute = 0; minute < 60; minute++) await at(minute / 60)
    // Two places, each every six to eight minutes.
    expect(state.asked).toBeGreaterThanOrEqual(14)
    expect(state.asked).toBeLessThanOrEqual(22)
    state.silent = true
    for (let minute = 60; minute < 120; minute++) {
      const { failures, warnings } = await at(minute / 60)
      expect(warnings).toHaveLength(1)
      if (minute > 70) expect(failures).toHaveLength(1)
    }
  })

  it('tallies every call with what became of it', async () => {
    const { state, at, store } = setUp()
    await at(0)
    state.silent = true
    await at(1)
    expect(store.calls).toHaveLength(4)
    expect(store.calls.map(({ kind }) => kind)).toEqual(new Array(4).fill('warnings'))
    expect(store.calls.map(({ failure }) => failure !== undefined)).toEqual([false, false, true, true])
    expect(store.calls[0]).toMatchObject({ sourceId: 's', atEpochH: NOW, issuedAtEpochH: NOW })
  })

  it('lets a bug through', async () => {
    const watch = watchOver([warningSource(() => Promise.reject(new TypeError('bug')))])
    await expect(watch({ places: PLACES, nowEpochH: NOW })).rejects.toThrow(TypeError)
  })
})
