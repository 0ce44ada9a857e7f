import { createECDH, createPublicKey, verify } from 'node:crypto'
import fc from 'fast-check'
import { decrypt } from 'http_ece'
import { afterEach, describe, expect, it } from 'vitest'
import { pushCarrier } from '#edges/delivery/push.ts'
import { encryptPush, LONGEST_PAYLOAD } from '#edges/delivery/push-encryption.ts'
import { newVapidKeys, vapidAuthorization } from '#edges/delivery/vapid.ts'
import { listener } from '#tests/edges/delivery/support/listener.ts'
import { keptParcel } from '#tests/edges/delivery/support/parcel.ts'
import { RFC8291 } from '#tests/truth/web-push.ts'

const bytes = (text: string) => Buffer.from(text, 'base64url')

/** A browser that signed up: its keys, and what it reads with them by another library. */
function browser() {
  const ecdh = createECDH('prime256v1')
  ecdh.generateKeys()
  const authSecret = bytes(RFC8291.authSecret)
  const keys = { p256dh: ecdh.getPublicKey('base64url'), auth: authSecret.toString('base64url') }
  const read = (body: Uint8Array) =>
    decrypt(Buffer.from(body), { version: 'aes128gcm', privateKey: ecdh, authSecret }) as Buffer
  return { keys, read }
}

describe('the encryption of a push', () => {
  it('gives the worked example of RFC 8291, appendix A', () => {
    const keys = { p256dh: RFC8291.receiverPublic, auth: RFC8291.authSecret }
    const drawn = { privateKey: bytes(RFC8291.senderPrivate), salt: bytes(RFC8291.salt) }
    expect(encryptPush(Buffer.from(RFC8291.plaintext), keys, drawn).toString('base64url')).toBe(RFC8291.body)
  })
  it('has in its example public keys that follow from the private ones', () => {
    for (const [secret, open] of [
      [RFC8291.receiverPrivate, RFC8291.receiverPublic],
      [RFC8291.senderPrivate, RFC8291.senderPublic],
    ] as const) {
      const ecdh = createECDH('prime256v1')
      ecdh.setPrivateKey(bytes(secret))
      expect(ecdh.getPublicKey('base64url')).toBe(open)
    }
  })
  it('is read by another library with the keys of the other side, whatever its length', () => {
    const { keys, read } = browser()
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: LONGEST_PAYLOAD }), (payload) => {
        const body = encryptPush(payload, keys)
        return body.length <= 4096 && read(body).equals(payload)
      }),
      { numRuns: 50 },
    )
    expect(encryptPush(Buffer.alloc(LONGEST_PAYLOAD), keys).length).toBe(4096)
    expect(() => encryptPush(Buffer.alloc(LONGEST_PAYLOAD + 1), keys)).toThrow(RangeError)
  })
})

/** Checks a VAPID header as a push service does (RFC 8292, 2 to 4). */
function checkVapid(header: string) {
  const [, token, key] = /^vapid t=([^,]+), k=(.+)$/.exec(header)!
  const [head, claims, signature] = token!.split('.') as [string, string, string]
  const point = bytes(key!)
  const publicKey = createPublicKey({
    format: 'jwk',
    key: {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
    },
  })
  const good = verify(
    'sha256',
    Buffer.from(`${head}.${claims}`),
    { key: publicKey, dsaEncoding: 'ieee-p1363' },
    bytes(signature),
  )
  return { good, head: JSON.parse(bytes(head).toString()), claims: JSON.parse(bytes(claims).toString()) }
}

