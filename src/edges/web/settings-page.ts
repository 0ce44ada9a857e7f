/** Settings: the farm file as it was understood, line by line, what in it gives pause, and what is wrong with it by now. */
import { html } from 'hono/html'
import type { FarmSettings, FileNow, UnderstoodSetting } from '#app/settings-port.ts'
import type { Farm } from '#core/operation/farm.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { wordsOf } from './words/of.ts'
import type { SettingsWords } from './words/settings.ts'

/** Deeper ones are drawn like this. */
const DEEPEST = 3

export async function settingsPage(farm: Farm, viewer: Viewer, settings: FarmSettings): Promise<Markup> {
  const words = wordsOf(viewer.language)
  const said = words.settings
  const { warnings, lines } = settings
  const now = await settings.fileNow()
  return layout({
    farm,
    viewer,
    title: words.pages.settings,
    current: 'settings',
    body: html`<h1>${sentence(now, warnings.length, said)}</h1>
${faults(now, said)}
${warnings.length > 0 ? html`<section aria-labelledby="pause"><h2 id="pause">${said.pause}</h2>${list(warnings)}</section>` : ''}
<p>${said.help}</p>
<div lang="en">
${sections(lines).map((section) => sectionOf(section, said))}
</div>
<p><a href="/sources">${words.sources.title}</a></p>
<p><a href="/skill">${words.skill.title}</a></p>
<p><a href="/api">API</a></p>`,
  })
}

function sentence(now: FileNow, warnings: number, said: SettingsWords): string {
  switch (now.kind) {
    case 'faulty':
      return said.faulty(now.faults.length)
    case 'changed':
      return said.changed
    case 'same':
      return said.sentence(warnings)
  }
}

function faults(now: FileNow, said: SettingsWords): Markup | string {
  if (now.kind === 'same') return ''
  if (now.kind === 'faulty') return html`<p class="lede">${said.stillRuns}</p>${list(now.faults)}`
  return html`<p class="lede">${said.startAgain}</p>${now.warnings.length > 0 ? list(now.warnings) : ''}`
}

const list = (lines: readonly string[]): Markup =>
  html`<ul class="alarm" lang="en">${lines.map((line) => html`<li>${line}</li>`)}</ul>`

/** Each begins after an empty line. */
function sections(lines: readonly UnderstoodSetting[]): UnderstoodSetting[][] {
  const found: UnderstoodSetting[][] = [[]]
  for (const line of lines) {
    if (line.text === '') found.push([])
    else found.at(-1)!.push(line)
  }
  return found.filter((section) => section.length > 0)
}

/** The first line is a heading where the others belong to it. */
function sectionOf(lines: readonly UnderstoodSetting[], said: SettingsWords): Markup {
  const headed = lines.slice(1).every(({ depth }) => depth > 0)
  const [heading, rest] = headed ? [lines[0], lines.slice(1)] : [undefined, lines]
  return html`<section class="understood">${heading ? html`<h2>${heading.text}</h2>` : ''}
<ul>
${rest.map(
  ({
    text,
    depth,
    line,
  }) => html`<li class="depth-${Math.min(DEEPEST, Math.max(0, headed ? depth - 1 : depth))}"><span>${text}</span>${line === undefined ? '' : html` <small>${said.line(line)}</small>`}</li>
`,
)}</ul></section>`
}
