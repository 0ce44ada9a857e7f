/** A process killed while it takes readings: nothing it acknowledged is lost, nothing is counted twice. */
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { DatabaseSync } from 'node:sqlite'
import { setTimeout as delay } from 'node:timers/promises'
import { afterAll, describe, expect, it } from 'vitest'
import { seededRandom } from '#core/units/random.ts'
import { openRecordStore } from '#edges/storage/records.ts'
import { killFarm, moistureOf } from '#tests/faults/support/kill-farm.ts'
import { testDatabases } from '#tests/support/databases.ts'

const READINGS = 1000
const ROUNDS = 6
/** Ends what hangs and no more: on a starved machine so many processes, each with its writes to disk, take minutes. */
const HANGS_MS = 900_000
const databases = testDatabases()
const folder = mkdtempSync(join(tmpdir(), 'threshday-kill-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

interface Sent {
  /** Answer by number of the reading, as far as it came out. */
  readonly answers: ReadonlyMap<number, string>
  readonly runMs: number
}

/** When to kill: so long after it began to send, or as soon as so many answers were seen. */
interface Kill {
  readonly ms?: number
  readonly answers?: number
}

async function send(where: string, by: string, kill: Kill = {}, manner = ''): Promise<Sent> {
  const script = join(import.meta.dirname, 'support/send-readings.ts')
  const child = spawn(process.execPath, [script, where, String(READINGS), by, manner], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const closed = new Promise<void>((resolve) => child.once('close', () => resolve()))
  let text = ''
  let startedMs = Number.NaN
  child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
    text += chunk
    if (Number.isNaN(startedMs) && text.startsWith('ready\n')) {
      startedMs = performance.now()
      if (kill.ms !== undefined) void delay(kill.ms).then(() => child.kill('SIGKILL'))
    }
    if (kill.answers !== undefined && text.split('\n').length - 2 >= kill.answers) child.kill('SIGKILL')
  })
  await closed
  // The last line may be cut short by the kill: whoever waited for it got no answer.
  const lines = text
    .slice(0, text.lastIndexOf('\n') + 1)
    .split('\n')
    .slice(1, -1)
  return {
    answers: new Map(lines.map((line) => [Number(line.split(' ')[0]), line.split(' ')[1]!])),
    runMs: performance.now() - startedMs,
  }
}

async function standing(where: string): Promise<Map<string, number>> {
  if (where.endsWith('.sqlite')) {
    const raw = new DatabaseSync(where)
    expect(raw.prepare('PRAGMA integrity_check').get()).toEqual({ integrity_check: 'ok' })
    raw.close()
  }
  const store = await openRecordStore(where)
  const records = await store.current(killFarm().id, 'reading')
  await store.close()
  expect(new Set(records.map(({ key }) => key)).size).toBe(records.length)
  return new Map(records.map(({ key, body }) => [key, body.moistureWb]))
}

const all = Array.from({ length: READINGS }, (_, n) => n)
const expectWhole = (found: ReadonlyMap<string, number>) =>
  expect(found).toEqual(new Map(all.map((n) => [`reading-${n}`, moistureOf(n)])))

describe(`${READINGS} readings at once`, { timeout: HANGS_MS }, () => {
  it('all arrive when nobody disturbs, and a resend by another is refused, not counted', async () => {
    const where = join(folder, 'calm.sqlite')
    const { answers } = await send(where, 'ann')
    expect(answers).toEqual(new Map(all.map((n) => [n, 'kept'])))
    expectWhole(await standing(where))
    expect(new Set((await send(where, 'ann')).answers.values())).toEqual(new Set(['known']))
    expect(new Set((await send(where, 'bo')).answers.values())).toEqual(new Set(['refused']))
    expectWhole(await standing(where))
  })

  it('keep what was acknowledged when the process is killed at any instant, and count a resend once', async () => {
    const { runMs } = await send(join(folder, 'measure.sqlite'), 'ann')
    const random = seededRandom(5)
    const acknowledged: number[] = []
    for (let round = 0; round < ROUNDS; round++) {
      const where = join(folder, `round-${round}.sqlite`)
      const kill =
        round % 2 === 0 ? { ms: random.uniform() * runMs } : { answers: Math.ceil((random.uniform() * READINGS) / 2) }
      const killed = await send(where, 'ann', kill)
      acknowledged.push(killed.answers.size)
      const found = await standing(where)
      for (const n of killed.answers.keys()) expect(found.get(`reading-${n}`)).toBe(moistureOf(n))

      const again = await send(where, 'ann')
      const known = all.filter((n) => again.answers.get(n) === 'known')
      expect(known).toEqual(all.filter((n) => found.has(`reading-${n}`)))
      expect(all.filter((n) => again.answers.get(n) === 'kept')).toHaveLength(READINGS - known.length)
      expectWhole(await standing(where))
    }
    // The kill must fall among the readings, or the test shows nothing.
    expect(acknowledged.filter((count) => count > 0 && count < READINGS).length).toBeGreaterThan(0)
  })

  it('would be found lost if they were acknowledged before they are on disk', async () => {
    const where = join(folder, 'hasty.sqlite')
    const { answers } = await send(where, 'ann', { answers: 1 }, 'hasty')
    const found = await standing(where)
    expect([...answers.keys()].filter((n) => !found.has(`reading-${n}`)).length).toBeGreaterThan(0)
  })

  it.each(databases)(
    'count once on $name when two processes send the same and one of them is killed',
    async ({ fresh }) => {
      const where = await fresh()
      await (await openRecordStore(where)).close()
      const [killed, whole] = await Promise.all([send(where, 'ann', { answers: 100 }), send(where, 'ann')])
      expect(whole.answers.size).toBe(READINGS)
      const keptByBoth = all.filter((n) => killed.answers.get(n) === 'kept' && whole.answers.get(n) === 'kept')
      expect(keptByBoth).toEqual([])
      expectWhole(await standing(where))
    },
  )
})
