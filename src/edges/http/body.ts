/**
 * From bytes on the wire to checked JSON: never more bytes than allowed, never a guess at a broken text.
 */
import { promisify } from 'node:util'
import { brotliDecompress, gunzip, inflate } from 'node:zlib'

/** Why a body could not be used, in words that complete "its answer ...". */
export class BodyFault extends Error {
  readonly kind: 'unreadable' | 'cut off'

  constructor(kind: 'unreadable' | 'cut off', what: string, cause?: unknown) {
    super(what, cause === undefined ? {} : { cause })
    this.name = 'BodyFault'
    this.kind = kind
  }
}

/** Reads a stream to its end; gives up as soon as it is longer than allowed. */
export async function bytesOf(stream: AsyncIterable<Uint8Array>, maxBytes: number): Promise<Buffer> {
  const chunks: Uint8Array[] = []
  let length = 0
  // Leaving the loop by an error destroys the stream, and with it the connection.
  for await (const chunk of stream) {
    length += chunk.length
    if (length > maxBytes) throw tooLong(maxBytes)
    chunks.push(chunk)
  }
  return Buffer.concat(chunks, length)
}

const DECODERS: { readonly [encoding: string]: typeof gunzip | typeof inflate | typeof brotliDecompress } = {
  gzip: gunzip,
  'x-gzip': gunzip,
  deflate: inflate,
  br: brotliDecompress,
}

/** Undoes the content encoding; a small body that unpacks to a huge one is refused. */
export async function decoded(bytes: Buffer, encoding: string, maxBytes: number): Promise<Buffer> {
  const name = encoding.trim().toLowerCase()
  if (name === '' || name === 'identity' || bytes.length === 0) return bytes
  const decoder = Object.hasOwn(DECODERS, name) ? DECODERS[name] : undefined
  if (decoder === undefined) throw new BodyFault('unreadable', `is packed in an unknown way, "${name}"`)
  try {
    return await (promisify(decoder) as (b: Buffer, o: { maxOutputLength: number }) => Promise<Buffer>)(bytes, {
      maxOutputLength: maxBytes,
    })
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') throw tooLong(maxBytes)
    throw new BodyFault('unreadable', 'cannot be unpacked: it is damaged or cut off', cause)
  }
}

function tooLong(maxBytes: number): BodyFault {
  return new BodyFault('unreadable', `is longer than the ${Math.round(maxBytes / 1e5) / 10} MB that are allowed`)
}

/** Parses JSON; says what the text is when it is not JSON. */
export function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (cause) {
    throw new BodyFault('unreadable', whatIsWrong(text), cause)
  }
}

function whatIsWrong(text: string): string {
  const start = text.slice(0, 2000).trimStart()
  if (start === '') return 'is empty'
  if (start.startsWith('<')) return `is a web page${titleOf(start)}, not data`
  if (/[:[,]\s*-?(?:nan|inf(?:inity)?)\b/i.test(text)) return 'holds "nan" where a number should be'
  if (!/[}\]]$/.test(text.trimEnd())) return `is cut off after ${text.length} characters`
  return 'is not valid JSON'
}

function titleOf(html: string): string {
  const title = /<title[^>]*>([^<]{1,120})/i.exec(html)?.[1]?.trim()
  return title === undefined || title === '' ? '' : ` ("${title}")`
}

/** What a refusal says for itself: problem details (RFC 9457), a "reason", the title of a page; short and on one line. */
export function saidIn(text: string): string {
  const start = text.trimStart()
  let said = ''
  if (start.startsWith('<')) said = titleOf(start).slice(3, -2)
  else {
    try {
      const body: unknown = JSON.parse(start)
      if (typeof body === 'object' && body !== null) {
        const { detail, reason, title } = body as { detail?: unknown; reason?: unknown; title?: unknown }
        said = [detail, reason, title].find((part): part is string => typeof part === 'string') ?? ''
      }
    } catch {
      said = start
    }
  }
  return said.replace(/\s+/g, ' ').trim().slice(0, 160)
}
