/** How messages reach the person who looks: notes on his devices, mail, and links to calendar and plain text. */
import { html } from 'hono/html'
import type { PushAddress } from '#app/addresses.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { PUSH_SCRIPT } from '#edges/web/assets.ts'
import { layout, type Markup, type Viewer } from '#edges/web/layout.ts'
import { wordsOf } from '#edges/web/words/of.ts'
import type { Words } from '#edges/web/words/words.ts'

export interface YouShown {
  readonly person: Person
  readonly devices: readonly PushAddress[]
  /** Undefined where he has no address. */
  readonly morningMail: boolean | undefined
  readonly calendar: string
  readonly text: string
  readonly pushKey: string
  /** How many ways a test went, where one was just asked for. */
  readonly tested: number | undefined
}

export function youMessagesPage(farm: Farm, viewer: Viewer, shown: YouShown): Markup {
  const words = wordsOf(viewer.language)
  const { reach } = words
  const { person, devices, morningMail, tested } = shown
  return layout({
    farm,
    viewer,
    title: reach.title,
    script: PUSH_SCRIPT.path,
    body: html`<h1>${reach.sentence(person.email !== undefined, devices.length)}</h1>
${tested === undefined ? '' : html`<p class="told" role="status">${reach.tested(tested)}</p>`}
<form method="post" action="/you/messages/test"><button>${reach.test}</button></form>
${notes(shown, words)}
${morningMail === undefined ? '' : mail(morningMail, words)}
${links(shown, words)}`,
  })
}

function notes({ devices, pushKey }: YouShown, { reach }: Words): Markup {
  const texts = reach.pushStates
  return html`<section aria-labelledby="notes"><h2 id="notes">${reach.notesTitle}</h2>
<p>${reach.notesHelp}</p>
<div data-push-key="${pushKey}" data-on="${texts.on}" data-off="${texts.off}" data-denied="${texts.denied}" data-unsupported="${texts.unsupported}" data-failed="${texts.failed}">
<p class="push-state" role="status">${texts.noScript}</p>
<button class="push-on" type="button" hidden>${reach.turnOn}</button>
<button class="push-off" type="button" hidden>${reach.turnOff}</button>
</div>
${
  devices.length === 0
    ? ''
    : html`<ul>${devices.map(
        ({ id, endpoint }, n) => html`<li>${reach.device(n + 1, new URL(endpoint).host)}
<form class="inline" method="post" action="/you/messages/devices/remove"><input type="hidden" name="id" value="${id}"><button class="quiet-button" aria-label="${reach.removeDevice(n + 1)}">${reach.remove}</button></form></li>`,
      )}</ul>`
}
</section>`
}

const mail = (
  wanted: boolean,
  { reach }: Words,
): Markup => html`<section aria-labelledby="mail"><h2 id="mail">${reach.mailTitle}</h2>
<p>${wanted ? reach.mailOn : reach.mailOff}</p>
<form method="post" action="/you/messages/mail"><input type="hidden" name="wanted" value="${wanted ? 'no' : 'yes'}"><button class="quiet-button">${wanted ? reach.mailEnd : reach.mailBegin}</button></form>
</section>`

const links = (
  { calendar, text }: YouShown,
  { reach }: Words,
): Markup => html`<section aria-labelledby="links"><h2 id="links">${reach.linksTitle}</h2>
<p>${reach.linksHelp}</p>
<dl class="facts">
<dt>${reach.calendar}</dt><dd><code>${calendar}</code></dd>
<dt>${reach.text}</dt><dd><code>${text}</code></dd>
<dt>${reach.shortText}</dt><dd><code>${text}?short</code></dd>
</dl>
<form method="post" action="/you/messages/links"><button class="quiet-button">${reach.renewLinks}</button></form>
</section>`
