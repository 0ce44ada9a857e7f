/** The pages of signing in, joining, and people. */
import { html } from 'hono/html'
import { type JoinFault, SHORTEST_PASSWORD } from '#app/people.ts'
import type { Account, ApiToken, AuditEntry, Invitation, Role } from '#app/people-port.ts'
import type { Farm, Language } from '#core/operation/farm.ts'
import { layout, stranger, type Viewer } from '#edges/web/layout.ts'
import { shortWhen } from '#edges/web/when.ts'
import { wordsOf } from '#edges/web/words/of.ts'

export function signInPage(
  farm: Farm,
  language: Language,
  said: { readonly next: string; readonly fault: 'wrong' | 'too-many' | undefined },
) {
  const words = wordsOf(language)
  const { signIn } = words
  return layout({
    farm,
    viewer: stranger({ language }),
    title: signIn.title,
    body: html`<h1>${signIn.title}</h1>
${said.fault ? html`<p class="alarm" role="alert">${signIn.faults[said.fault]}</p>` : ''}
<form class="plain" method="post" action="/sign-in">
<input type="hidden" name="next" value="${said.next}">
<label>${signIn.name}<input name="name" autocomplete="username" required maxlength="60"></label>
<label>${signIn.password}<input name="password" type="password" autocomplete="current-password" required></label>
<button>${signIn.button}</button>
</form>
<p class="quiet">${signIn.help}</p>`,
  })
}

export function joinPage(
  farm: Farm,
  {
    invitation,
    ...said
  }: {
    readonly invitation: Pick<Invitation, 'role' | 'language'>
    readonly name: string
    readonly fault: JoinFault | undefined
  },
) {
  const words = wordsOf(invitation.language)
  const { joining, signIn } = words
  return layout({
    farm,
    viewer: stranger(invitation),
    title: joining.title,
    body: html`<h1>${joining.sentence(farm.name, words.roles[invitation.role])}</h1>
${said.fault ? html`<p class="alarm" role="alert">${joining.faults[said.fault]}</p>` : ''}
<form class="plain" method="post">
<label>${signIn.name}<input name="name" autocomplete="username" required maxlength="60" value="${said.name}"></label>
<label>${signIn.password}<input name="password" type="password" autocomplete="new-password" required minlength="${SHORTEST_PASSWORD}"><small>${joining.passwordHelp(SHORTEST_PASSWORD)}</small></label>
<button>${joining.button}</button>
</form>`,
  })
}

export function youPage(farm: Farm, viewer: Viewer, me: Account) {
  const words = wordsOf(viewer.language)
  return layout({
    farm,
    viewer,
    title: words.you.title,
    body: html`<h1>${words.you.sentence(me.name, words.roles[me.role])}</h1>
<p><a href="/you/messages">${words.reach.title}</a></p>
<form method="post" action="/sign-out"><button>${words.you.signOut}</button></form>`,
  })
}

interface PeopleShown {
  readonly me: Account
  readonly accounts: readonly Account[]
  readonly tokens: readonly ApiToken[]
  readonly audit: readonly AuditEntry[]
  /** Shown this once. */
  readonly made: { readonly link?: string; readonly token?: string }
}

export function peoplePage(farm: Farm, viewer: Viewer, { me, accounts, tokens, audit, made }: PeopleShown) {
  const words = wordsOf(viewer.language)
  const { people } = words
  const manner = { language: viewer.language, timeZone: farm.timeZone }
  const names = new Map([...farm.people, ...accounts].map(({ id, name }) => [id, name]))
  const nameOf = (id: string) => names.get(id) ?? id
  // Of joining and inviting it is a role, else a person or a program.
  const aboutOf = ({ deed, about }: AuditEntry) =>
    deed === 'joined' || deed === 'invited' ? words.roles[about as Role] : nameOf(about)
  const roleSelect = html`<select name="role"><option value="crew">${words.roles.crew}</option><option value="planner">${words.roles.planner}</option><option value="owner">${words.roles.owner}</option></select>`
  return layout({
    farm,
    viewer,
    title: words.pages.people,
    current: 'people',
    body: html`<h1>${people.sentence(accounts.length)}</h1>
${made.link ? html`<p class="alarm" role="status">${people.linkMade} <code>${made.link}</code></p>` : ''}
${made.token ? html`<p class="alarm" role="status">${people.tokenMade} <code>${made.token}</code></p>` : ''}
<table><caption class="hidden">${words.pages.people}</caption>
<thead><tr><th scope="col">${people.name}</th><th scope="col">${people.role}</th><th scope="col"><span class="hidden">${people.remove}</span></th></tr></thead>
<tbody>${accounts.map(
      (account) => html`<tr><th scope="row">${account.name}</th><td>${words.roles[account.role]}</td><td>${
        account.id === me.id
          ? ''
          : html`<form method="post" action="/people/remove"><input type="hidden" name="id" value="${account.id}"><button class="quiet-button" aria-label="${people.removeNamed(account.name)}">${people.remove}</button></form>`
      }</td></tr>
`,
    )}</tbody></table>
<section aria-labelledby="invite"><h2 id="invite">${people.inviteTitle}</h2>
<form class="plain" method="post" action="/people/invite">
<label>${people.role}${roleSelect}</label>
<label>${people.language}<select name="language"><option value="en">English</option><option value="es">Español</option></select></label>
<button>${people.inviteButton}</button>
</form></section>
<section aria-labelledby="tokens"><h2 id="tokens">${people.tokensTitle}</h2>
<p>${people.tokensHelp}</p>
<ul>${tokens.map(
      (token) => html`<li>${token.name}, ${words.roles[token.role]}
<form class="inline" method="post" action="/people/tokens/end"><input type="hidden" name="digest" value="${token.digest}"><button class="quiet-button" aria-label="${people.removeNamed(token.name)}">${people.remove}</button></form></li>`,
    )}</ul>
<form class="plain" method="post" action="/people/tokens">
<label>${people.tokenName}<input name="name" required maxlength="60"></label>
<label>${people.role}${roleSelect}</label>
<button>${people.tokenButton}</button>
</form></section>
<section aria-labelledby="audit"><h2 id="audit">${people.auditTitle}</h2>
<ul>${audit.map((entry) => {
      const { atEpochH, by, deed, about } = entry
      return html`<li>${shortWhen(atEpochH, manner)} ${nameOf(by)} ${people.deeds[deed]}${about === '' ? '' : ` ${aboutOf(entry)}`}</li>`
    })}</ul></section>`,
  })
}
