/** Settings: the farm file as it was understood, and what in it gives pause. */
import { html } from 'hono/html'
import type { Farm } from '#core/farm/farm.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { wordsOf } from './words/of.ts'

export interface Settings {
  /** The farm file in plain text, as `npm run check` prints it. */
  readonly understood: string
  /** Faults that do not keep it from being used, one a line. */
  readonly warnings: readonly string[]
}

export function settingsPage(farm: Farm, viewer: Viewer, { understood, warnings }: Settings): Markup {
  const words = wordsOf(viewer.language)
  const { settings } = words
  return layout({
    title: `${words.pages.settings} · ${farm.name}`,
    farmName: farm.name,
    date: '',
    language: viewer.language,
    current: 'settings',
    viewer,
    words,
    body: html`<h1>${settings.sentence(warnings.length)}</h1>
<p>${settings.help}</p>
${warnings.length > 0 ? html`<ul class="alarm">${warnings.map((warning) => html`<li>${warning}</li>`)}</ul>` : ''}
<pre class="scrolled" role="region" tabindex="0" aria-label="${words.pages.settings}">${understood}</pre>
<p><a href="/sources">${words.sources.title}</a></p>
<p><a href="/skill">${words.skill.title}</a></p>
<p><a href="/api">API</a></p>`,
  })
}
