/** Who sends a push: a token signed with the service's own key (VAPID, RFC 8292). */
import { createPrivateKey, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'

export interface VapidKeys {
  /** base64url: 65 bytes of the public point, as the page hands it to the browser. */
  readonly publicKey: string
  /** base64url: 32 bytes. */
  readonly privateKey: string
}

export function newVapidKeys(): VapidKeys {
  const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const { x, y, d } = privateKey.export({ format: 'jwk' })
  const point = Buffer.concat([Uint8Array.of(4), Buffer.from(x!, 'base64url'), Buffer.from(y!, 'base64url')])
  return { publicKey: point.toString('base64url'), privateKey: d! }
}

/** RFC 8292, 2: at most 24 h ahead. */
const VALID_SECONDS = 12 * 3600

/** @param contact mailto: or https: address of whoever runs the service. @returns the `Authorization` header. */
export function vapidAuthorization(endpoint: string, keys: VapidKeys, contact: string, nowSeconds: number): string {
  const token = { aud: new URL(endpoint).origin, exp: Math.floor(nowSeconds) + VALID_SECONDS, sub: contact }
  const signed = `${encode({ typ: 'JWT', alg: 'ES256' })}.${encode(token)}`
  const signature = sign('sha256', Buffer.from(signed), { key: keyOf(keys), dsaEncoding: 'ieee-p1363' })
  return `vapid t=${signed}.${signature.toString('base64url')}, k=${keys.publicKey}`
}

const encode = (value: object): string => Buffer.from(JSON.stringify(value)).toString('base64url')

function keyOf({ publicKey, privateKey }: VapidKeys): KeyObject {
  const point = Buffer.from(publicKey, 'base64url')
  return createPrivateKey({
    format: 'jwk',
    key: {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
      d: privateKey,
    },
  })
}
