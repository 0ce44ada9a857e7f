/** What the colours and marks of a ribbon mean, each with its word. */
import { html } from 'hono/html'
import type { Markup } from './layout.ts'
import type { Words } from './words/words.ts'

const swatch = (inside: Markup): Markup =>
  html`<svg width="22" height="14" aria-hidden="true" focusable="false">${inside}</svg>`
const patch = (name: string): Markup => swatch(html`<rect class="${name}" width="22" height="14" rx="3"/>`)

export function ribbonKey({ key }: Words): Markup {
  return html`<ul class="key">
<li>${patch('grain-fit')}${key.fit}</li>
<li>${patch('grain-wet')}${key.wet}</li>
<li>${patch('grain-brittle')}${key.brittle}</li>
<li>${swatch(html`<rect width="22" height="14" rx="3" fill="url(#hatch)"/>`)}${key.held}</li>
<li>${swatch(html`<path class="grain-fit" d="M0 6L22 1V13L0 8Z"/>`)}${key.thickness}</li>
<li>${swatch(html`<path class="key-line" d="M0 10C8 10 12 4 22 4" fill="none" stroke-width="2"/>`)}${key.line}</li>
<li>${swatch(html`<path class="key-line" d="M0 7H22" stroke-width="1" stroke-dasharray="1 4"/>`)}${key.band}</li>
<li>${swatch(html`<rect class="run" y="5" width="22" height="4" rx="2"/>`)}${key.run}</li>
</ul>`
}
