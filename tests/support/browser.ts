/** A Chromium for tests and pictures: any that is found on the machine. */
import { existsSync } from 'node:fs'
import { type Browser, chromium } from 'playwright-core'

const USUAL_PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/opt/google/chrome/chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
]
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-lcd-text',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** The path in CHROMIUM, or the first of the usual places where there is one. */
export function findChromium(): string | undefined {
  const told = process.env.CHROMIUM
  return told ? told : USUAL_PLACES.find((path) => existsSync(path))
}

/**
 * Whether tests in a browser can run. Without one they are skipped with a loud line; in CI that is a failure.
 * @throws in CI when there is no browser.
 */
export function browserOrSkip(): string | undefined {
  const path = findChromium()
  if (path === undefined) {
    const say = 'NO CHROMIUM FOUND: the tests in a browser were NOT run. Install it (Debian: chromium) or set CHROMIUM.'
    if (process.env.CI === 'true') throw new Error(say)
    process.stderr.write(`\n*** ${say} ***\n\n`)
  }
  return path
}

export const openBrowser = (executablePath: string): Promise<Browser> =>
  chromium.launch({ executablePath, args: QUIET, headless: true })
