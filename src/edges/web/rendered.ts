/** What is sent as often as asked for, made once: tagged, and compressed beside the work of others. */
import { createHash } from 'node:crypto'
import { promisify } from 'node:util'
import { brotliCompress, constants, gzip } from 'node:zlib'
import type { Context } from 'hono'
import type { Markup } from './layout.ts'

type Bytes = Uint8Array<ArrayBuffer>

export interface Packed {
  readonly etag: string
  readonly plain: Bytes
  /** Made when first asked for. */
  readonly packed: (coding: Coding) => Promise<Bytes>
}
type Coding = keyof typeof CODERS

const CODERS = {
  // Brotli's middle: within a few percent of its best for a page, in a tenth of the time.
  br: (plain: Bytes) => promisify(brotliCompress)(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } }),
  gzip: (plain: Bytes) => promisify(gzip)(plain),
} as const

export const HTML = 'text/html; charset=utf-8'
export const JSON_TYPE = 'application/json'

export class RenderedPages {
  /** Forgotten together with the day. */
  readonly #byDay = new WeakMap<object, Map<string, Promise<Packed>>>()

  /**
   * @param made what the page is made from; a new value renders anew.
   * @param name tells apart the pages made from one value: path, language, whatever else shows.
   */
  async send(
    context: Context,
    made: object,
    name: string,
    render: () => Markup | string,
    type = HTML,
  ): Promise<Response> {
    let pages = this.#byDay.get(made)
    if (!pages) {
      pages = new Map()
      this.#byDay.set(made, pages)
    }
    let page = pages.get(name)
    if (!page) {
      page = Promise.resolve(render()).then((markup) => packedOf(markup.toString()))
      pages.set(name, page)
      // A page that could not be made is tried again by the next who asks.
      page.catch(() => pages?.delete(name))
    }
    return await sendPacked(context, await page, {
      'content-type': type,
      'cache-control': 'private, no-cache',
      vary: 'accept-encoding, cookie',
    })
  }
}

export function packedOf(text: string): Packed {
  const plain = new TextEncoder().encode(text)
  const kept = new Map<Coding, Promise<Bytes>>()
  return {
    etag: `W/"${createHash('sha256').update(plain).digest('base64url').slice(0, 22)}"`,
    plain,
    packed: (coding) => {
      const found = kept.get(coding) ?? CODERS[coding](plain).then((buffer) => new Uint8Array(buffer))
      kept.set(coding, found)
      return found
    },
  }
}

export async function sendPacked(
  context: Context,
  { etag, plain, packed }: Packed,
  about: Readonly<Record<string, string>>,
): Promise<Response> {
  const headers = { ...about, etag }
  if (matches(context.req.header('if-none-match'), etag)) return context.body(null, 304, headers)
  const accepted = context.req.header('accept-encoding') ?? ''
  for (const coding of ['br', 'gzip'] as const) {
    if (!accepts(accepted, coding)) continue
    return context.body(await packed(coding), 200, { ...headers, 'content-encoding': coding })
  }
  return context.body(plain, 200, headers)
}

/** If-None-Match compares weakly (RFC 9110, 13.1.2). */
export function matches(asked: string | undefined, etag: string): boolean {
  if (asked === undefined) return false
  const bare = (tag: string) => tag.trim().replace(/^W\//, '')
  return asked.trim() === '*' || asked.split(',').some((tag) => bare(tag) === bare(etag))
}

/** Whether a content coding is named in Accept-Encoding and not refused by `q=0` (RFC 9110, 12.5.3). */
function accepts(header: string, coding: string): boolean {
  return header.split(',').some((part) => {
    const [name, ...parameters] = part.split(';').map((piece) => piece.trim().toLowerCase())
    return name === coding && !parameters.some((parameter) => /^q=0(\.0*)?$/.test(parameter))
  })
}
