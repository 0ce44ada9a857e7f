/** Files sent as they are, each under an address that carries the hash of its bytes, so that it may be kept for ever. */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'

export interface Asset {
  readonly path: string
  readonly type: string
  readonly body: string
}

const FOLDER = new URL('./assets/', import.meta.url)

function asset(name: string, extension: string, type: string, files: readonly string[]): Asset {
  const body = files.map((file) => readFileSync(new URL(file, FOLDER), 'utf8')).join('\n')
  const hash = createHash('sha256').update(body).digest('hex').slice(0, 12)
  return { path: `/assets/${name}.${hash}.${extension}`, type, body }
}

export const STYLE = asset('style', 'css', 'text/css; charset=utf-8', ['tokens.css', 'pages.css'])
export const ICON = asset('icon', 'svg', 'image/svg+xml', ['icon.svg'])

export const ASSETS: ReadonlyMap<string, Asset> = new Map([STYLE, ICON].map((found) => [found.path, found]))
