/**
 * Kills the service again and again between planning and the mail server's final answer, with a server that takes,
 * postpones, refuses or says nothing, and counts what arrived.
 */
import { type ChildProcess, fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as delay } from 'node:timers/promises'
import { SMTPServer } from 'smtp-server'
import { type Random, seededRandom } from '#core/units/random.ts'
import { epochHoursOf } from '#core/units/time.ts'
import { migrate } from '#edges/storage/migrate.ts'
import { openDatabase } from '#edges/storage/node-sqlite.ts'
import { type OutboxTables, outboxStore } from '#edges/storage/outbox-store.ts'

/** Farm seconds in one of ours. */
const SPEED = 90
const DUE = '2010-09-30T05:30-05:00'
/** A kill comes so long after the plan stands at most [ms]. */
const LATEST_KILL_MS = 300
const SLOWEST_ANSWER_MS = 60
/** Chance that the first, second, third process is killed; the fourth is left alone. */
const KILL_CHANCE = [0.9, 0.6, 0.3, 0] as const
const SECOND_INSTANCE_CHANCE = 0.2
const PATIENCE_MS = 300_000
/** A claim of the outbox, by our clock: three minutes of the farm's. Who notes an answer later has lost the claim [ms]. */
const LEASE_MS = (3 * 60_000) / SPEED

type Mood = 'takes' | 'postpones' | 'refuses' | 'is silent'
/** How a letter that the server has in full ended. */
interface Arrival {
  /** When the server had it in full [ms]. */
  readonly atMs: number
  readonly recipient: string
  readonly messageId: string
  readonly mood: Mood
  /** Nobody noted the answer: the server gave none, or the process was killed before it had it in the store. */
  answerLost: boolean
}

export interface ChaosFigures {
  readonly runs: number
  readonly kills: number
  readonly letters: number
  readonly arrivedOnce: number
  readonly arrivedTwiceOrMore: number
  readonly refusedAndListed: number
  /** Letters neither kept by the server nor on the list of what did not get through. Must be 0. */
  readonly lost: number
  /** Duplicates sent when the claim had run out, by a process too starved to note the answer in time. */
  readonly notedTooLate: number
  /** Duplicates although the answer could have been noted and the claim held. Must be 0. */
  readonly unexplained: number
  /** Duplicates whose Message-ID differs from the first. Must be 0. */
  readonly otherId: number
  readonly answers: Readonly<Record<Mood, number>>
}

export async function chaos(runs: number, seed: number, atOnce: number): Promise<ChaosFigures> {
  const results: RunResult[] = []
  let next = 0
  const worker = async () => {
    while (next < runs) results.push(await oneRun(seededRandom(seed + next++)))
  }
  await Promise.all(Array.from({ length: atOnce }, worker))
  const sum = (pick: (result: RunResult) => number) => results.reduce((total, result) => total + pick(result), 0)
  const answered = (mood: Mood) => sum(({ arrivals }) => arrivals.filter((arrival) => arrival.mood === mood).length)
  const answeredTwice = results.flatMap(({ letters }) =>
    letters.flatMap(({ kept }) =>
      kept
        .slice(0, -1)
        .map((first, n) => ({ ...first, apartMs: kept[n + 1]!.atMs - first.atMs }))
        .filter(({ answerLost }) => !answerLost),
    ),
  )
  return {
    runs,
    kills: sum(({ kills }) => kills),
    letters: sum(({ letters }) => letters.length),
    arrivedOnce: sum(({ letters }) => letters.filter(({ kept }) => kept.length === 1).length),
    arrivedTwiceOrMore: sum(({ letters }) => letters.filter(({ kept }) => kept.length > 1).length),
    refusedAndListed: sum(
      ({ letters }) => letters.filter(({ kept, state }) => !kept.length && state === 'dead').length,
    ),
    lost: sum(({ letters }) => letters.filter(({ kept, state }) => !kept.length && state !== 'dead').length),
    notedTooLate: answeredTwice.filter(({ apartMs }) => apartMs >= LEASE_MS).length,
    unexplained: answeredTwice.filter(({ apartMs }) => apartMs < LEASE_MS).length,
    otherId: sum(({ letters }) => letters.filter(({ kept }) => new Set(kept.map((a) => a.messageId)).size > 1).length),
    answers: {
      takes: answered('takes'),
      postpones: answered('postpones'),
      refuses: answered('refuses'),
      'is silent': answered('is silent'),
    },
  }
}

interface RunResult {
  readonly kills: number
  readonly arrivals: readonly Arrival[]
  readonly letters: readonly { readonly state: string; readonly kept: readonly Arrival[] }[]
}