describe('the sender of a push', () => {
  it('shows a token that verifies, for the origin asked, for less than a day', () => {
    const now = 1_790_000_000
    const { good, head, claims } = checkVapid(
      vapidAuthorization('https://push.example.net/send/abc', newVapidKeys(), 'mailto:me@farm.example', now),
    )
    expect(good).toBe(true)
    expect(head).toEqual({ typ: 'JWT', alg: 'ES256' })
    expect(claims).toMatchObject({ aud: 'https://push.example.net', sub: 'mailto:me@farm.example' })
    expect(claims.exp - now).toBeGreaterThan(0)
    expect(claims.exp - now).toBeLessThanOrEqual(24 * 3600)
  })
  it('does not verify with another key', () => {
    const header = vapidAuthorization('https://push.example.net/', newVapidKeys(), 'mailto:a@b.example', 0)
    const other = header.replace(/k=.*/, `k=${newVapidKeys().publicKey}`)
    expect(checkVapid(other).good).toBe(false)
  })
})

describe('a push', () => {
  const open: { close(): unknown }[] = []
  afterEach(async () => {
    for (const thing of open.splice(0)) await thing.close()
  })
  const note = { title: 'Larkspur Farm', body: 'Run Twin Elms, 11:30 to 13:30.', tag: 'morning', path: '/' }
  async function setUp(answer?: Parameters<typeof listener>[0]) {
    const there = await listener(answer)
    open.push(there)
    const { keys, read } = browser()
    const carrier = pushCarrier({
      network: there.network,
      vapid: newVapidKeys(),
      contact: 'mailto:me@farm.example',
      keysOf: async (id) => (id === 'phone' ? keys : undefined),
      nowSeconds: () => 1_790_000_000,
    })
    const parcel = keptParcel({
      channel: 'push',
      recipient: 'phone',
      target: `${there.url}/send/abc`,
      body: JSON.stringify(note),
    })
    return { there, carrier, parcel, read }
  }

  it('reaches the browser, with the headers that RFC 8030 asks for', async () => {
    const { there, carrier, parcel, read } = await setUp()
    expect(await carrier.carry(parcel)).toMatchObject({ kind: 'taken' })
    const { headers, body } = there.heard[0]!
    expect(JSON.parse(read(body).toString())).toEqual(note)
    expect(headers).toMatchObject({ ttl: '3600', urgency: 'normal', 'content-encoding': 'aes128gcm' })
    expect(headers.topic).toMatch(/^[A-Za-z0-9_-]{1,32}$/)
    expect(checkVapid(headers.authorization!).good).toBe(true)
  })
  it('of a fire stop is urgent and stands beside others', async () => {
    const { there, carrier, parcel } = await setUp()
    await carrier.carry({ ...parcel, kind: 'alert', subject: 'look-7', urgent: true })
    expect(there.heard[0]!.headers.urgency).toBe('high')
    expect(there.heard[0]!.headers.topic).toBeUndefined()
    // A second problem must not wipe out a first that a phone without signal has yet to hear of.
    await carrier.carry({ ...parcel, kind: 'problem', subject: 'stuck-7', urgent: true })
    expect(there.heard[1]!.headers.topic).toBeUndefined()
  })
  it('is cut to what fits, still readable', async () => {
    const { there, carrier, parcel, read } = await setUp()
    await carrier.carry({ ...parcel, body: JSON.stringify({ ...note, body: 'á"\n\u0001'.repeat(3000) }) })
    const seen = JSON.parse(read(there.heard[0]!.body).toString())
    expect(seen).toMatchObject({ title: note.title, path: '/' })
    expect(seen.body.endsWith('…')).toBe(true)
  })
  it.each([
    [404, 'gone'],
    [410, 'gone'],
    [413, 'refused'],
    [429, 'later'],
    [500, 'later'],
  ])('answered with %i is %s', async (status, kind) => {
    const { carrier, parcel } = await setUp({ status })
    expect(await carrier.carry(parcel)).toMatchObject({ kind })
  })
  it('to a subscription that was given up is not sent', async () => {
    const { there, carrier, parcel } = await setUp()
    expect(await carrier.carry({ ...parcel, recipient: 'other' })).toMatchObject({ kind: 'refused' })
    expect(there.heard).toHaveLength(0)
  })
})
