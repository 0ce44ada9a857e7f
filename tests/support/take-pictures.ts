/** Writes the pictures of the pages into docs/pictures/, from the demo farm: `node tests/support/take-pictures.ts`. */
import { mkdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Role } from '#app/people-port.ts'
import { createHighsSolver } from '#edges/solver/highs-solver.ts'
import { siteOf } from '#tests/edges/web/support/people.ts'
import { planningSite } from '#tests/edges/web/support/planning-site.ts'
import { type SiteInBrowser, siteInBrowser } from '#tests/edges/web/support/site-in-browser.ts'
import { toldSeason } from '#tests/edges/web/support/told-season.ts'
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
  /** In the midst of the harvest, with cuts and readings told; the demo's first morning unless said. */
  readonly told?: boolean
  /** The whole length of the page instead of the first screen. */
  readonly whole?: boolean
}

const PICTURES: readonly Picture[] = [
  { name: 'today-phone', path: '/', size: PHONE },
  { name: 'today-phone-dark', path: '/', size: PHONE, dark: true },
  { name: 'today-desktop', path: '/', size: DESKTOP },
  { name: 'today-desktop-dark', path: '/', size: DESKTOP, dark: true },
  { name: 'week-phone', path: '/week', size: PHONE, role: 'planner' },
  { name: 'week-desktop', path: '/week', size: SMALL_DESKTOP, role: 'planner' },
  { name: 'plans-desktop', path: '/plans', size: SMALL_DESKTOP, role: 'planner' },
  { name: 'fields-phone', path: '/fields', size: PHONE },
  { name: 'fields-desktop', path: '/fields', size: DESKTOP },
  { name: 'field-phone', path: '/fields/creek-bottom', size: PHONE, told: true },
  { name: 'field-desktop', path: '/fields/creek-bottom', size: DESKTOP, told: true },
  { name: 'season-phone', path: '/season', size: PHONE, told: true },
  { name: 'season-desktop', path: '/season', size: DESKTOP, told: true },
  { name: 'cab-phone', path: '/cab', size: PHONE },
  { name: 'cab-desktop', path: '/cab', size: DESKTOP },
  { name: 'cab-reading-phone', path: '/cab/reading', size: PHONE, role: 'crew' },
  { name: 'sign-in-phone', path: '/sign-in', size: PHONE },
  { name: 'messages-desktop', path: '/messages', size: DESKTOP, role: 'planner' },
  { name: 'settings-phone', path: '/settings', size: PHONE, role: 'planner' },
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
const solver = createHighsSolver()
const { site } = await planningSite(solver, { openReading: true })
const here = await siteInBrowser(executable, site)
let toldHere: SiteInBrowser | undefined
try {
  for (const { name, path, size, role, dark, told, whole } of PICTURES) {
    if (only !== undefined && !name.includes(only)) continue
    if (told) toldHere ??= await siteInBrowser(executable, await toldSite())
    const context = await (told ? toldHere! : here).context(role, {
      viewport: size,
      colorScheme: dark ? 'dark' : 'light',
    })
    const page = await context.newPage()
    await page.goto(path)
    await page.screenshot({ path: `${FOLDER}${name}.png`, fullPage: whole === true })
    await context.close()
    process.stdout.write(`${name}.png\n`)
  }
} finally {
  await toldHere?.close()
  await here.close()
  await solver.close()
}

async function toldSite() {
  const { service, records, forecasts } = await toldSeason()
  return await siteOf(service, { openReading: true, forecasts }, undefined, { records })
}
