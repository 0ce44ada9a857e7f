/** Messages: what went out, what waits, what did not get through, and who is reached how. */
import { html } from 'hono/html'
import type { Farm, Person } from '#core/farm/farm.ts'
import type { Address } from '#work/addresses.ts'
import type { KeptParcel } from '#work/outbox-port.ts'
import { sayTime } from '#work/record-faults.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

export interface MessagesShown {
  readonly parcels: readonly KeptParcel[]
  readonly people: readonly { readonly person: Person; readonly addresses: readonly Address[] }[]
  readonly resent: boolean
}

export function messagesPage(farm: Farm, viewer: Viewer, { parcels, people, resent }: MessagesShown): Markup {
  const words = wordsOf(viewer.language)
  const { messages } = words
  const count = (...states: KeptParcel['state'][]) => parcels.filter(({ state }) => states.includes(state)).length
  return layout({
    title: `${words.pages.messages} · ${farm.name}`,
    farmName: farm.name,
    date: '',
    language: viewer.language,
    current: 'messages',
    viewer,
    words,
    body: html`<h1>${messages.sentence(count('sent'), count('waiting', 'sending'), count('dead', 'lapsed'))}</h1>
${resent ? html`<p class="told" role="status">${messages.resent}</p>` : ''}
${parcels.length > 0 ? table(parcels, farm, words) : ''}
<section aria-labelledby="reached"><h2 id="reached">${messages.reachedTitle}</h2>
<ul>${people.map(({ person, addresses }) => html`<li>${person.name}, ${words.roles[person.role]}: ${reached(addresses, words)}</li>`)}</ul>
</section>`,
  })
}

function table(parcels: readonly KeptParcel[], farm: Farm, words: Words): Markup {
  const { messages } = words
  return html`<div class="scrolled" role="region" tabindex="0" aria-label="${words.pages.messages}"><table>
<caption class="hidden">${words.pages.messages}</caption>
<thead><tr><th scope="col">${messages.column.when}</th><th scope="col">${messages.column.what}</th><th scope="col">${messages.column.to}</th><th scope="col">${messages.column.state}</th></tr></thead>
<tbody>
${parcels.map((parcel) => row(parcel, farm, words))}
</tbody></table></div>`
}

function row(parcel: KeptParcel, farm: Farm, { messages }: Words): Markup {
  const name = farm.people.find(({ id }) => id === parcel.recipient)?.name ?? parcel.recipient
  const ended = parcel.state === 'dead' || parcel.state === 'lapsed'
  const what = messages.kinds[parcel.kind] ?? parcel.kind
  return html`<tr>
<th scope="row">${sayTime(parcel.touchedEpochH, farm.timeZone)}</th>
<td>${what}<small>${parcel.date}</small></td>
<td>${name}<small>${messages.channels[parcel.channel]}</small></td>
<td>${messages.states[parcel.state]}${parcel.lastReason === '' ? '' : html`<small>${parcel.lastReason}</small>`}${
    ended
      ? html`<form method="post" action="/messages/resend"><input type="hidden" name="key" value="${parcel.key}"><button class="quiet-button" aria-label="${messages.resendNamed(what, name)}">${messages.resend}</button></form>`
      : ''
  }</td>
</tr>
`
}

const reached = (addresses: readonly Address[], { messages }: Words): string =>
  addresses.length === 0
    ? messages.notReached
    : addresses
        .map(({ channel, target }) =>
          channel === 'mail' ? `${messages.channels.mail}, ${target}` : messages.channels[channel],
        )
        .join('; ')
