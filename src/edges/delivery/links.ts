/** Links that carry their deed and a seal (HMAC-SHA256), so that they need no table and cannot be made by others. */
import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto'
import type { LinkDeed, Links } from '#app/links.ts'

const KEY_BYTES = 32
/** Half of the digest: 128 bits, which nobody guesses. */
const SEAL_BYTES = 16

export const newLinkKey = (): string => randomBytes(KEY_BYTES).toString('base64url')

/** Where each deed is done: a page that asks first (GET), and does it (POST); calendar and text are only read. */
const PATHS: Record<LinkDeed['deed'], (token: string) => string> = {
  unsubscribe: (token) => `do/${token}`,
  acknowledge: (token) => `do/${token}`,
  calendar: (token) => `calendar/${token}.ics`,
  text: (token) => `text/${token}.txt`,
}

/** @param key from `newLinkKey`; another key ends all links made so far. @param base public address of the service. */
export function sealedLinks(key: string, base: string | undefined): Links {
  const seal = (text: string): Buffer =>
    createHmac('sha256', Buffer.from(key, 'base64url')).update(text).digest().subarray(0, SEAL_BYTES)
  const path = (deed: LinkDeed): string => {
    const text = Buffer.from(JSON.stringify(deed)).toString('base64url')
    return PATHS[deed.deed](`${text}.${seal(text).toString('base64url')}`)
  }
  return {
    reachable: base !== undefined,
    pathTo: (deed) => `/${path(deed)}`,
    to(deed) {
      return base === undefined ? undefined : new URL(path(deed), base.endsWith('/') ? base : `${base}/`).href
    },
    read(token) {
      const [text, sealed, more] = token.split('.')
      if (!text || !sealed || more !== undefined) return undefined
      const given = Buffer.from(sealed, 'base64url')
      const ours = seal(text)
      if (given.length !== ours.length || !timingSafeEqual(given, ours)) return undefined
      return JSON.parse(Buffer.from(text, 'base64url').toString()) as LinkDeed
    },
  }
}
