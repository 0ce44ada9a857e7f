/** Programs that get every message of the farm: the list, and the secret of a new one, shown once. */
import { html } from 'hono/html'
import type { Hook } from '#app/addresses.ts'
import type { HookAdded } from '#app/hooks.ts'
import type { Farm } from '#core/operation/farm.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { wordsOf } from '#edges/web/words/of.ts'

export interface HooksShown {
  readonly hooks: readonly Hook[]
  /** Shown this once. */
  readonly secret?: { readonly url: string; readonly text: string }
  readonly refused?: { readonly url: string; readonly fault: Extract<HookAdded, { kind: 'refused' }>['fault'] }
  readonly tested?: boolean
}

export function hooksPage(farm: Farm, viewer: Viewer, { hooks, secret, refused, tested }: HooksShown): Markup {
  const words = wordsOf(viewer.language)
  const { hooks: said } = words.reach
  const button = (hook: Hook, deed: 'test' | 'secret' | 'remove') =>
    html`<form class="inline" method="post" action="/messages/hooks/${deed}"><input type="hidden" name="id" value="${hook.id}"><button class="quiet-button" aria-label="${said.named(said.deeds[deed], hook.url)}">${said.deeds[deed]}</button></form>`
  return layout({
    farm,
    viewer,
    title: said.title,
    current: 'messages',
    body: html`<h1>${said.sentence(hooks.length)}</h1>
<p>${said.help}</p>
${secret ? html`<p class="alarm" role="status">${said.secretOnce(secret.url)} <code>${secret.text}</code></p>` : ''}
${refused ? html`<p class="alarm" role="alert">${said.faults[refused.fault]}</p>` : ''}
${tested ? html`<p class="told" role="status">${said.tested}</p>` : ''}
<ul>${hooks.map((hook) => html`<li><code>${hook.url}</code> ${button(hook, 'test')} ${button(hook, 'secret')} ${button(hook, 'remove')}</li>`)}</ul>
<form class="plain" method="post" action="/messages/hooks">
<label>${said.address}<input name="url" type="url" required maxlength="2000" placeholder="https://" value="${refused?.url ?? ''}"></label>
<button>${said.add}</button>
</form>
<p><a href="/messages">${words.pages.messages}</a></p>`,
  })
}
