/** Files sent as they are, each under an address that carries the hash of its bytes, so that it may be kept for ever. */
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { type Packed, packedOf } from './rendered.ts'

export interface Asset {
  readonly path: string
  readonly type: string
  readonly packed: Packed
}

const FOLDER = new URL('./assets/', import.meta.url)

function asset(name: string, extension: string, type: string, files: readonly string[]): Asset {
  const body = files.map((file) => readFileSync(new URL(file, FOLDER), 'utf8')).join('\n')
  const hash = createHash('sha256').update(body).digest('hex').slice(0, 12)
  return { path: `/assets/${name}.${hash}.${extension}`, type, packed: packedOf(body) }
}

export const STYLE = asset('style', 'css', 'text/css; charset=utf-8', ['tokens.css', 'pages.css', 'week.css'])
export const ICON = asset('icon', 'svg', 'image/svg+xml', ['icon.svg'])
export const CAB_SCRIPT = asset('cab', 'js', 'text/javascript; charset=utf-8', ['cab.js'])
export const LIVE_SCRIPT = asset('live', 'js', 'text/javascript; charset=utf-8', ['live.js'])
export const WEEK_SCRIPT = asset('week', 'js', 'text/javascript; charset=utf-8', ['week.js'])
export const PUSH_SCRIPT = asset('push', 'js', 'text/javascript; charset=utf-8', ['push.js'])

const ALL = [STYLE, ICON, CAB_SCRIPT, LIVE_SCRIPT, PUSH_SCRIPT, WEEK_SCRIPT]
export const ASSETS: ReadonlyMap<string, Asset> = new Map(ALL.map((found) => [found.path, found]))

const PATHS = ALL.map(({ path }) => path)
const VERSION = createHash('sha256').update(PATHS.join()).digest('hex').slice(0, 12)

/** The worker that keeps pages for when there is no signal; its address must stay, so it carries no hash. */
export const WORKER = [
  `const ASSETS = ${JSON.stringify(PATHS)}`,
  `const VERSION = '${VERSION}'`,
  readFileSync(new URL('sw.js', FOLDER), 'utf8'),
].join('\n')

/** What a phone needs to keep the cab's page beside its other programs (W3C Web Application Manifest). */
export const manifestOf = (farmName: string): string =>
  JSON.stringify({
    name: `Threshday, ${farmName}`,
    short_name: 'Threshday',
    id: '/cab',
    start_url: '/cab',
    scope: '/',
    display: 'standalone',
    background_color: '#fbf8f1',
    theme_color: '#fbf8f1',
    icons: [{ src: ICON.path, sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
  })