async function oneRun(random: Random): Promise<RunResult> {
  const folder = mkdtempSync(join(tmpdir(), 'chaos-'))
  const arrivals: Arrival[] = []
  const server = moodyServer(random, arrivals)
  const listening = server.listen(0, '127.0.0.1')
  await once(listening, 'listening')
  const { port } = listening.address() as AddressInfo
  const path = join(folder, 'farm.sqlite')
  const startEpochH = epochHoursOf(Temporal.Instant.from(DUE))
  const startedMs = Temporal.Now.instant().epochMilliseconds
  const start = () =>
    fork(join(import.meta.dirname, 'chaos-child.ts'), [
      path,
      `smtp://127.0.0.1:${port}`,
      `${startEpochH}`,
      `${startedMs}`,
      `${SPEED}`,
    ])
  let kills = 0
  try {
    for (const killChance of KILL_CHANCE) {
      const children = random.uniform() < SECOND_INSTANCE_CHANCE ? [start(), start()] : [start()]
      const noteLost = async () => {
        const unsettled = (await parcelsIn(path)).filter(({ state }) => state !== 'sent').map(({ target }) => target)
        for (const arrival of arrivals) if (unsettled.includes(arrival.recipient)) arrival.answerLost = true
      }
      const ends = children.map(async (child) => {
        const killed = await endOf(child, random.uniform() < killChance, random.uniform())
        if (killed) await noteLost()
        return killed
      })
      const killed = (await Promise.all(ends)).filter(Boolean).length
      kills += killed
      if (killed < children.length) break
    }
    return { kills, arrivals, letters: await lettersIn(path, arrivals) }
  } finally {
    await new Promise<void>((done) => server.close(() => done()))
    rmSync(folder, { recursive: true })
  }
}

/** @returns whether it was killed; otherwise it has ended by itself with success. */
async function endOf(child: ChildProcess, toBeKilled: boolean, share: number): Promise<boolean> {
  const exited = once(child, 'exit') as Promise<[number | null, NodeJS.Signals | null]>
  await Promise.race([once(child, 'message'), exited])
  if (toBeKilled) {
    await Promise.race([delay(share * LATEST_KILL_MS), exited])
    child.kill('SIGKILL')
  }
  const patience = new AbortController()
  const tooLong = delay(PATIENCE_MS, undefined, { signal: patience.signal }).then(() => child.kill('SIGKILL'))
  tooLong.catch(() => undefined)
  const [code, signal] = await exited
  patience.abort()
  if (signal === 'SIGKILL' && toBeKilled) return true
  if (code !== 0) throw new Error(`The service ended with ${code ?? signal}`)
  return false
}

function moodyServer(random: Random, arrivals: Arrival[]): SMTPServer {
  const refuse = (code: number) => Object.assign(new Error('moody'), { responseCode: code })
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    logger: false,
    onData: (stream, session, done) => {
      const parts: Buffer[] = []
      stream.on('data', (part: Buffer) => parts.push(part))
      stream.on('end', async () => {
        const mood = moodOf(random.uniform())
        const messageId = /^message-id:\s*(\S+)/im.exec(Buffer.concat(parts).toString('latin1'))?.[1] ?? ''
        const recipient = session.envelope.rcptTo[0]!.address
        arrivals.push({ atMs: performance.now(), recipient, messageId, mood, answerLost: mood === 'is silent' })
        await delay(random.uniform() * SLOWEST_ANSWER_MS)
        if (mood === 'takes') done()
        else if (mood === 'postpones') done(refuse(451))
        else if (mood === 'refuses') done(refuse(554))
        else for (const connection of connectionsOf(server, session.id)) connection.close()
      })
    },
  })
  // A client that is killed leaves a broken connection behind: nothing to tell anyone.
  server.on('error', () => undefined)
  return server
}

interface Connection {
  readonly id: string
  close(): void
}
const connectionsOf = (server: SMTPServer, id: string): Connection[] =>
  [...(server as unknown as { connections: Set<Connection> }).connections].filter((connection) => connection.id === id)

const moodOf = (share: number): Mood =>
  share < 0.6 ? 'takes' : share < 0.75 ? 'postpones' : share < 0.85 ? 'refuses' : 'is silent'

/** A silent server keeps the letter: the worse of the two things that silence may mean. */
const isKept = ({ mood }: Arrival): boolean => mood === 'takes' || mood === 'is silent'

async function lettersIn(path: string, arrivals: readonly Arrival[]) {
  return (await parcelsIn(path)).map(({ state, target }) => ({
    state,
    kept: arrivals.filter((arrival) => arrival.recipient === target && isKept(arrival)),
  }))
}

async function parcelsIn(path: string) {
  const database = openDatabase<OutboxTables>(path)
  await migrate(database)
  try {
    return await outboxStore(database).recent('larkspur-farm', 10)
  } finally {
    await database.destroy()
  }
}
