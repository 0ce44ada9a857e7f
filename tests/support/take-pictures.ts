/** Writes the pictures of the pages into docs/pictures/, from the demo farm: `node tests/support/take-pictures.ts`. */
import { mkdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import type { Role } from '#work/people-port.ts'
import { findChromium } from './browser.ts'

const FOLDER = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))
const PHONE = { width: 360, height: 760 }
const DESKTOP = { width: 1200, height: 780 }
/** For pages full of small things, whose pictures would grow too large. */
const SMALL_DESKTOP = { width: 1024, height: 640 }

interface Picture {
  readonly name: string
  readonly path: string
  readonly size: { readonly width: number; readonly height: number }
  readonly role?: Role
  readonly dark?: boolean
  /** The whole length of the page instead of the first screen. */
  readonly whole?: boolean
}

const PICTURES: readonly Picture[] = [
  { name: 'today-phone', path: '/', size: PHONE },
  { name: 'today-phone-dark', path: '/', size: PHONE, dark: true },
  { name: 'today-desktop', path: '/', size: DESKTOP },
  { name: 'today-desktop-dark', path: '/', size: DESKTOP, dark: true },
  { name: 'week-phone', path: '/week', size: PHONE },
  { name: 'week-desktop', path: '/week', size: SMALL_DESKTOP },
  { name: 'fields-phone', path: '/fields', size: PHONE },
  { name: 'fields-desktop', path: '/fields', size: DESKTOP },
  { name: 'field-phone', path: '/fields/creek-bottom', size: PHONE },
  { name: 'field-desktop', path: '/fields/creek-bottom', size: DESKTOP },
  { name: 'cab-phone', path: '/cab', size: PHONE },
  { name: 'cab-desktop', path: '/cab', size: DESKTOP },
  { name: 'cab-reading-phone', path: '/cab/reading', size: PHONE, role: 'crew' },
  { name: 'sign-in-phone', path: '/sign-in', size: PHONE },
  { name: 'messages-desktop', path: '/messages', size: DESKTOP, role: 'planner' },
  { name: 'settings-desktop', path: '/settings', size: SMALL_DESKTOP, role: 'planner' },
  { name: 'people-desktop', path: '/people', size: DESKTOP, role: 'owner' },
]

const executable = findChromium()
if (executable === undefined) {
  process.stderr.write('No Chromium found: install it (Debian: chromium) or set CHROMIUM to its path.\n')
  process.exit(2)
}
mkdirSync(FOLDER, { recursive: true })
const only = process.argv[2]
const here = await siteInBrowser(executable)
try {
  for (const { name, path, size, role, dark, whole } of PICTURES) {
    if (only !== undefined && !name.includes(only)) continue
    const context = await here.context(role, { viewport: size, colorScheme: dark ? 'dark' : 'light' })
    const page = await context.newPage()
    await page.goto(path)
    await page.screenshot({ path: `${FOLDER}${name}.png`, fullPage: whole === true })
    await context.close()
    process.stdout.write(`${name}.png\n`)
  }
} finally {
  await here.close()
}
