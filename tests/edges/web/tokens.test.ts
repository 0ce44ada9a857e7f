import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { RIBBON_COLOURS } from '#core/messages/drawing.ts'
import { webApp } from '#edges/web/app.ts'
import { manifestOf } from '#edges/web/assets.ts'
import { demoService } from './support/demo-service.ts'

const read = (name: string) => readFileSync(new URL(`../../../src/edges/web/assets/${name}`, import.meta.url), 'utf8')
const tokens = read('tokens.css')

type Palette = { readonly [name: string]: string }

/** The values a block of the token file sets, over those it starts from. */
function palette(selector: RegExp, from: Palette = {}): Palette {
  const block = selector.exec(tokens)![1]!
  const set = [...block.matchAll(/--([\w-]+): (#[0-9a-f]{3,6});/g)].map(([, name, value]) => [name!, value!] as const)
  return { ...from, ...Object.fromEntries(set) }
}
const DARK = '@media screen and \\(prefers-color-scheme: dark\\) \\{\\s*'
const light = palette(/^:root \{([^}]*)\}/m)
const dark = palette(new RegExp(`${DARK}:root \\{([^}]*)\\}`), light)
const cab = palette(/^:root:has\(\.cab\) \{([^}]*)\}/m, light)
const cabDark = palette(new RegExp(`${DARK}:root:has\\(\\.cab\\) \\{([^}]*)\\}`), dark)

/** Relative luminance and contrast of two colours (WCAG 2.2, definitions). */
function luminance(hex: string): number {
  const full = hex.length === 4 ? hex.replace(/[0-9a-f]/g, (digit) => digit + digit) : hex
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(full.slice(at, at + 2), 16) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!
}
function contrast(one: string, other: string): number {
  const [high, low] = [luminance(one), luminance(other)].toSorted((a, b) => b - a)
  return (high! + 0.05) / (low! + 0.05)
}

describe('the colours', () => {
  it('are reckoned as WCAG does', () => {
    // WCAG 2.2: black on white is 21:1; #767676 is the lightest grey that has 4.5:1 on white (WebAIM, contrast checker).
    expect(contrast('#000', '#ffffff')).toBeCloseTo(21, 6)
    expect(contrast('#767676', '#fff')).toBeGreaterThanOrEqual(4.5)
    expect(contrast('#777777', '#fff')).toBeLessThan(4.5)
  })

  it('stand out from what they are written on: 4.5:1 for text, 7:1 for what is read first and in the cab (WCAG 1.4.3, 1.4.6)', () => {
    for (const [name, of] of Object.entries({ light, dark, cab, cabDark })) {
      for (const ground of [of.paper!, of.sheet!]) {
        expect(contrast(of.ink!, ground), `ink, ${name}`).toBeGreaterThanOrEqual(7)
        expect(contrast(of.quiet!, ground), `quiet, ${name}`).toBeGreaterThanOrEqual(4.5)
        expect(contrast(of.link!, ground), `link, ${name}`).toBeGreaterThanOrEqual(4.5)
      }
      expect(contrast(of.ink!, of['alarm-ground']!), `alarm, ${name}`).toBeGreaterThanOrEqual(7)
      // Marks that carry meaning: WCAG 1.4.11.
      expect(contrast(of.focus!, of.paper!), `focus, ${name}`).toBeGreaterThanOrEqual(3)
    }
    for (const of of [cab, cabDark]) expect(contrast(of.quiet!, of.paper!)).toBeGreaterThanOrEqual(7)
  })

  it('stand in one file: pages have no colour of their own, and mail, manifest and browser bar have the same', async () => {
    expect(read('pages.css')).not.toMatch(/#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(/)
    for (const [name, value] of Object.entries(RIBBON_COLOURS)) expect(light[name], name).toBe(value)
    expect(JSON.parse(manifestOf('A')) as object).toMatchObject({
      background_color: light.paper,
      theme_color: light.paper,
    })
    const page = await (await webApp(await demoService()).request('/')).text()
    expect(page).toContain(`<meta name="theme-color" content="${light.paper}" media="(prefers-color-scheme: light)">`)
    expect(page).toContain(`<meta name="theme-color" content="${dark.paper}" media="(prefers-color-scheme: dark)">`)
  })
})
