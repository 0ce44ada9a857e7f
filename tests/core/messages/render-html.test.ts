import { beforeAll, describe, expect, it } from 'vitest'
import type { MorningMessage } from '#core/messages/morning.ts'
import { escapeHtml, renderHtml } from '#core/messages/render-html.ts'
import { sayMorning } from '#core/messages/render-text.ts'
import { at, type Demo, demoDay, demoMorning, loadDemo } from '#tests/support/demo-day.ts'
import { wrongSigns } from '#tests/support/said.ts'

let demo: Demo
let message: MorningMessage
beforeAll(async () => {
  demo = await loadDemo()
  message = demoMorning(demo).message
})

/** Text between tags, entities undone, as a mail reader shows it. */
const shown = (html: string) =>
  html
    .replace(/<(style|title)[\s\S]*?<\/\1>/g, '')
    .replace(/<[^>]*>/g, '')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')

describe('the mail', () => {
  it('says every line of the text, in its order', () => {
    const text = shown(renderHtml(message))
    let from = 0
    for (const line of sayMorning(message)) {
      const found = text.indexOf(line.text, from)
      expect(found, line.text).toBeGreaterThanOrEqual(0)
      from = found + line.text.length
    }
    expect(wrongSigns(text)).toEqual([])
  })

  it('closes every tag it opens', () => {
    const open: string[] = []
    for (const [, slash, tag] of renderHtml(message).matchAll(/<(\/?)([a-z][a-z0-9]*)[^>]*>/g)) {
      if (tag === 'meta') continue
      if (slash) expect(open.pop()).toBe(tag)
      else open.push(tag!)
    }
    expect(open).toEqual([])
  })

  it('carries the language, and needs nothing from elsewhere: no script, no picture, no link', () => {
    const html = renderHtml(message)
    expect(html).toContain('<html lang="en">')
    expect(html).not.toMatch(/<script|<img|<link|https?:|url\(/)
  })

  it('marks fire by its words as well, not by colour alone', () => {
    const stop = demoDay(demo, at('2010-09-23T05:30-05:00')).message
    expect(stop.fire.level).toBe('stop')
    expect(shown(renderHtml(stop))).toMatch(/Fire · FIRE STOP/)
  })
})

describe('names from the farm file', () => {
  it('cannot become markup', () => {
    const name = `<script>alert("x")</script> & 'Sons'`
    const html = renderHtml({ ...message, farmName: name })
    expect(html).not.toContain('<script>')
    expect(shown(html)).toContain(name)
    expect(escapeHtml(`<&>"'`)).toBe('&lt;&amp;&gt;&quot;&#39;')
  })
})
