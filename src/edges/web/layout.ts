/** What every page has around its text. */
import { html } from 'hono/html'
import type { Farm, Language } from '#core/operation/farm.ts'
import { ICON, LIVE_SCRIPT, STYLE } from './assets.ts'
import { mayDo, type Need, type Rights, ROUTES } from './sign-in/roles.ts'
import { wordsOf } from './words/of.ts'
import type { PageName, Words } from './words/words.ts'

export type Markup = ReturnType<typeof html>

export interface Page {
  readonly farm: Pick<Farm, 'name'>
  readonly viewer: Viewer
  /** The name of the farm is put behind it. */
  readonly title: string
  /** Of the day that is shown, as it is read. */
  readonly date?: string
  /** Which of the pages linked at the top it is; most are none. */
  readonly current?: PageName
  readonly body: Markup
  /** What the text is in; the viewer's own unless told. */
  readonly language?: Language
  /** A look of its own: large type and high contrast in the cab. */
  readonly look?: 'cab'
  /** Address of the page's script; most have none. */
  readonly script?: string
}

/** What of the page depends on who looks. */
export interface Viewer {
  /** His own, where he signed in; the farm's otherwise. */
  readonly language: Language
  readonly rights: Rights
  /** Whether there is a sign-in to offer. */
  readonly canSignIn: boolean
  /** Whether there is a book to tell things to, and so a cab page. */
  readonly canTell: boolean
  /** Whether the farm file can be shown. */
  readonly hasSettings: boolean
  /** Which plan the page shows, so that it can say when there is a newer one. */
  readonly shown?: { readonly made: string; readonly plan: string; readonly outdated: boolean }
}

/** Whoever has not signed in, where all he may do is that. */
export const stranger = ({ language }: Pick<Farm, 'language'>): Viewer => ({
  language,
  rights: 'stranger',
  canSignIn: false,
  canTell: false,
  hasSettings: false,
})

const PATHS: { readonly [P in PageName]: string } = {
  today: '/',
  week: '/week',
  fields: '/fields',
  cab: '/cab',
  messages: '/messages',
  season: '/season',
  settings: '/settings',
  people: '/people',
}
/** The pages that are ready to be linked, in the order of the line at the top. */
const LINKED: readonly PageName[] = ['today', 'week', 'fields', 'cab', 'season', 'messages', 'settings', 'people']

export function layout({ farm, viewer, title, date, current, body, language, look, script }: Page): Markup {
  const words = wordsOf(viewer.language)
  const linked = LINKED.filter((name) => isServed(name, viewer)).filter((name) =>
    mayDo(viewer.rights, ROUTES[`GET ${PATHS[name]}`] as Need, 'GET'),
  )
  return html`<!doctype html>
<html lang="${language ?? viewer.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="theme-color" content="#fbf8f1" media="(prefers-color-scheme: light)">
<meta name="theme-color" content="#1b1916" media="(prefers-color-scheme: dark)">
<title>${title} · ${farm.name}</title>
<link rel="stylesheet" href="${STYLE.path}">
<link rel="icon" href="${ICON.path}" type="image/svg+xml">
<link rel="manifest" href="/manifest.webmanifest">${[script, viewer.shown && LIVE_SCRIPT.path].map((path) =>
    path
      ? html`
<script src="${path}" type="module"></script>`
      : '',
  )}
</head>
<body class="${look ?? 'sheet'}">
<a class="skip" href="#text">${words.skip}</a>
<header class="top">
<p class="farm">${date === undefined ? farm.name : `${farm.name} · ${date}`}</p>
<nav aria-label="${words.pagesLabel}"><ul>${linked.map((name) => link(name, current, words))}${account(viewer, words)}</ul></nav>
</header>
${viewer.shown ? news(viewer.shown, words) : ''}<main id="text">
${body}
</main>
</body>
</html>
`
}

/** Hidden until there is news; a page drawn while a newer plan is made says so by itself. */
function news({ made, plan, outdated }: NonNullable<Viewer['shown']>, { live }: Words): Markup {
  const hidden = html` hidden`
  return html`<div class="news" id="news" role="status" data-made="${made}" data-plan="${plan}"${outdated ? '' : hidden}>
<p data-say="making"${outdated ? '' : hidden}>${live.making} <a href="">${live.look}</a></p>
<p data-say="newer" hidden>${live.newer} <a href="">${live.show}</a></p>
</div>
`
}

const link = (name: PageName, current: PageName | undefined, words: Words): Markup =>
  name === current
    ? html`<li><a href="${PATHS[name]}" aria-current="page">${words.pages[name]}</a></li>`
    : html`<li><a href="${PATHS[name]}">${words.pages[name]}</a></li>`

function account({ rights, canSignIn }: Viewer, words: Words): Markup | string {
  if (rights === 'onlooker') return canSignIn ? html`<li><a href="/sign-in">${words.signIn.title}</a></li>` : ''
  return rights === 'stranger' ? '' : html`<li><a href="/you">${words.you.title}</a></li>`
}

/** Some pages are there only where what they show is. */
function isServed(name: PageName, { canTell, hasSettings }: Viewer): boolean {
  if (name === 'settings') return hasSettings
  return (name !== 'cab' && name !== 'messages') || canTell
}
