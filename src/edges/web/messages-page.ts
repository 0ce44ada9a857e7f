/** Messages: what went out, what waits, what did not get through, and who is reached how. */
import { html, raw } from 'hono/html'
import type { Address } from '#app/addresses.ts'
import type { Circuit } from '#app/circuit.ts'
import type { Channel, KeptParcel } from '#app/outbox-port.ts'
import type { Manner } from '#core/messages/words/format.ts'
import type { Farm, Person } from '#core/operation/farm.ts'
import { layout, type Markup, type Viewer } from './layout.ts'
import { type MailShown, wayState } from './reach/reach.ts'
import { mayDo } from './sign-in/roles.ts'
import { dateMark, timeMark } from './when.ts'
import { wordsOf } from './words/of.ts'
import type { Words } from './words/words.ts'

export interface MessagesShown {
  readonly parcels: readonly KeptParcel[]
  readonly people: readonly PersonShown[]
  /** What was just done. */
  readonly told: 'resent' | { readonly tested: number } | undefined
  /** Absent where nobody can sign up for anything. */
  readonly ways: WaysShown | undefined
  readonly nowEpochH: number
}

interface PersonShown {
  readonly person: Person
  readonly addresses: readonly Address[]
  /** Undefined where no address is on file. */
  readonly morningMail: boolean | undefined
}

export interface WaysShown {
  readonly mail: MailShown
  readonly circuitOf: (channel: Channel) => Circuit
  readonly hooks: number
}

export function messagesPage(farm: Farm, viewer: Viewer, shown: MessagesShown): Markup {
  const words = wordsOf(viewer.language)
  const { messages } = words
  const { parcels, people, told, ways } = shown
  const manner = { language: viewer.language, timeZone: farm.timeZone }
  const count = (...states: KeptParcel['state'][]) => parcels.filter(({ state }) => states.includes(state)).length
  return layout({
    farm,
    viewer,
    title: words.pages.messages,
    current: 'messages',
    body: html`<h1>${messages.sentence(count('sent'), count('waiting', 'sending'), count('dead', 'lapsed'))}</h1>
${told ? html`<p class="told" role="status">${told === 'resent' ? messages.resent : messages.tested(told.tested)}</p>` : ''}
${parcels.length > 0 ? table(shown, manner, words) : ''}
<section aria-labelledby="reached"><h2 id="reached">${messages.reachedTitle}</h2>
<ul>${people.map((each) => personLine(each, words, viewer, ways !== undefined))}</ul>
${ways ? testForm(people, words) : ''}
</section>
${ways ? waysOut(ways, { words, viewer, manner, nowEpochH: shown.nowEpochH }) : ''}`,
  })
}

function table({ parcels, people }: MessagesShown, manner: When, words: Words): Markup {
  const names = new Map(people.map(({ person: { id, name } }) => [id, name]))
  const { messages } = words
  return html`<div class="scrolled" role="region" tabindex="0" aria-label="${words.pages.messages}"><table>
<caption class="hidden">${words.pages.messages}</caption>
<thead><tr><th scope="col">${messages.column.when}</th><th scope="col">${messages.column.what}</th><th scope="col">${messages.column.to}</th><th scope="col">${messages.column.state}</th></tr></thead>
<tbody>
${parcels.map((parcel) => row(parcel, names.get(parcel.recipient) ?? parcel.recipient, manner, words))}
</tbody></table></div>`
}

function row(parcel: KeptParcel, name: string, manner: When, { messages }: Words): Markup {
  const ended = parcel.state === 'dead' || parcel.state === 'lapsed'
  const what = messages.kinds[parcel.kind] ?? parcel.kind
  return html`<tr>
<th scope="row">${timeMark(parcel.touchedEpochH, manner)}</th>
<td>${what}<small>${dateMark(Temporal.PlainDate.from(parcel.date), manner)}</small></td>
<td>${name}<small>${messages.channels[parcel.channel]}</small></td>
<td>${messages.states[parcel.state]}${parcel.lastReason === '' ? '' : html`<small lang="en">${parcel.lastReason}</small>`}${
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

function personLine(
  { person, addresses, morningMail }: PersonShown,
  words: Words,
  { rights }: Viewer,
  canChange: boolean,
): Markup {
  const { ways } = words.reach
  const ended = morningMail === false && person.role !== 'crew'
  const line = `${person.name}, ${words.roles[person.role]}: ${reached(addresses, words)}${ended ? `; ${ways.noMorningMail}` : ''}`
  // The crew gets no morning mail that could end.
  const isOffered = canChange && morningMail !== undefined && person.role !== 'crew' && mayDo(rights, 'planner', 'POST')
  if (!isOffered) return html`<li>${line}</li>`
  return html`<li>${line}
<form class="inline" method="post" action="/messages/mail"><input type="hidden" name="person" value="${person.id}"><input type="hidden" name="wanted" value="${morningMail ? 'no' : 'yes'}"><button class="quiet-button" aria-label="${ways.morningMailNamed(!morningMail, person.name)}">${ways.morningMail(!morningMail)}</button></form></li>`
}

const testForm = (
  people: readonly PersonShown[],
  { reach, messages }: Words,
): Markup => html`<form class="plain" method="post" action="/messages/test">
<label>${reach.ways.testTo}<select name="person">${people.map(({ person }) => html`<option value="${person.id}">${person.name}</option>`)}</select></label>
<button>${messages.test}</button>
</form>`

type When = Pick<Manner, 'language' | 'timeZone'>

interface Around {
  readonly words: Words
  readonly viewer: Viewer
  readonly manner: When
  readonly nowEpochH: number
}

/** Each way out of the house: by what, and whether it works at the moment. */
function waysOut({ mail, circuitOf, hooks }: WaysShown, around: Around): Markup {
  const { words, viewer } = around
  const { ways, hooks: hookWords } = words.reach
  const state = (channel: Channel) => stateOf(circuitOf(channel), around)
  const signed = mail.signedFor === undefined ? ways.unsigned : ways.signedFor(mail.signedFor)
  const mailText = mail.server === undefined ? ways.mailPrinted : `${ways.mailBy(mail.server, mail.from)}, ${signed}`
  return html`<section aria-labelledby="ways"><h2 id="ways">${ways.title}</h2>
<ul>
<li>${mailText}: ${state('mail')}</li>
<li>${words.messages.channels.push}: ${state('push')}</li>
<li>${ways.hooks(hooks)}: ${state('webhook')}${mayDo(viewer.rights, 'owner', 'GET') ? html` <a href="/messages/hooks">${hookWords.title}</a>` : ''}</li>
</ul>
</section>`
}

function stateOf(circuit: Circuit, { words, manner, nowEpochH }: Around): Markup | string {
  const { ways } = words.reach
  switch (wayState(circuit, nowEpochH)) {
    case 'works':
      return ways.works
    case 'trying':
      return ways.trying(circuit.failures)
    case 'paused':
      return raw(ways.paused(`${timeMark(circuit.openUntilEpochH, manner)}`, circuit.failures))
  }
}
