/** What a push service carries but cannot read: RFC 8291 over the aes128gcm coding of RFC 8188. */
import { createCipheriv, createECDH, hkdfSync, randomBytes } from 'node:crypto'

export interface PushKeys {
  /** The browser's public key, base64url of the uncompressed point. */
  readonly p256dh: string
  /** The secret it shares with us, base64url. */
  readonly auth: string
}

const CURVE = 'prime256v1'
const SALT_BYTES = 16
const RECORD_BYTES = 4096
const TAG_BYTES = 16
const HEADER_BYTES = SALT_BYTES + 4 + 1 + 65
/** RFC 8291, 4: a push service need not take more than 4,096 bytes, of which header, tag and one delimiter are ours. */
export const LONGEST_PAYLOAD = RECORD_BYTES - HEADER_BYTES - TAG_BYTES - 1

export interface Drawn {
  /** Private key of this one message. */
  readonly privateKey: Uint8Array
  readonly salt: Uint8Array
}

export function drawn(): Drawn {
  const ecdh = createECDH(CURVE)
  ecdh.generateKeys()
  return { privateKey: ecdh.getPrivateKey(), salt: randomBytes(SALT_BYTES) }
}

/** @returns the body of the request: header and one record. Checked against RFC 8291, appendix A, byte by byte. */
export function encryptPush(payload: Uint8Array, keys: PushKeys, { privateKey, salt }: Drawn = drawn()): Buffer {
  if (payload.length > LONGEST_PAYLOAD) throw new RangeError(`A push may have ${LONGEST_PAYLOAD} bytes at most`)
  const theirs = Buffer.from(keys.p256dh, 'base64url')
  const ecdh = createECDH(CURVE)
  ecdh.setPrivateKey(privateKey)
  const ours = ecdh.getPublicKey()
  // RFC 8291, 3.4.
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), theirs, ours])
  const shared = derive(ecdh.computeSecret(theirs), Buffer.from(keys.auth, 'base64url'), info, 32)
  // RFC 8188, 2.2 and 2.3.
  const key = derive(shared, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16)
  const nonce = derive(shared, salt, Buffer.from('Content-Encoding: nonce\0'), 12)
  const cipher = createCipheriv('aes-128-gcm', key, nonce)
  // The delimiter 2 marks the last record.
  const record = Buffer.concat([cipher.update(payload), cipher.update(Uint8Array.of(2)), cipher.final()])
  const sizes = Buffer.alloc(5)
  sizes.writeUInt32BE(RECORD_BYTES)
  sizes.writeUInt8(ours.length, 4)
  return Buffer.concat([salt, sizes, ours, record, cipher.getAuthTag()])
}

const derive = (secret: Uint8Array, salt: Uint8Array, info: Uint8Array, bytes: number): Buffer =>
  Buffer.from(hkdfSync('sha256', secret, salt, info, bytes))
