/** Writes the pictures of the pages into docs/pictures/, from the demo farm: `node tests/support/take-pictures.ts`. */
import { mkdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { demoService } from '#tests/edges/web/support/demo-service.ts'
import { listen } from '#tests/edges/web/support/listen.ts'
import { findChromium, openBrowser } from './browser.ts'

const FOLDER = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))
const PHONE = { width: 360, height: 760 }
const DESKTOP = { width: 1200, height: 780 }

interface Picture {
  readonly name: string
  readonly path: string
  readonly size: { readonly width: number; readonly height: number }
  readonly dark?: boolean
  /** The whole length of the page instead of the first screen. */
  readonly whole?: boolean
}

const PICTURES: readonly Picture[] = [
  { name: 'today-phone', path: '/', size: PHONE },
  { name: 'today-phone-dark', path: '/', size: PHONE, dark: true },
  { name: 'today-desktop', path: '/', size: DESKTOP },
  { name: 'today-desktop-dark', path: '/', size: DESKTOP, dark: true },
  { name: 'fields-phone', path: '/fields', size: PHONE },
  { name: 'fields-desktop', path: '/fields', size: DESKTOP },
  { name: 'field-phone', path: '/fields/creek-bottom', size: PHONE },
  { name: 'field-desktop', path: '/fields/creek-bottom', size: DESKTOP },
]

const executable = findChromium()
if (executable === undefined) {
  process.stderr.write('No Chromium found: install it (Debian: chromium) or set CHROMIUM to its path.\n')
  process.exit(2)
}
mkdirSync(FOLDER, { recursive: true })
const only = process.argv[2]
const [site, browser] = await Promise.all([listen(await demoService()), openBrowser(executable)])
try {
  for (const { name, path, size, dark, whole } of PICTURES) {
    if (only !== undefined && !name.includes(only)) continue
    const page = await browser.newPage({ viewport: size, colorScheme: dark ? 'dark' : 'light' })
    await page.goto(site.origin + path)
    await page.screenshot({ path: `${FOLDER}${name}.png`, fullPage: whole === true })
    await page.close()
    process.stdout.write(`${name}.png\n`)
  }
} finally {
  await browser.close()
  await site.close()
}
