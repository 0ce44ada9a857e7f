/** Tokens, digests and passwords by the machine's own cryptography. */
import { argon2, createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import type { Secrets } from '#app/people-port.ts'

/** OWASP Password Storage Cheat Sheet (2025): Argon2id with 19 MiB, 2 passes, 1 lane. */
const MEMORY_KIB = 19_456
const PASSES = 2
const LANES = 1
const TAG_BYTES = 32
const SALT_BYTES = 16
const TOKEN_BYTES = 32
/** Argon2 version 1.3 (RFC 9106), as its string form writes it. */
const VERSION = 19

interface Cost {
  readonly memory: number
  readonly passes: number
  readonly parallelism: number
}

/** Each hash takes its 19 MiB; more than a few at once would let strangers fill the memory. */
const MOST_AT_ONCE = 4

export function machineSecrets(): Secrets {
  const gate = gateOf(MOST_AT_ONCE)
  return {
    token: () => randomBytes(TOKEN_BYTES).toString('base64url'),
    // A token has 256 random bits, so a plain digest can't be searched; no slow hash is needed.
    digest: (token) => createHash('sha256').update(token).digest('base64url'),
    hash: (password) => gate(() => hash(password)),
    verify: (password, kept) => gate(() => verify(password, kept)),
  }
}

async function hash(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES)
  const tag = await argon2id(password, salt, { memory: MEMORY_KIB, passes: PASSES, parallelism: LANES }, TAG_BYTES)
  return `$argon2id$v=${VERSION}$m=${MEMORY_KIB},t=${PASSES},p=${LANES}$${bare(salt)}$${bare(tag)}`
}

async function verify(password: string, kept: string): Promise<boolean> {
  const read = /^\$argon2id\$v=19\$m=(\d+),t=(\d+),p=(\d+)\$([^$]+)\$([^$]+)$/.exec(kept)
  if (!read) return false
  const [, memory, passes, parallelism, salt, tag] = read
  const expected = Buffer.from(tag!, 'base64')
  const cost = { memory: Number(memory), passes: Number(passes), parallelism: Number(parallelism) }
  const found = await argon2id(password, Buffer.from(salt!, 'base64'), cost, expected.length)
  return timingSafeEqual(found, expected)
}

function argon2id(password: string, salt: Uint8Array, cost: Cost, tagLength: number): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const message = password.normalize('NFKC')
    argon2('argon2id', { message, nonce: salt, tagLength, ...cost }, (failure, tag) =>
      failure ? reject(failure) : resolve(tag),
    )
  })
}

/** Base64 without padding, as the string form of Argon2 has it. */
const bare = (bytes: Buffer): string => bytes.toString('base64').replaceAll('=', '')

/** Lets so many run at once; the rest wait their turn. */
function gateOf(most: number): <T>(work: () => Promise<T>) => Promise<T> {
  let running = 0
  const waiting: (() => void)[] = []
  return async (work) => {
    if (running >= most) await new Promise<void>((go) => waiting.push(go))
    else running++
    try {
      return await work()
    } finally {
      const next = waiting.shift()
      if (next) next()
      else running--
    }
  }
}
