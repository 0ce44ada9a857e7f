/** Pages rendered once for the day they were made from, compressed and tagged, and sent as often as asked for. */
import { createHash } from 'node:crypto'
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import type { Context } from 'hono'
import type { Markup } from './layout.ts'

interface Rendered {
  readonly etag: string
  readonly plain: Uint8Array<ArrayBuffer>
  readonly gzip: Uint8Array<ArrayBuffer>
  readonly brotli: Uint8Array<ArrayBuffer>
}

/** Brotli's middle: within a few percent of its best for a page, in a tenth of the time. */
const BROTLI_QUALITY = 5

export class RenderedPages {
  /** Forgotten together with the day. */
  readonly #byDay = new WeakMap<object, Map<string, Promise<Rendered>>>()

  /**
   * @param made what the page is made from; a new value renders anew.
   * @param name tells apart the pages made from one value: path, language, whatever else shows.
   */
  async send(context: Context, made: object, name: string, render: () => Markup): Promise<Response> {
    let pages = this.#byDay.get(made)
    if (!pages) {
      pages = new Map()
      this.#byDay.set(made, pages)
    }
    let page = pages.get(name)
    if (!page) {
      page = Promise.resolve(render()).then((markup) => prepared(markup.toString()))
      pages.set(name, page)
      // A page that could not be made is tried again by the next who asks.
      page.catch(() => pages?.delete(name))
    }
    return answer(context, await page)
  }
}

function prepared(text: string): Rendered {
  const plain = new TextEncoder().encode(text)
  return {
    etag: `W/"${createHash('sha256').update(plain).digest('base64url').slice(0, 22)}"`,
    plain,
    gzip: new Uint8Array(gzipSync(plain)),
    brotli: new Uint8Array(brotliCompressSync(plain, { params: { [constants.BROTLI_PARAM_QUALITY]: BROTLI_QUALITY } })),
  }
}

function answer(context: Context, page: Rendered): Response {
  const headers: Record<string, string> = {
    'content-type': 'text/html; charset=utf-8',
    'cache-control': 'private, no-cache',
    vary: 'accept-encoding, cookie',
    etag: page.etag,
  }
  if (matches(context.req.header('if-none-match'), page.etag)) return context.body(null, 304, headers)
  const accepted = context.req.header('accept-encoding') ?? ''
  if (accepts(accepted, 'br')) return context.body(page.brotli, 200, { ...headers, 'content-encoding': 'br' })
  if (accepts(accepted, 'gzip')) return context.body(page.gzip, 200, { ...headers, 'content-encoding': 'gzip' })
  return context.body(page.plain, 200, headers)
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
